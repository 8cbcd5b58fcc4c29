// A chart, or a face of its fabric, as a picture file. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_CHARTS_DRAW_CHART_H_
#define ROWPROOF_SERVICES_USECASES_CHARTS_DRAW_CHART_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/drawing/charts/drawing.h"

namespace rowproof::usecases {

using drawing::DrawingFormat;
using drawing::DrawingKind;
using drawing::DrawingRequest;
using drawing::Paper;

// The design must be valid. INVALID_ARGUMENT with the field of the request; RESOURCE_EXHAUSTED over
// the drawing's limits; the stop's status if the work has to stop.
absl::StatusOr<std::string> DrawChart(const chart::Design& design, const DrawingRequest& request,
                                      DrawingFormat format, const Stop& stop);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CHARTS_DRAW_CHART_H_
