// Yarns by what they are for, between proto and domain. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_YARN_ROLE_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_YARN_ROLE_H_

#include <string>

#include "absl/status/statusor.h"
#include "rowproof/v1/yarn.pb.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::rpc {

v1::YarnRole RoleOf(estimate::YarnColour colour);

// INVALID_ARGUMENT with `field` for an unspecified or unknown role.
absl::StatusOr<estimate::YarnColour> ColourOf(const std::string& field, v1::YarnRole role);

// The same, A if it is unspecified.
absl::StatusOr<estimate::YarnColour> ColourOrA(const std::string& field, v1::YarnRole role);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_YARN_ROLE_H_
