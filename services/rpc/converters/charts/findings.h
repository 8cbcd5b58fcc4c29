// Findings, edits, repairs and repeats between proto and domain. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_FINDINGS_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_FINDINGS_H_

#include <vector>

#include "absl/status/statusor.h"
#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/chart_service.pb.h"
#include "rowproof/v1/repair.pb.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/repair/options.h"
#include "services/domain/chart/repair/repair.h"
#include "services/domain/chart/repeats/repeat_finder.h"

namespace rowproof::rpc {

// INVALID_ARGUMENT with the field below "settings": a run below 0.
absl::StatusOr<chart::CheckSettings> FromProto(const v1::CheckSettings& settings);
v1::CheckResult ToProto(const chart::CheckResult& check, const chart::Design& design,
                        int rules_version, bool swap_colours_offered);

// An edit of this design.
v1::Edit ToProto(const chart::Edit& edit, const chart::Design& design);
// Not all if the work has to stop, which the caller asks; as what follows.
google::protobuf::RepeatedPtrField<v1::Edit> ToProto(const std::vector<chart::Edit>& edits,
                                                     const chart::Design& design, const Stop& stop);

// INVALID_ARGUMENT with the field below "options": a symmetry or an area that is none of the
// design's, too many areas, a run out of range.
absl::StatusOr<chart::RepairOptions> FromProto(const v1::RepairOptions& options,
                                               const chart::Design& design, const Stop& stop);
v1::RepairResult ToProto(const chart::Repair& repair, const chart::Design& design,
                         const Stop& stop);

v1::Repeats ToProto(const chart::Repeats& repeats);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_FINDINGS_H_
