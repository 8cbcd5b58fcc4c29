#include "services/usecases/draw_chart.h"

#include "services/drawing/chart_drawing.h"

namespace rowproof::usecases {
namespace {

drawing::DrawingFormat FormatOf(DrawingFormat format) {
  switch (format) {
    case DrawingFormat::kPng:
      return drawing::DrawingFormat::kPng;
    case DrawingFormat::kSvg:
      return drawing::DrawingFormat::kSvg;
    case DrawingFormat::kPdf:
      break;
  }
  return drawing::DrawingFormat::kPdf;
}

}  // namespace

absl::StatusOr<std::string> DrawChart(const chart::Design& design, DrawingFormat format) {
  return drawing::DrawChart(design, drawing::DrawingRequest{}, FormatOf(format));
}

}  // namespace rowproof::usecases
