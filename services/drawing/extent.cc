#include "services/drawing/extent.h"

#include <algorithm>
#include <cmath>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/drawing/flow.h"

namespace rowproof::drawing {
namespace {

constexpr int kUsualCellPixels = 16;
// Of the pixels and of a side, this much is kept for labels, captions and
// margins.
constexpr double kForLabels = 0.8;

bool Fits(const Extent& extent, double cell, double share) {
  const double width = extent.stitches * cell;
  const double height = extent.rows * extent.row_height * cell;
  return width <= share * kMostPictureSide && height <= share * kMostPictureSide &&
         width * height <= share * static_cast<double>(kMostPixels);
}

// Points: the smallest cell that a chart is split into unless a size is asked for.
constexpr double kSmallestOnPaper = 7.5;

// Pages that the cells of a chart fill at least, labels and overlaps not counted.
double LeastPages(int64_t cells, double row_height, const DrawingRequest& request) {
  const double cell =
      request.cell_mm.has_value() ? *request.cell_mm * kPointsPerMm : kSmallestOnPaper;
  const PageShape shape = ShapeOf(request.paper);
  return static_cast<double>(cells) * cell * cell * row_height /
         (shape.content_width() * shape.content_height());
}

}  // namespace

bool IsFace(const DrawingRequest& request) {
  return request.kind == DrawingKind::kFaceOne || request.kind == DrawingKind::kFaceTwo;
}

absl::StatusOr<Extent> ExtentOf(const chart::Design& design, const DrawingRequest& request,
                                DrawingFormat format) {
  Extent extent{design.cells.stitches(), design.cells.rows()};
  if (request.size.has_value()) {
    if (*request.size < 0 || static_cast<size_t>(*request.size) >= design.sizes.size()) {
      return InvalidField(
          "size", std::to_string(*request.size),
          fmt::format("one of the design's {} sizes, counted from 0", design.sizes.size()));
    }
    extent.stitches = chart::ExpandedStitches(design, *request.size);
    extent.rows = chart::ExpandedRows(design, *request.size);
  }
  if (IsFace(request)) {
    const DrawnGauge gauge = request.gauge.value_or(DrawnGauge{});
    extent.rows *= chart::WorkedRows(design);
    if (design.foundation_colour.has_value()) ++extent.rows;
    extent.row_height = gauge.stitches_per_decimetre / gauge.rows_per_decimetre;
  }
  const int64_t cells = static_cast<int64_t>(extent.stitches) * extent.rows;
  if (format == DrawingFormat::kPng) {
    const int cell = CellPixels(extent, request);
    if (!Fits(extent, cell, 1)) {
      return OverLimit(fmt::format("a picture of {} x {} cells of {} pixels", extent.stitches,
                                   extent.rows, cell),
                       fmt::format("{} pixels, {} a side", kMostPixels, kMostPictureSide));
    }
  } else if ((format == DrawingFormat::kSvg || IsFace(request)) && cells > kMostVectorCells) {
    return OverLimit(fmt::format("{} cells drawn as lines", cells),
                     fmt::format("{} cells; a PNG may have more", kMostVectorCells));
  }
  const bool one_page = IsFace(request) && !request.cell_mm.has_value();
  if (format == DrawingFormat::kPdf && !one_page &&
      LeastPages(cells, extent.row_height, request) > kMostPages) {
    return OverLimit(
        fmt::format("a drawing of {} cells that takes more than {} pages", cells, kMostPages),
        fmt::format("{} pages", kMostPages));
  }
  return extent;
}

int CellPixels(const Extent& extent, const DrawingRequest& request) {
  if (request.cell_pixels.has_value()) return *request.cell_pixels;
  int cell = kUsualCellPixels;
  while (cell > kLeastCellPixels && !Fits(extent, cell, kForLabels)) --cell;
  return cell;
}

}  // namespace rowproof::drawing
