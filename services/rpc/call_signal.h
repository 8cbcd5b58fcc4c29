// What a remote call says about whether somebody still waits for its answer.
#ifndef ROWPROOF_SERVICES_RPC_CALL_SIGNAL_H_
#define ROWPROOF_SERVICES_RPC_CALL_SIGNAL_H_

#include <grpcpp/server_context.h>

#include <chrono>

#include "services/domain/stop.h"

namespace rowproof::rpc {

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

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CALL_SIGNAL_H_
