#include "services/rpc/chart_making.h"

#include <utility>

#include "services/domain/errors.h"
#include "services/rpc/converters/estimate.h"
#include "services/usecases/calibrations.h"

namespace rowproof::rpc {

absl::StatusOr<estimate::Making> MakingFrom(const Desk& desk, usecases::Call& call,
                                            const std::string& field, const v1::Making& making,
                                            chart::Design& design) {
  auto sent = FromProto(making);
  if (!sent.ok()) return UnderField(sent.status(), field);
  if (auto s = estimate::SettleFoundation(sent->foundation_chain_declared, design, sent->making);
      !s.ok()) {
    return UnderField(s, field);
  }
  return usecases::WithCalibration(desk.storage(), call, *std::move(sent));
}

}  // namespace rowproof::rpc
