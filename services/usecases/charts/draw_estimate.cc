#include "services/usecases/charts/draw_estimate.h"

#include "services/domain/errors.h"
#include "services/drawing/breakdown_drawing.h"

namespace rowproof::usecases {

absl::StatusOr<std::string> DrawEstimate(const estimate::SizeEstimate& estimate,
                                         DrawingFormat format) {
  switch (format) {
    case DrawingFormat::kPng:
      return drawing::BreakdownPng(estimate);
    case DrawingFormat::kSvg:
      return drawing::BreakdownSvg(estimate);
    case DrawingFormat::kPdf:
      break;
  }
  return InvalidField("format", "PDF", "PNG or SVG");
}

}  // namespace rowproof::usecases
