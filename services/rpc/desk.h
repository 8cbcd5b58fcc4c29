// What every handler shares: it turns a gRPC call into a use case's Call, keeps exceptions from
// crossing into gRPC, and reports each call once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_DESK_H_
#define ROWPROOF_SERVICES_RPC_DESK_H_

#include <google/protobuf/message.h>
#include <grpcpp/server_context.h>

#include <chrono>
#include <string>

#include "absl/status/statusor.h"
#include "services/usecases/call.h"

namespace rowproof::rpc {

// One served call, for the log: no texts, tokens or personal data.
struct ServedCall {
  std::string method;  // "PatternService.CreateVersion"
  grpc::StatusCode code = grpc::StatusCode::OK;
  std::chrono::microseconds duration{0};
  std::string account;     // empty: nobody signed in
  std::string request_id;  // the client's, or empty
  std::string incident;    // for INTERNAL: what the caller was told
};

// Where served calls go. Thread-safe.
class CallObserver {
 public:
  virtual ~CallObserver() = default;
  virtual void Served(const ServedCall& call) = 0;
};

class Desk {
 public:
  // `application` may be null for services that need no storage.
  Desk(usecases::Application* application, CallObserver& observer)
      : application_(application), observer_(observer) {}

  usecases::Application& application() const { return *application_; }
  // Null where there is none.
  usecases::Application* storage() const { return application_; }

  // Runs `work`, an absl::StatusOr<Response>(usecases::Call&), as the named method.
  template <typename Request, typename Response, typename Work>
  grpc::Status Serve(const grpc::ServerContext& context, const char* method, const Request& request,
                     Response* response, const Work& work) const {
    const auto begin = std::chrono::steady_clock::now();
    usecases::Call call = Open(context, method);
    absl::Status status = TakeRequestId(request, call);
    if (status.ok()) {
      status = Guarded(call, [&] {
        absl::StatusOr<Response> answer = work(call);
        if (answer.ok()) *response = std::move(*answer);
        return answer.status();
      });
    }
    return Close(call, status, begin);
  }

 private:
  usecases::Call Open(const grpc::ServerContext& context, const char* method) const;
  grpc::Status Close(const usecases::Call& call, const absl::Status& status,
                     std::chrono::steady_clock::time_point begin) const;
  // Catches everything; INTERNAL with an incident number for what it caught.
  absl::Status Guarded(const usecases::Call& call, const std::function<absl::Status()>& work) const;

  template <typename Request>
  static absl::Status TakeRequestId(const Request& request, usecases::Call& call) {
    if constexpr (requires { request.request_id(); }) {
      call.request_id = request.request_id();
      if (call.request_id.empty()) return absl::OkStatus();
      Request content = request;
      content.clear_request_id();
      return Claim(content, call);
    } else {
      return absl::OkStatus();
    }
  }
  // Checks the id's form and takes the digest of the rest of the request.
  static absl::Status Claim(const google::protobuf::Message& content, usecases::Call& call);

  usecases::Application* application_;
  CallObserver& observer_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_DESK_H_
