#include "services/usecases/charts/draw_chart.h"

namespace rowproof::usecases {

absl::StatusOr<std::string> DrawChart(const chart::Design& design, const DrawingRequest& request,
                                      DrawingFormat format, const Stop& stop) {
  return drawing::DrawChart(design, request, format, stop);
}

}  // namespace rowproof::usecases
