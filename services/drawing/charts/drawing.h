// One drawing routine for everything that is shown of a chart, to PNG, SVG and
// PDF: the picture chart, the working chart, and the two faces of the finished
// fabric.
//
// A chart shows each row's number at the edge where the row starts, RS or WS,
// the row's colour and the reading direction beside it, stitch numbers along
// the bottom, a heavier line every ten, brackets at the repeated bands, and a
// key. A picture chart shows the colours, with a small wedge in each cell that
// the row above covers by a drop; a working chart shows each row on its
// colour's tint, with a large wedge for a drop and, in inset, a chain over each
// skipped stitch. Shapes and textures tell everything apart that colours do.
//
// Below row 1 both have a strip in the colour of a foundation of worked
// stitches, if the chart declares one.
//
// A face shows the fabric in the proportions of the gauge, face 2 as it is seen
// from behind, with RS and WS rows drawn differently; its caption says what is
// seen and what is assumed.
//
// The same input gives the same bytes. Functions are thread-safe: they share no
// state but an immutable font configuration (DejaVu Sans, package
// fonts-dejavu-core).
#ifndef ROWPROOF_SERVICES_DRAWING_CHARTS_DRAWING_H_
#define ROWPROOF_SERVICES_DRAWING_CHARTS_DRAWING_H_

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/drawing/paper.h"

namespace rowproof::drawing {

enum class DrawingKind : uint8_t { kPictureChart, kWorkingChart, kFaceOne, kFaceTwo };
enum class DrawingFormat : uint8_t { kPng, kSvg, kPdf };

// Bytes of UTF-8 in a title or a colour's name.
inline constexpr size_t kLongestTitle = 1000;
// Size of a cell in a picture of pixels, and on paper.
inline constexpr int kLeastCellPixels = 4;
inline constexpr int kMostCellPixels = 64;
inline constexpr double kLeastCellMm = 1.5;
inline constexpr double kMostCellMm = 25;

// The gauge that gives a face its proportions: stitches and worked rows in 100
// mm, each from 1 to 200 and neither more than 10 times the other. The default
// is an assumption, and the caption of a face that uses it says so.
struct DrawnGauge {
  double stitches_per_decimetre = 14;
  double rows_per_decimetre = 16;
  bool operator==(const DrawnGauge&) const = default;
};

// In two-face work, how much of a WS row's height can be seen: the rest is under the RS row worked
// into it. 1 would be all of it. The default is an assumption (no published measure is known), and
// the caption says so.
inline constexpr double kAssumedWrongSideShare = 0.4;
inline constexpr double kLeastWrongSideShare = 0.1;

struct DrawingRequest {
  // Without a value the chart in the convention in which the design was given.
  std::optional<DrawingKind> kind;
  // Printed above the drawing and in the running header. Plain text, any
  // Unicode; may be empty.
  std::string title;
  // The hand of the maker who reads a chart: the edge at which each row is
  // numbered. The cells are the same for both hands, and so is the fabric.
  chart::Hand hand = chart::Hand::kRight;
  // Index in the design's sizes: that size with its bands written out. Without
  // a value the chart as it was drawn, each band once.
  std::optional<int> size;
  // Size of a cell, of a face the width of a stitch. PNG: pixels; without a
  // value 16, or fewer if the picture would be too large. PDF and SVG:
  // millimetres; without a value what fits the paper well (PDF; a face then
  // fills one page) or 4.2 (SVG).
  std::optional<int> cell_pixels;
  std::optional<double> cell_mm;
  Paper paper = Paper::kA4;
  std::optional<DrawnGauge> gauge;         // faces only
  std::optional<double> wrong_side_share;  // faces only; kLeastWrongSideShare to 1
  // What the yarn colours A, B, ... look like; those that are left out have a
  // look of their own. A working chart uses pale tints instead.
  std::vector<Rgb> colours;
  // Names of the colours in the key, besides their letters ("Oat", "Ink"); each may be empty.
  std::vector<std::string> names;
  // Civil date YYYY-MM-DD, written into a PDF as its only date.
  std::string date = "2000-01-01";
};

// A PDF has upright pages. A chart that does not fit one page is split, as is a
// face whose stitches have a chosen size: neighbouring pages share one row or
// stitch, a first page shows the whole with the pages' numbers, and each page
// has a map that says which page of which grid it is. PNG and SVG hold
// everything in one picture.
//
// Errors: INVALID_ARGUMENT as chart::Validate, as Validate (request_limits.h), for `size`
// if the design has no such size, for `kind` if the repeated rows of the
// other convention are not rows of the chart (model.h, ShownRowBand), and
// for `cell_mm` if a page then does not hold two rows of a face. OverLimit,
// before anything is drawn, over kMostPages, kMostPixels or kMostVectorCells.
// The stop's status if the work has to stop.
absl::StatusOr<std::string> DrawChart(const chart::Design& design, const DrawingRequest& request,
                                      DrawingFormat format, const Stop& stop = {});

// Cells in an SVG, or in a face drawn to PDF.
inline constexpr int64_t kMostVectorCells = 250'000;

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHARTS_DRAWING_H_
