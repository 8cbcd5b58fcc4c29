// A service of the API as a table of its methods. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_SERVICE_H_
#define ROWPROOF_SERVICES_RPC_SERVICE_H_

#include <google/protobuf/message.h>
#include <grpcpp/impl/codegen/proto_utils.h>
#include <grpcpp/impl/service_type.h>
#include <grpcpp/support/method_handler.h>

#include <deque>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/rpc/dispatcher.h"

namespace rowproof::rpc {

// One unary method: its name in the API, its messages, and what makes its handler.
struct Method {
  std::string name;
  const google::protobuf::Descriptor* request;
  const google::protobuf::Descriptor* response;
  // `logged_as` is "PatternService.CreateVersion". The dispatcher outlives the handler.
  std::function<std::unique_ptr<grpc::internal::MethodHandler>(const Dispatcher& dispatcher,
                                                               const std::string& logged_as)>
      make_handler;
};

// Serves the method by `work`, an absl::StatusOr<Response>(RequestContext&, const Request&).
template <typename Request, typename Response, typename Work>
Method MethodBy(const std::string& name, Work work) {
  // The type parameter in front is the generated service that the generated code calls; ours needs
  // none.
  using Handler = grpc::internal::RpcMethodHandler<grpc::Service, Request, Response,
                                                   google::protobuf::MessageLite,
                                                   google::protobuf::MessageLite>;
  return {name, Request::descriptor(), Response::descriptor(),
          [work](const Dispatcher& dispatcher, const std::string& logged_as) {
            return std::make_unique<Handler>(
                [&dispatcher, logged_as, work](grpc::Service*, grpc::ServerContext* call,
                                               const Request* request, Response* response) {
                  return dispatcher.Serve(
                      *call, logged_as, *request, response,
                      [&](usecases::RequestContext& context) { return work(context, *request); });
                },
                nullptr);
          }};
}

// Serves the method by a function of what the method needs (which outlives the service), the
// request's context and the request.
template <typename Needed, typename Request, typename Response>
Method MethodOf(const std::string& name,
                absl::StatusOr<Response> (*work)(Needed&, usecases::RequestContext&,
                                                 const Request&),
                Needed& needed) {
  return MethodBy<Request, Response>(
      name, [work, &needed](usecases::RequestContext& context, const Request& request) {
        return work(needed, context, request);
      });
}

// Serves the method by a function of the request and what says when to stop.
template <typename Request, typename Response>
Method MethodOf(const std::string& name,
                absl::StatusOr<Response> (*work)(const Request&, const Stop&)) {
  return MethodBy<Request, Response>(
      name, [work](usecases::RequestContext& context, const Request& request) {
        return work(request, context.stop);
      });
}

class Service : public grpc::Service {
 public:
  // `name` is "PatternService". Aborts unless `methods` are the methods that the API declares for
  // it, each once and with its messages. They are added in the API's order. The dispatcher outlives
  // the service.
  Service(const Dispatcher& dispatcher, const std::string& name,
          const std::vector<Method>& methods);

  // "rowproof.v1.PatternService".
  const std::string& full_name() const { return full_name_; }

 private:
  std::string full_name_;
  std::deque<std::string> paths_;  // gRPC keeps pointers to them
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_SERVICE_H_
