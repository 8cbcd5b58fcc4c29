#include "services/rpc/charts/service.h"

#include <utility>

#include "services/domain/errors.h"
#include "services/rpc/charts/methods.h"
#include "services/rpc/converters/charts/estimate.h"

namespace rowproof::rpc {

std::unique_ptr<Service> MakeChartService(const Dispatcher& dispatcher,
                                          const usecases::CalibrationLookup& lookup) {
  std::vector<Method> methods = DesignMethods(lookup);
  for (const auto& more : {FileMethods(), TextMethods(), EstimateMethods(lookup)}) {
    methods.insert(methods.end(), more.begin(), more.end());
  }
  return std::make_unique<Service>(dispatcher, "ChartService", methods);
}

absl::StatusOr<estimate::Making> MakingFrom(const usecases::CalibrationLookup& lookup,
                                            usecases::RequestContext& context,
                                            const std::string& field, const v1::Making& making,
                                            chart::Design& design) {
  auto sent = FromProto(making);
  if (!sent.ok()) return UnderField(sent.status(), field);
  if (auto s = estimate::SettleFoundation(sent->foundation_chain_declared, design, sent->making);
      !s.ok()) {
    return UnderField(s, field);
  }
  if (!sent->calibration.has_value()) return std::move(sent->making);
  if (!lookup) return NotFound("calibration", sent->calibration->name);
  return lookup(context, *std::move(sent));
}

}  // namespace rowproof::rpc
