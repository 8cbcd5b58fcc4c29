// What is to be drawn, between proto and drawing. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_DRAWING_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_DRAWING_H_

#include "absl/status/statusor.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/domain/chart/design.h"
#include "services/usecases/charts/draw_chart.h"
#include "services/usecases/charts/read_design.h"

namespace rowproof::rpc {

// INVALID_ARGUMENT, field "format".
absl::StatusOr<usecases::DrawingFormat> FormatFrom(v1::DrawingFormat format);

// INVALID_ARGUMENT for a value that cannot be read; ranges are the drawing's to check.
absl::StatusOr<usecases::DrawingRequest> FromProto(const v1::DrawChartRequest& request,
                                                   const chart::Design& design);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_DRAWING_H_
