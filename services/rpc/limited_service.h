// Refuses requests that are too large with our own status, which says by how much.
#ifndef ROWPROOF_SERVICES_RPC_LIMITED_SERVICE_H_
#define ROWPROOF_SERVICES_RPC_LIMITED_SERVICE_H_

#include <grpcpp/impl/service_type.h>

#include <deque>
#include <string>

namespace rowproof::rpc {

// Wraps another service and checks a request's size before it is decoded. gRPC's own limit sends a
// bare status and comes later: gRPC 1.51 reads the whole request before it checks, so that limit
// saves no memory. Thread-safe.
class LimitedService : public grpc::Service {
 public:
  // `full_name` names the service's descriptor; all its methods are unary, since the requests of a
  // stream are decoded elsewhere. `service` must live as long, and is not registered itself.
  LimitedService(grpc::Service& service, const std::string& full_name);

 private:
  std::deque<std::string> paths_;  // gRPC keeps pointers to them
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_LIMITED_SERVICE_H_
