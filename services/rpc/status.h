// The one place where an absl::Status becomes a grpc::Status with google.rpc details.
#ifndef ROWPROOF_SERVICES_RPC_STATUS_H_
#define ROWPROOF_SERVICES_RPC_STATUS_H_

#include <grpcpp/support/status.h>

#include "absl/status/status.h"

namespace rowproof::rpc {

// The domain of our ErrorInfo reasons.
inline constexpr char kErrorDomain[] = "rowproof";

// ErrorInfo always; BadRequest, PreconditionFailure, ResourceInfo and RetryInfo where they fit.
grpc::Status ToGrpc(const absl::Status& status);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_STATUS_H_
