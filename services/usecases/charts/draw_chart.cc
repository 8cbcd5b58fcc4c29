#include "services/usecases/charts/draw_chart.h"

namespace rowproof::usecases {

absl::StatusOr<std::string> DrawChart(const chart::Design& design, const DrawingRequest& request,
                                      DrawingFormat format) {
  return drawing::DrawChart(design, request, format);
}

}  // namespace rowproof::usecases
