#include "tests/bench/bare_insert.h"

#include <google/protobuf/empty.pb.h>
#include <google/protobuf/wrappers.pb.h>
#include <grpcpp/grpcpp.h>
#include <grpcpp/impl/codegen/client_unary_call.h>
#include <grpcpp/impl/codegen/method_handler.h>
#include <grpcpp/impl/codegen/proto_utils.h>
#include <grpcpp/impl/codegen/service_type.h>
#include <signal.h>

#include <condition_variable>
#include <fstream>
#include <mutex>
#include <pqxx/pqxx>
#include <stdexcept>
#include <vector>

#include "fmt/format.h"
#include "services/server/configuration.h"

namespace rowproof::bench {
namespace {

using google::protobuf::BytesValue;
using google::protobuf::Empty;
using google::protobuf::MessageLite;

constexpr char kInsertMethod[] = "/rowproof.bench.BareInsert/Insert";

// A service of one method over well-known messages, as generated code would have it.
class BareInsertService : public grpc::Service {
 public:
  BareInsertService(const std::string& connection, int connections) {
    for (int i = 0; i < connections; ++i) {
      resting_.push_back(std::make_unique<BareInsert>(connection));
    }
    AddMethod(new grpc::internal::RpcServiceMethod(
        kInsertMethod, grpc::internal::RpcMethod::NORMAL_RPC,
        new grpc::internal::RpcMethodHandler<BareInsertService, BytesValue, Empty, MessageLite,
                                             MessageLite>(
            [](BareInsertService* service, grpc::ServerContext*, const BytesValue* request,
               Empty*) { return service->Insert(request->value()); },
            this)));
  }

 private:
  grpc::Status Insert(const std::string& bytes) {
    std::unique_ptr<BareInsert> taken;
    {
      std::unique_lock lock(mutex_);
      free_.wait(lock, [this] { return !resting_.empty(); });
      taken = std::move(resting_.back());
      resting_.pop_back();
    }
    grpc::Status status;
    try {
      taken->Insert(bytes);
    } catch (const std::exception& failure) {
      status = grpc::Status(grpc::StatusCode::INTERNAL, failure.what());
    }
    const std::lock_guard lock(mutex_);
    resting_.push_back(std::move(taken));
    free_.notify_one();
    return status;
  }

  std::mutex mutex_;
  std::condition_variable free_;
  std::vector<std::unique_ptr<BareInsert>> resting_;
};

}  // namespace

void PrepareDatabase(const std::string& connection) {
  pqxx::connection session(connection);
  pqxx::nontransaction work(session);
  // Stored as rowproofd stores its charts: bytes that are not worth compressing.
  work.exec(
      "create schema bench; create table bench.row (id bigserial primary key, bytes bytea not "
      "null); alter table bench.row alter column bytes set storage external");
}

void Analyze(const std::string& connection) {
  pqxx::connection session(connection);
  pqxx::nontransaction work(session);
  work.exec("analyze");
}

struct BareInsert::Parts {
  explicit Parts(const std::string& connection) : session(connection) {}
  pqxx::connection session;
};

BareInsert::BareInsert(const std::string& connection)
    : parts_(std::make_unique<Parts>(connection)) {
  parts_->session.prepare("insert", "insert into bench.row (bytes) values ($1)");
}

BareInsert::~BareInsert() = default;

void BareInsert::Insert(const std::string& bytes) {
  pqxx::nontransaction work(parts_->session);
  work.exec_prepared("insert", pqxx::binarystring(bytes));
}

void ServeBareInsert(const std::string& connection, const std::string& address_file) {
  sigset_t signals;
  sigemptyset(&signals);
  sigaddset(&signals, SIGTERM);
  sigaddset(&signals, SIGINT);
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);
  const server::Configuration usual;
  BareInsertService service(connection, usual.pool_size);
  grpc::ServerBuilder builder;
  int port = 0;
  builder.AddListeningPort("127.0.0.1:0", grpc::InsecureServerCredentials(), &port);
  grpc::ResourceQuota quota("bare-insert");
  quota.SetMaxThreads(usual.threads);
  builder.SetResourceQuota(quota);
  builder.RegisterService(&service);
  const std::unique_ptr<grpc::Server> server = builder.BuildAndStart();
  if (server == nullptr) throw std::runtime_error("the bare service does not start");
  std::ofstream(address_file) << "127.0.0.1:" << port << '\n';
  int signal = 0;
  sigwait(&signals, &signal);
  server->Shutdown();
}

void CallMethod(grpc::ChannelInterface& channel, const char* path, const MessageLite& request,
                MessageLite* response) {
  grpc::ClientContext context;
  context.set_deadline(std::chrono::system_clock::now() + std::chrono::seconds(30));
  // A channel's first connection can fail when the machine is busy; gRPC makes another.
  context.set_wait_for_ready(true);
  const grpc::internal::RpcMethod method(path, grpc::internal::RpcMethod::NORMAL_RPC);
  const grpc::Status status =
      grpc::internal::BlockingUnaryCall<MessageLite, MessageLite, MessageLite, MessageLite>(
          &channel, method, &context, request, response);
  if (!status.ok()) {
    throw std::runtime_error(fmt::format(
        "{}: code {}, {}", path, static_cast<int>(status.error_code()), status.error_message()));
  }
}

void CallBareInsert(grpc::ChannelInterface& channel, const std::string& bytes) {
  BytesValue request;
  request.set_value(bytes);
  Empty response;
  CallMethod(channel, kInsertMethod, request, &response);
}

}  // namespace rowproof::bench
