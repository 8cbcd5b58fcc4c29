// A chart as designers print it: the cells as drawn (bands once, with repeat brackets), each row's
// number at the edge where the row starts, RS or WS and the reading direction beside it, stitch
// numbers along the bottom, a heavier line every ten, and a key.
//
// One routine draws for all three formats. A picture chart shows colours A and B, with a small
// wedge in each cell that the row above covers by a drop; a working chart shows each row on its
// colour's tint, with a large dark wedge for a drop. Both are told apart without colour.
//
// The same input gives the same bytes of PDF, SVG and PNG. Functions are thread-safe: they share no
// state but an immutable font configuration (DejaVu Sans, package fonts-dejavu-core).
#ifndef ROWPROOF_SERVICES_DRAWING_CHART_DRAWING_H_
#define ROWPROOF_SERVICES_DRAWING_CHART_DRAWING_H_

#include <optional>
#include <string>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/drawing/paper.h"

namespace rowproof::drawing {

// Bytes of UTF-8 in a title or a colour's name.
inline constexpr size_t kLongestTitle = 1000;

struct ChartOptions {
  // Printed above the chart and in the running header. Plain text, any Unicode; may be empty.
  std::string title;
  // The chart to show; without a value the convention in which the design was given.
  std::optional<chart::Convention> shown;
  // The hand of the maker who reads it: the edge at which each row is numbered. The cells are the
  // same for both hands.
  chart::Hand hand = chart::Hand::kRight;
  // What colours A and B look like in a picture chart; a working chart uses pale tints of its own.
  Rgb colour_a{0.98, 0.95, 0.87};
  Rgb colour_b{0.13, 0.24, 0.35};
  // What the key calls the colours beside their letters ("Oat", "Ink"); may be empty.
  std::string name_a;
  std::string name_b;
  Paper paper = Paper::kA4;
  // Civil date YYYY-MM-DD, written into a PDF as its only date.
  std::string date = "2000-01-01";
};

// INVALID_ARGUMENT for a date that is none, a colour out of range, a title or name that is too
// long.
absl::Status Validate(const ChartOptions& options);

// A PDF on upright pages. A chart that does not fit one page is split: neighbouring pages share one
// row or stitch, and a first page maps them.
// Errors: INVALID_ARGUMENT as chart::Validate, as Validate, or for `shown` where the repeated rows
// of the other convention are not rows of the chart (chart_model.h, ShownRowBand); OverLimit over
// kMostPages.
absl::StatusOr<std::string> ChartPdf(const chart::Design& design, const ChartOptions& options);

// One picture of the whole chart with cells of `cell_pixels` (4 to 64).
// Errors: as ChartPdf, and OverLimit over kMostPixels.
absl::StatusOr<std::string> ChartPng(const chart::Design& design, const ChartOptions& options,
                                     int cell_pixels);

// One picture of the whole chart as SVG. Errors: as ChartPdf, and OverLimit over 1,000,000 cells.
absl::StatusOr<std::string> ChartSvg(const chart::Design& design, const ChartOptions& options);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHART_DRAWING_H_
