#include "services/usecases/draw_chart.h"

#include <algorithm>

#include "services/drawing/chart_drawing.h"

namespace rowproof::usecases {
namespace {

constexpr int kUsualCellPixels = 16;
constexpr int kLeastCellPixels = 4;
constexpr int kPixelsAcross = 8000;

}  // namespace

absl::StatusOr<std::string> DrawChart(const chart::Design& design, DrawingFormat format) {
  const drawing::ChartOptions options;
  switch (format) {
    case DrawingFormat::kSvg:
      return drawing::ChartSvg(design, options);
    case DrawingFormat::kPdf:
      return drawing::ChartPdf(design, options);
    case DrawingFormat::kPng:
      break;
  }
  const int longest = std::max(design.cells.rows(), design.cells.stitches());
  return drawing::ChartPng(design, options,
                           std::clamp(kPixelsAcross / longest, kLeastCellPixels, kUsualCellPixels));
}

}  // namespace rowproof::usecases
