#include <utility>

#include "services/domain/errors.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/rpc/charts/chart_service.h"
#include "services/rpc/converters/charts/materials.h"

namespace rowproof::rpc {

std::unique_ptr<Service> MakeChartService(const Dispatcher& dispatcher,
                                          const usecases::CalibrationLookup& lookup) {
  std::vector<Method> methods = DesignMethods(lookup);
  for (const auto& more : {FileMethods(), TextMethods(), EstimateMethods(lookup)}) {
    methods.insert(methods.end(), more.begin(), more.end());
  }
  return std::make_unique<Service>(dispatcher, "ChartService", methods);
}

absl::StatusOr<estimate::Materials> MaterialsFrom(const usecases::CalibrationLookup& lookup,
                                                  usecases::RequestContext& context,
                                                  const std::string& field,
                                                  const v1::Materials& materials,
                                                  chart::Design& design) {
  auto sent = FromProto(materials);
  if (!sent.ok()) return UnderField(sent.status(), field);
  if (auto s = estimate::SettleFoundation(sent->foundation_chain_declared, design, sent->materials);
      !s.ok()) {
    return UnderField(s, field);
  }
  if (!sent->calibration.has_value()) return std::move(sent->materials);
  if (!lookup) return NotFound("calibration", sent->calibration->name);
  return lookup(context, *std::move(sent));
}

}  // namespace rowproof::rpc
