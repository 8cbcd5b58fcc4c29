// ChartService: stateless, and needs storage only for a calibration that is kept, so that the
// client can host it too. Its methods are in the files of this folder, by subject. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CHARTS_CHART_SERVICE_H_
#define ROWPROOF_SERVICES_RPC_CHARTS_CHART_SERVICE_H_

#include <memory>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/domain/chart/design.h"
#include "services/rpc/dispatcher.h"
#include "services/rpc/service.h"
#include "services/usecases/charts/sent_materials.h"

namespace rowproof::rpc {

// Dispatcher and lookup outlive the service. An empty lookup finds no calibration.
std::unique_ptr<Service> MakeChartService(const Dispatcher& dispatcher,
                                          const usecases::CalibrationLookup& lookup);

// Check, repair, conversion, repeats.
std::vector<Method> DesignMethods(const usecases::CalibrationLookup& lookup);
// Pictures and tables in and out, drawings.
std::vector<Method> FileMethods();
// Written rows, read and compared.
std::vector<Method> TextMethods();
// Written rows, estimates and what follows from them.
std::vector<Method> EstimateMethods(const usecases::CalibrationLookup& lookup);

// With the kept calibration that it names, which only the lookup knows. A foundation of worked
// stitches that the materials or the design declares is then in both. INVALID_ARGUMENT with the
// field below `field`; NOT_FOUND for a calibration that is not the caller's.
absl::StatusOr<estimate::Materials> MaterialsFrom(const usecases::CalibrationLookup& lookup,
                                                  usecases::RequestContext& context,
                                                  const std::string& field,
                                                  const v1::Materials& materials,
                                                  chart::Design& design);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CHARTS_CHART_SERVICE_H_
