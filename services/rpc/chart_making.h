// A making as a method of ChartService takes it. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CHART_MAKING_H_
#define ROWPROOF_SERVICES_RPC_CHART_MAKING_H_

#include <string>

#include "absl/status/statusor.h"
#include "rowproof/v1/estimate.pb.h"
#include "services/domain/chart/design.h"
#include "services/rpc/desk.h"

namespace rowproof::rpc {

// With the kept calibration that it names, which takes storage and its owner's token; without one
// nothing is asked of either. A foundation of worked stitches that the making or the design
// declares is then in both. INVALID_ARGUMENT with the field below `field`; NOT_FOUND.
absl::StatusOr<estimate::Making> MakingFrom(const Desk& desk, usecases::Call& call,
                                            const std::string& field, const v1::Making& making,
                                            chart::Design& design);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CHART_MAKING_H_
