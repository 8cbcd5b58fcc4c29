// An estimate as a picture file. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_CHARTS_DRAW_ESTIMATE_H_
#define ROWPROOF_SERVICES_USECASES_CHARTS_DRAW_ESTIMATE_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/estimate/estimate.h"
#include "services/usecases/charts/draw_chart.h"

namespace rowproof::usecases {

// PNG or SVG; INVALID_ARGUMENT, field "format", for PDF.
absl::StatusOr<std::string> DrawEstimate(const estimate::SizeEstimate& estimate,
                                         DrawingFormat format);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CHARTS_DRAW_ESTIMATE_H_
