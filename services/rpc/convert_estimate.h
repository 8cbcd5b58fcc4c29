// Making and estimates between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERT_ESTIMATE_H_
#define ROWPROOF_SERVICES_RPC_CONVERT_ESTIMATE_H_

#include <string>

#include "absl/status/statusor.h"
#include "rowproof/v1/estimate.pb.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::rpc {

// INVALID_ARGUMENT with the field relative to Making for a value that cannot be read at all; what
// the values mean is checked by estimate::Validate.
absl::StatusOr<estimate::Making> FromProto(const v1::Making& making);
absl::StatusOr<estimate::Yarn> FromProto(const v1::Yarn& yarn);
estimate::Gauge FromProto(const v1::Gauge& gauge);

v1::Making ToProto(const estimate::Making& making);
v1::Yarn ToProto(const estimate::Yarn& yarn);
v1::Gauge ToProto(const estimate::Gauge& gauge);
v1::SizeEstimate ToProto(const estimate::SizeEstimate& size);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERT_ESTIMATE_H_
