// What every request passes: its token, its deadline, its request id, and the barrier that keeps
// exceptions in. A real client calls through gRPC within the process.
#include "services/rpc/dispatcher.h"

#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <thread>
#include <vector>

#include "google/rpc/status.pb.h"
#include "rowproof/v1/pattern_service.grpc.pb.h"
#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

constexpr char kUuid[] = "6f2c0a1e-9d0b-4c57-8f4e-2b1d0c9a7e35";
constexpr char kSecretWords[] = "words of the patient";

class Observer : public RequestObserver {
 public:
  void Served(const ServedRequest& call) override {
    const std::lock_guard lock(mutex_);
    calls_.push_back(call);
    changed_.notify_all();
  }
  // Waits for the next one: a client may hear its answer first.
  ServedRequest Next() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [this] { return taken_ < calls_.size(); });
    return calls_[taken_++];
  }

 private:
  std::mutex mutex_;
  std::condition_variable changed_;
  std::vector<ServedRequest> calls_;
  size_t taken_ = 0;
};

using Work = std::function<absl::StatusOr<v1::Pattern>(usecases::RequestContext&)>;

// Serves one method by whatever the test wants done.
class Service : public v1::PatternService::Service {
 public:
  explicit Service(const Dispatcher& dispatcher) : dispatcher_(dispatcher) {}
  grpc::Status CreatePattern(grpc::ServerContext* context, const v1::CreatePatternRequest* request,
                             v1::Pattern* response) override {
    if (before) before(*context);
    return dispatcher_.Serve(*context, "PatternService.CreatePattern", *request, response, work);
  }

  std::function<void(const grpc::ServerContext&)> before;
  Work work;

 private:
  const Dispatcher& dispatcher_;
};

class DispatcherTest : public ::testing::Test {
 protected:
  DispatcherTest() {
    grpc::ServerBuilder builder;
    builder.RegisterService(&service_);
    server_ = builder.BuildAndStart();
    stub_ = v1::PatternService::NewStub(server_->InProcessChannel({}));
    service_.work = [this](usecases::RequestContext& context) {
      ++runs_;
      met_.deadline = context.deadline;
      met_.request_id = context.request_id;
      met_.digest = context.digest;
      met_.token_sha256 = context.token_sha256;
      return v1::Pattern();
    };
  }
  ~DispatcherTest() override { server_->Shutdown(); }

  grpc::Status Send(const v1::CreatePatternRequest& request = {}) {
    grpc::ClientContext context;
    return Send(context, request);
  }
  grpc::Status Send(grpc::ClientContext& context, const v1::CreatePatternRequest& request = {}) {
    return stub_->CreatePattern(&context, request, &answer_);
  }
  grpc::Status SendWithId(const std::string& id, const std::string& title = "Shawl") {
    v1::CreatePatternRequest request;
    request.set_title(title);
    request.set_request_id(id);
    return Send(request);
  }
  grpc::Status SendWithToken(const std::string& header) {
    grpc::ClientContext context;
    context.AddMetadata("authorization", header);
    return Send(context);
  }
  static bool Tells(const grpc::Status& status, const std::string& words) {
    return (status.error_message() + status.error_details()).find(words) != std::string::npos;
  }

  Observer observer_;
  Dispatcher dispatcher_{observer_};
  Service service_{dispatcher_};
  std::unique_ptr<grpc::Server> server_;
  std::unique_ptr<v1::PatternService::Stub> stub_;
  v1::Pattern answer_;
  int runs_ = 0;
  usecases::RequestContext met_;
};

TEST_F(DispatcherTest, GivesTheAnswerOfTheWork) {
  service_.work = [](usecases::RequestContext& context) {
    context.account.value = "ada";
    v1::Pattern pattern;
    pattern.set_title("Shawl");
    return pattern;
  };
  EXPECT_TRUE(Send().ok());
  EXPECT_EQ(answer_.title(), "Shawl");
  const ServedRequest served = observer_.Next();
  EXPECT_EQ(served.method, "PatternService.CreatePattern");
  EXPECT_EQ(served.code, grpc::StatusCode::OK);
  EXPECT_EQ(served.account, "ada");
  EXPECT_EQ(served.incident, "");
}

TEST_F(DispatcherTest, GivesTheRefusalOfTheWorkWithItsDetails) {
  service_.work = [](usecases::RequestContext&) -> absl::StatusOr<v1::Pattern> {
    return StaleEtag("patterns/a");
  };
  const grpc::Status status = Send();
  EXPECT_EQ(status.error_code(), grpc::StatusCode::ABORTED);
  EXPECT_TRUE(Tells(status, "STALE_ETAG"));
  EXPECT_EQ(observer_.Next().code, grpc::StatusCode::ABORTED);
}

TEST_F(DispatcherTest, KeepsTheWordsOfAnExceptionToItself) {
  const std::vector<Work> throwing = {
      [](usecases::RequestContext&) -> absl::StatusOr<v1::Pattern> {
        throw std::runtime_error(kSecretWords);
      },
      [](usecases::RequestContext&) -> absl::StatusOr<v1::Pattern> {
        throw std::string(kSecretWords);
      },
      [](usecases::RequestContext&) -> absl::StatusOr<v1::Pattern> { throw std::bad_alloc(); },
  };
  std::vector<std::string> incidents;
  for (const Work& work : throwing) {
    service_.work = work;
    const grpc::Status status = Send();
    EXPECT_EQ(status.error_code(), grpc::StatusCode::INTERNAL);
    EXPECT_FALSE(Tells(status, kSecretWords));
    const ServedRequest served = observer_.Next();
    EXPECT_EQ(served.code, grpc::StatusCode::INTERNAL);
    ASSERT_FALSE(served.incident.empty());
    EXPECT_TRUE(Tells(status, served.incident));
    incidents.push_back(served.incident);
  }
  EXPECT_NE(incidents[0], incidents[1]);
}

TEST_F(DispatcherTest, DoesNotBeginOnceTheDeadlineHasPassed) {
  service_.before = [](const grpc::ServerContext& context) {
    std::mutex mutex;
    std::unique_lock lock(mutex);
    std::condition_variable never;
    while (std::chrono::system_clock::now() < context.deadline()) {
      never.wait_until(lock, context.deadline());
    }
  };
  grpc::ClientContext context;
  context.set_deadline(std::chrono::system_clock::now() + std::chrono::milliseconds(100));
  EXPECT_EQ(Send(context).error_code(), grpc::StatusCode::DEADLINE_EXCEEDED);
  EXPECT_EQ(observer_.Next().code, grpc::StatusCode::DEADLINE_EXCEEDED);
  EXPECT_EQ(runs_, 0);
}

TEST_F(DispatcherTest, TellsTheWorkToStopAtItsDeadline) {
  service_.work = [](usecases::RequestContext& context) -> absl::StatusOr<v1::Pattern> {
    while (!context.stop.After(1)) continue;
    return context.stop.status();
  };
  grpc::ClientContext context;
  context.set_deadline(std::chrono::system_clock::now() + std::chrono::milliseconds(50));
  EXPECT_EQ(Send(context).error_code(), grpc::StatusCode::DEADLINE_EXCEEDED);
  EXPECT_EQ(observer_.Next().code, grpc::StatusCode::DEADLINE_EXCEEDED);
}

TEST_F(DispatcherTest, TellsTheWorkToStopOnceTheCallerHasCancelled) {
  std::mutex mutex;
  std::condition_variable changed;
  bool begun = false;
  service_.work = [&](usecases::RequestContext& context) -> absl::StatusOr<v1::Pattern> {
    {
      const std::lock_guard lock(mutex);
      begun = true;
    }
    changed.notify_all();
    while (!context.stop.After(1)) continue;
    return context.stop.status();
  };
  grpc::ClientContext context;
  std::thread caller([&] {
    std::unique_lock lock(mutex);
    changed.wait(lock, [&] { return begun; });
    context.TryCancel();
  });
  EXPECT_EQ(Send(context).error_code(), grpc::StatusCode::CANCELLED);
  caller.join();
  EXPECT_EQ(observer_.Next().code, grpc::StatusCode::CANCELLED);
}

TEST_F(DispatcherTest, TellsTheWorkToStopOnceAServerThatShutsDownHasWaitedLongEnough) {
  std::mutex mutex;
  std::condition_variable changed;
  bool begun = false;
  service_.work = [&](usecases::RequestContext& context) -> absl::StatusOr<v1::Pattern> {
    {
      const std::lock_guard lock(mutex);
      begun = true;
    }
    changed.notify_all();
    while (!context.stop.After(1)) continue;
    return context.stop.status();
  };
  std::thread operators([&] {
    std::unique_lock lock(mutex);
    changed.wait(lock, [&] { return begun; });
    server_->Shutdown(std::chrono::system_clock::now() + std::chrono::milliseconds(20));
  });
  EXPECT_FALSE(Send().ok());
  operators.join();
  EXPECT_EQ(observer_.Next().code, grpc::StatusCode::CANCELLED);
}

TEST_F(DispatcherTest, GrantsAMinuteWhereNoDeadlineIsSetAndTenMinutesAtMost) {
  const auto granted = [&] { return met_.deadline - std::chrono::steady_clock::now(); };
  ASSERT_TRUE(Send().ok());
  EXPECT_LE(granted(), std::chrono::seconds(60));
  EXPECT_GT(granted(), std::chrono::seconds(30));
  grpc::ClientContext context;
  context.set_deadline(std::chrono::system_clock::now() + std::chrono::hours(5));
  ASSERT_TRUE(Send(context).ok());
  EXPECT_LE(granted(), std::chrono::seconds(600));
  EXPECT_GT(granted(), std::chrono::seconds(500));
}

TEST_F(DispatcherTest, TakesARequestIdThatIsAUuidOrNone) {
  EXPECT_TRUE(SendWithId("").ok());
  EXPECT_EQ(met_.request_id, "");
  EXPECT_TRUE(SendWithId(kUuid).ok());
  EXPECT_EQ(met_.request_id, kUuid);
  std::string capitals = kUuid;
  for (char& c : capitals) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  EXPECT_NE(capitals, kUuid);
  ASSERT_TRUE(SendWithId(capitals, "Shawl").ok());
  EXPECT_EQ(met_.request_id, kUuid);
  EXPECT_TRUE(SendWithId("6F2C0A1E-9D0B-4C57-8F4E-2B1D0C9A7E35").ok());
  runs_ = 0;
  for (const std::string id :
       {"1", "made-abc", "6f2c0a1e9d0b4c578f4e2b1d0c9a7e35", "6f2c0a1e-9d0b-4c57-8f4e-2b1d0c9a7e3g",
        "6f2c0a1e-9d0b-4c57-8f4e-2b1d0c9a7e355", "6f2c0a1e-9d0b-4c57-8f4e_2b1d0c9a7e35",
        "{6f2c0a1e-9d0b-4c57-8f4e-2b1d0c9a7e3}", "------------------------------------"}) {
    const grpc::Status status = SendWithId(id);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::INVALID_ARGUMENT) << id;
    EXPECT_TRUE(Tells(status, "request_id")) << id;
  }
  EXPECT_EQ(runs_, 0);
}

TEST_F(DispatcherTest, LogsNoRequestIdThatIsNoUuid) {
  EXPECT_FALSE(SendWithId(kSecretWords).ok());
  EXPECT_EQ(observer_.Next().request_id, "");
}

TEST_F(DispatcherTest, TakesTheDigestOfTheRequestWithoutItsId) {
  ASSERT_TRUE(SendWithId(kUuid, "Shawl").ok());
  const Sha256 first = met_.digest;
  ASSERT_TRUE(SendWithId("00000000-0000-0000-0000-000000000000", "Shawl").ok());
  EXPECT_EQ(met_.digest, first);
  ASSERT_TRUE(SendWithId(kUuid, "Cushion").ok());
  EXPECT_NE(met_.digest, first);
}

TEST_F(DispatcherTest, ReadsTheBearersTokenAsADigestOnly) {
  for (const char* const scheme : {"Bearer", "bearer", "BEARER"}) {
    ASSERT_TRUE(SendWithToken(std::string(scheme) + " rp_secret").ok());
    EXPECT_EQ(met_.token_sha256, Sha256Of("rp_secret")) << scheme;
  }
}

TEST_F(DispatcherTest, TakesAnyOtherHeaderForNoToken) {
  ASSERT_TRUE(Send().ok());
  EXPECT_FALSE(met_.token_sha256.has_value());
  for (const std::string& header : {std::string("rp_secret"), std::string("Basic rp_secret"),
                                    "Bearer " + std::string(201, 'x')}) {
    ASSERT_TRUE(SendWithToken(header).ok());
    EXPECT_FALSE(met_.token_sha256.has_value()) << header;
  }
}

}  // namespace
}  // namespace rowproof::rpc
