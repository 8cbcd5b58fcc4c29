// Charts made over, between proto and domain. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_CONVERSION_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_CONVERSION_H_

#include "absl/status/statusor.h"
#include "rowproof/v1/chart_service.pb.h"
#include "rowproof/v1/conversion.pb.h"
#include "services/usecases/charts/convert_chart.h"

namespace rowproof::rpc {

// Without its materials (MaterialsFrom in services/rpc/charts/chart_service.h). INVALID_ARGUMENT
// for a value that cannot be read.
absl::StatusOr<usecases::ConversionAsked> FromProto(const v1::ConvertChartRequest& request);
// `before` is the design that was converted.
// Not all edits if the work has to stop, which the caller asks.
v1::ConvertedChart ToProto(const usecases::ConvertedChart& converted, const chart::Design& before,
                           const Stop& stop);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_CONVERSION_H_
