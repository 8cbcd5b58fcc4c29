// Charts in files: PNG, Netpbm's PBM, PGM and PPM (plain P1 to P3, raw P4 to P6), CSV and TSV, in
// and out.
//
// The bottom line of a picture (the last line of a CSV) is row 1, its right-most column stitch 1. A
// set cell is colour B of a picture chart and a drop of a working chart: the darker of a picture's
// two colours, PBM's 1, CSV's B or x. A picture chart whose row order names more than two colours
// has cells of those colours (A to H).
//
// Everything here is a pure function of its arguments, and thread-safe. Every dimension is held
// against the limits below before memory is allocated for it, and against the bytes that are there.
// Memory: a byte per pixel, two if there are more than 256 colours. What is damaged, cut short, of
// a colour too many or over a limit is refused whole: INVALID_ARGUMENT with the field "content", or
// the setting that does not fit ("cell_scale", "colour_a", "colour_b", "colours[2]", "tolerance",
// "grid.pitch_x", "stitch_count", "crop.left", "row_colours", ...), with what is wrong and what to
// do.
#ifndef ROWPROOF_SERVICES_IMAGES_CHART_FILE_H_
#define ROWPROOF_SERVICES_IMAGES_CHART_FILE_H_

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/chart/grid.h"
#include "services/images/colour.h"
#include "services/images/import_report.h"

namespace rowproof::images {

// Bytes of a file, in and out.
inline constexpr size_t kMostFileBytes = size_t{16} * 1024 * 1024;
// Pixels (entries of a CSV) along a side, and in total: 4,000 x 4,000 cells of 2 x 2 pixels just
// fit.
inline constexpr int kMostPixelsAcross = 16'000;
inline constexpr int64_t kMostPixels = 64'000'000;
// Side of a cell in pixels, and from one grid line to the next.
inline constexpr int kLargestCellScale = 1'000;
// How many different colours of a picture are distinguished.
inline constexpr int kMostPictureColours = 65'536;
// Colours with a given meaning.
inline constexpr size_t kMostMeanings = 256;

// A colour of the picture and what it means; several may mean the same.
struct ColourMeaning {
  Rgb colour;
  // A to H as far as the row order names them. In a working chart A means plain stitches and B
  // drops.
  chart::Colour taken_for = chart::Colour::kA;
  bool operator==(const ColourMeaning&) const = default;
};

// Grid lines as the caller knows them. The first line or the first cell begins at the crop; there
// may or may not be lines at the outer sides.
struct DeclaredGrid {
  // Pixels from one line to the next, more than the line's width, at most kLargestCellScale; may be
  // a fraction.
  double pitch_x = 0;
  double pitch_y = 0;
  // Pixels, 0 and more: 0 if cells touch. Soft edges are best counted in.
  int line_width_x = 0;
  int line_width_y = 0;
};

struct ImportSettings {
  chart::Convention convention = chart::Convention::kPicture;

  // The row order, bottom first; empty: A in odd rows, B in even rows. A picture chart has the
  // colours up to the last one named here, two at least, and as many rows as there are entries.
  std::vector<chart::Colour> row_colours;

  // What colours of a PNG or PNM mean; a CSV names its cells itself. Colours without a given
  // meaning are found: the most frequent ones that are further than the tolerance from all others,
  // as many as there are letters without one; the lightest is the first letter (A), the darkest the
  // last. A picture of a single colour is A throughout, or B throughout if that colour is the
  // nearer to a given B, is too far from a given A, or, with nothing given, is darker than
  // mid-grey. colour_a and colour_b are short for meanings.
  std::vector<ColourMeaning> meanings;
  std::optional<Rgb> colour_a;
  std::optional<Rgb> colour_b;

  // Greatest distance of a pixel from the nearest of these colours: the largest of the differences
  // in red, green and blue, in steps of 255 (0: exact; 255: any pixel goes to the nearest colour).
  // A pixel midway between two of different meaning is refused, whatever the tolerance.
  int tolerance = 0;

  // Side of a cell in pixels, 1 to kLargestCellScale; then no grid lines are searched for. Absent:
  // a CSV has one cell per entry; in a picture width and height of a cell are found separately
  // (FindCellSize): the greatest that divide the sides and leave every cell of one colour. A
  // workable chart drawn with one pixel a cell is never read as a coarser one, since among its rows
  // some change is alone; only a picture of one colour says nothing, and has one cell a pixel. An
  // unworkable drawing in blocks, meant as one pixel a cell, needs the scale given.
  std::optional<int> cell_scale;

  // How many cells there are across and up, if they are known: a reading with others is refused,
  // and a picture without lines whose cells cannot be found is divided by them (one of the two is
  // enough if the cells are squares), as after it was scaled by a fraction.
  std::optional<int> stitches;
  std::optional<int> rows;

  // What is cut away at the sides of the picture (of a CSV: entries) before anything is read.
  Margins crop;

  // Grid lines: declared; otherwise searched for (see grid_finder.h) unless find_grid is false.
  std::optional<DeclaredGrid> grid;
  bool find_grid = true;

  // Exchanges A and B (plain and drop) after reading.
  bool swap_colours = false;
};

struct ImportedChart {
  // Set: B, or a drop. If picture_colours is not empty: a mark (another colour than the row's).
  chart::Grid cells;
  // As in chart::Design: only for a picture whose row order names more than A and B.
  std::vector<chart::Colour> picture_colours;
  // The colours as read, before any exchange; white and black if the file has none of its own.
  Rgb colour_a = kWhite;
  Rgb colour_b = kBlack;
  // A picture whose row 1, worked in A and never off-colour, shows B only: the colours may have to
  // be exchanged.
  bool swap_colours_offered = false;
  ImportReport report;
};

// Recognises the format by the first bytes. The stop's status if the work has to stop.
absl::StatusOr<ImportedChart> ImportChart(std::string_view bytes, const ImportSettings& settings,
                                          const Stop& stop = {});

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_CHART_FILE_H_
