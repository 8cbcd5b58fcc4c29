// What every method shares: its request gets a context, exceptions do not cross into gRPC, and each
// request is reported once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_DISPATCHER_H_
#define ROWPROOF_SERVICES_RPC_DISPATCHER_H_

#include <google/protobuf/message.h>
#include <grpcpp/server_context.h>

#include <chrono>
#include <functional>
#include <string>
#include <utility>

#include "absl/status/statusor.h"
#include "services/domain/stop.h"
#include "services/rpc/field_paths.h"
#include "services/usecases/request_context.h"

namespace rowproof::rpc {

// One served request, for the log: no texts, tokens or personal data.
struct ServedRequest {
  std::string method;  // "PatternService.CreateVersion"
  grpc::StatusCode code = grpc::StatusCode::OK;
  std::chrono::microseconds duration{0};
  std::string account;     // empty: nobody signed in
  std::string request_id;  // the client's, or empty
  std::string incident;    // for INTERNAL: the number that the caller was given
};

// Where served requests go. Thread-safe.
class RequestObserver {
 public:
  virtual ~RequestObserver() = default;
  virtual void Served(const ServedRequest& request) = 0;
};

// Whether somebody still waits for the answer of a remote call.
// DEADLINE_EXCEEDED once the deadline has passed; CANCELLED once the caller has cancelled or is
// gone, or a server that shuts down has waited long enough: gRPC then cancels every call. Belongs
// to the call's thread; the call outlives it.
class CallSignal : public StopSignal {
 public:
  using Time = std::chrono::steady_clock::time_point;

  CallSignal(const grpc::ServerContext& call, Time deadline) : call_(call), deadline_(deadline) {}

  absl::Status Look() override;

 private:
  const grpc::ServerContext& call_;
  const Time deadline_;
  Time asks_next_;  // gRPC, which costs a system call
};

class Dispatcher {
 public:
  explicit Dispatcher(RequestObserver& observer) : observer_(observer) {}

  // Runs `work`, an absl::StatusOr<Response>(usecases::RequestContext&), as the method that the log
  // names so: "PatternService.CreateVersion".
  template <typename Request, typename Response, typename Work>
  grpc::Status Serve(const grpc::ServerContext& call, const std::string& method,
                     const Request& request, Response* response, const Work& work) const {
    const auto begin = std::chrono::steady_clock::now();
    usecases::RequestContext context = Open(call, method);
    CallSignal signal(call, context.deadline);
    context.stop = Stop(signal);
    absl::Status status = TakeRequestId(request, context);
    if (status.ok()) {
      status = Guarded(context, [&] {
        absl::StatusOr<Response> answer = work(context);
        if (answer.ok()) *response = std::move(*answer);
        return answer.status();
      });
    }
    return Close(context, InRequest(status, request), begin);
  }

 private:
  usecases::RequestContext Open(const grpc::ServerContext& call, const std::string& method) const;
  grpc::Status Close(const usecases::RequestContext& context, const absl::Status& status,
                     std::chrono::steady_clock::time_point begin) const;
  // Catches everything; INTERNAL with an incident number for what it caught.
  absl::Status Guarded(const usecases::RequestContext& context,
                       const std::function<absl::Status()>& work) const;

  template <typename Request>
  static absl::Status TakeRequestId(const Request& request, usecases::RequestContext& context) {
    if constexpr (requires { request.request_id(); }) {
      context.request_id = request.request_id();
      if (context.request_id.empty()) return absl::OkStatus();
      Request content = request;
      content.clear_request_id();
      return Claim(content, context);
    } else {
      return absl::OkStatus();
    }
  }
  // Checks the id's form and takes the digest of the rest of the request.
  static absl::Status Claim(const google::protobuf::Message& content,
                            usecases::RequestContext& context);

  RequestObserver& observer_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_DISPATCHER_H_
