// ChartService: stateless, and needs storage only for a calibration that is kept, so that the
// client can host it too. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CHARTS_SERVICE_H_
#define ROWPROOF_SERVICES_RPC_CHARTS_SERVICE_H_

#include <memory>

#include "services/rpc/dispatcher.h"
#include "services/rpc/service.h"
#include "services/usecases/charts/sent_materials.h"

namespace rowproof::rpc {

// Dispatcher and lookup outlive the service. An empty lookup finds no calibration.
std::unique_ptr<Service> MakeChartService(const Dispatcher& dispatcher,
                                          const usecases::CalibrationLookup& lookup);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CHARTS_SERVICE_H_
