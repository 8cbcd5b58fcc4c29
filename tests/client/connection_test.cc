#include "services/client/connection.h"

#include <grpcpp/server.h>
#include <grpcpp/server_builder.h>
#include <gtest/gtest.h>

#include <regex>
#include <set>
#include <string>
#include <vector>

#include "rowproof/v1/pattern_service.grpc.pb.h"
#include "services/client/exchange.h"
#include "services/client/failure.h"
#include "services/client/services.h"

namespace rowproof::client {
namespace {

// Fails as often as it is told to, and remembers what it was asked.
class Patterns : public v1::PatternService::Service {
 public:
  grpc::Status CreatePattern(grpc::ServerContext* context, const v1::CreatePatternRequest* request,
                             v1::Pattern* answer) override {
    request_ids.push_back(request->request_id());
    const auto token = context->client_metadata().find("authorization");
    if (token != context->client_metadata().end()) {
      tokens.emplace_back(token->second.data(), token->second.size());
    }
    if (failures-- > 0) return {grpc::StatusCode::UNAVAILABLE, "away"};
    answer->set_name("patterns/p");
    return grpc::Status::OK;
  }

  int failures = 0;
  std::vector<std::string> request_ids;
  std::vector<std::string> tokens;
};

class ConnectionToAServer : public testing::Test {
 protected:
  ConnectionToAServer() {
    int port = 0;
    grpc::ServerBuilder builder;
    builder.AddListeningPort("127.0.0.1:0", grpc::InsecureServerCredentials(), &port);
    builder.RegisterService(&patterns);
    server = builder.BuildAndStart();
    options.server = "127.0.0.1:" + std::to_string(port);
    options.timeout_seconds = 30;
  }
  ~ConnectionToAServer() override { server->Shutdown(); }

  v1::Pattern Create(const std::string& request_id) const {
    v1::CreatePatternRequest request;
    request.set_title("Invented");
    request.set_request_id(request_id);
    return Connection::ToServer(options).Ask<v1::Pattern>("PatternService.CreatePattern", request);
  }

  Patterns patterns;
  std::unique_ptr<grpc::Server> server;
  ConnectionOptions options;
};

TEST_F(ConnectionToAServer, SendsACreatingCallAgainWithTheSameRequestId) {
  patterns.failures = 2;
  const std::string id = NewRequestId();
  EXPECT_EQ(Create(id).name(), "patterns/p");
  EXPECT_EQ(patterns.request_ids, (std::vector<std::string>{id, id, id}));
}

TEST_F(ConnectionToAServer, SendsACallThatIsNotRepeatableOnce) {
  patterns.failures = 1;
  try {
    Create("");
    FAIL();
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.code(), ExitCode::kUnavailable);
  }
  EXPECT_EQ(patterns.request_ids.size(), 1U);
}

TEST_F(ConnectionToAServer, GivesUpAfterAFewTries) {
  patterns.failures = 1000;
  EXPECT_THROW(Create(NewRequestId()), Failure);
  EXPECT_EQ(patterns.request_ids.size(), 5U);
}

TEST_F(ConnectionToAServer, NamesAMethodThatTheServerDoesNotServe) {
  try {
    Connection::ToServer(options).Ask<v1::Pattern>("PatternService.GetPattern",
                                                   v1::GetPatternRequest());
    FAIL();
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.code(), ExitCode::kRefused);
  }
}

TEST(Token, CrossesNoNetworkInPlainText) {
  ConnectionOptions options;
  options.server = "127.example.org:7420";
  ASSERT_EQ(setenv("ROWPROOF_TOKEN", "secret", 1), 0);
  EXPECT_THROW(Connection::ToServer(options), Failure);
  options.tls = true;
  EXPECT_NO_THROW(Connection::ToServer(options));
  ASSERT_EQ(unsetenv("ROWPROOF_TOKEN"), 0);
}

TEST_F(ConnectionToAServer, SendsTheTokenOfTheEnvironmentAsABearer) {
  ASSERT_EQ(setenv("ROWPROOF_TOKEN", " secret\n", 1), 0);
  Create("");
  ASSERT_EQ(unsetenv("ROWPROOF_TOKEN"), 0);
  EXPECT_EQ(patterns.tokens, std::vector<std::string>{"Bearer secret"});
}

// RFC 9562, section 5.4: version 4 in the high bits of octet 6, variant 10 in those of octet 8.
TEST(RequestId, IsARandomUuidOfVersionFour) {
  const std::regex form("[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}");
  std::set<std::string> seen;
  for (int i = 0; i < 1000; ++i) {
    const std::string id = NewRequestId();
    ASSERT_TRUE(std::regex_match(id, form)) << id;
    ASSERT_TRUE(seen.insert(id).second);
  }
}

TEST(Method, IsFoundByItsShortAndItsFullName) {
  EXPECT_EQ(&MethodNamed("PatternService.CreatePattern"),
            &MethodNamed("rowproof.v1.PatternService/CreatePattern"));
  EXPECT_THROW(MethodNamed("PatternService.Nothing"), Failure);
  EXPECT_THROW(MethodNamed(""), Failure);
}

TEST(Method, OfEveryServiceIsLinkedIntoTheProgram) {
  std::set<std::string> names;
  for (const auto* service : Services()) names.insert(service->name());
  for (const char* name :
       {"AccountService", "ChartService", "PatternService", "ReconciliationService",
        "ReleaseService", "ReportService", "TestCallService"}) {
    EXPECT_EQ(names.count(name), 1U) << name;
  }
}

}  // namespace
}  // namespace rowproof::client
