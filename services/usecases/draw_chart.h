// A chart as a picture file. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_DRAW_CHART_H_
#define ROWPROOF_SERVICES_USECASES_DRAW_CHART_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"

namespace rowproof::usecases {

enum class DrawingFormat { kPng, kSvg, kPdf };

// The design must be valid. RESOURCE_EXHAUSTED over the drawing's limits.
absl::StatusOr<std::string> DrawChart(const chart::Design& design, DrawingFormat format);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_DRAW_CHART_H_
