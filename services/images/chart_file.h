// Charts in files: PNG, Netpbm's PBM (plain P1, raw P4) and CSV, in and out.
//
// The bottom line of a picture (the last line of a CSV) is row 1, its right-most column stitch 1. A
// set cell is colour B of a picture chart and a drop of a working chart: the darker of a picture's
// two colours, PBM's 1, CSV's B or x.
//
// Everything here is a pure function of its arguments, and thread-safe. Every dimension is held
// against the limits below before memory is taken for it. What is damaged, cut short, of a third
// colour or over a limit is refused whole: INVALID_ARGUMENT with the field "image", "csv", or the
// setting that does not fit ("cell_scale", "colour_a", "colour_b", "tolerance").
#ifndef ROWPROOF_SERVICES_IMAGES_CHART_FILE_H_
#define ROWPROOF_SERVICES_IMAGES_CHART_FILE_H_

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/chart/grid.h"
#include "services/images/colour.h"

namespace rowproof::images {

// Bytes of a file.
inline constexpr size_t kMostFileBytes = size_t{16} * 1024 * 1024;
// Pixels (entries of a CSV) along a side, and in all: 4,000 x 4,000 cells of 2 x 2 pixels just fit.
inline constexpr int kMostPixelsAcross = 16'000;
inline constexpr int64_t kMostPixels = 64'000'000;
// Pixels a cell along each side.
inline constexpr int kLargestCellScale = 1'000;
// Different colours of a picture that are told apart; one with more is no two-colour chart.
inline constexpr int kMostColours = 65'536;

struct ImportSettings {
  chart::Convention convention = chart::Convention::kPicture;

  // Colours of a PNG or PBM; a CSV names its cells itself. For a working chart A stands for plain
  // stitches and B for drops. Absent colours are found: the two most frequent that are further
  // apart than the tolerance, the lighter being A (where one is given: the most frequent that is
  // further from it than the tolerance). A picture of a single colour is A throughout, or B
  // throughout where that colour is the nearer to a given B, is too far from a given A, or, with
  // neither given, is darker than mid-grey.
  std::optional<Rgb> colour_a;
  std::optional<Rgb> colour_b;

  // Greatest distance of a pixel from the nearer of the two colours: the largest of the differences
  // in red, green and blue, in steps of 255 (0: exact; 255: any pixel goes to the nearer colour).
  // A pixel midway between the two is refused, whatever the tolerance.
  int tolerance = 0;

  // Pixels a cell along each side, 1 to kLargestCellScale. Absent: a PBM or CSV has one cell a
  // pixel; in a PNG the greatest scale is taken that divides width and height and leaves every cell
  // of one colour (the greatest common divisor of both sides and of all places where the colour
  // changes). A workable chart drawn with one pixel a cell is never taken for a coarser one, since
  // in its rows and columns some change stands alone; only a picture of one colour says nothing,
  // and has one cell a pixel. An unworkable drawing in blocks, meant as one pixel a cell, needs the
  // scale given.
  std::optional<int> cell_scale;

  // Exchanges A and B (plain and drop) after reading.
  bool swap_colours = false;
};

struct ImportedChart {
  chart::Grid cells;
  std::string format;  // "PNG", "plain PBM", "raw PBM", "CSV"
  int cell_scale = 1;
  // Whether the scale was given, or follows from the picture (see above).
  bool cell_scale_certain = true;
  // The colours as read, before any swap; white and black where the file has none of its own.
  Rgb colour_a = kWhite;
  Rgb colour_b = kBlack;
  // A picture whose row 1, worked in A and never off-colour, shows B only: the colours may have to
  // be exchanged.
  bool swap_colours_offered = false;
};

// Recognises the format by the first bytes.
absl::StatusOr<ImportedChart> ImportChart(std::string_view bytes, const ImportSettings& settings);

// Every colour type, bit depth, transparency (laid on white) and interlacing; ancillary chunks
// other than tRNS are not read, so colours are those stored. Memory: a row, and a bit a pixel.
absl::StatusOr<ImportedChart> ImportPng(std::string_view bytes, const ImportSettings& settings);

// Plain (P1) or raw (P4); one picture a file. Source: Netpbm, "PBM Format Specification".
absl::StatusOr<ImportedChart> ImportPbm(std::string_view bytes, const ImportSettings& settings);

// Lines, top row first, of cells A and B, or . and x (capital or small; one of the two pairs a
// file), with a comma between cells in every line, or in none. Lines end in LF or CRLF; a byte
// order mark and empty lines at the end are passed over.
absl::StatusOr<ImportedChart> ImportCsv(std::string_view bytes, const ImportSettings& settings);

// What is exported is imported again unchanged, given the same cell scale and colours. `cells` must
// not be empty.

// A palette of two colours, one bit a pixel. INVALID_ARGUMENT: a scale outside 1 to
// kLargestCellScale or one that makes a picture that ImportPng would refuse; A equal to B.
absl::StatusOr<std::string> ExportPng(const chart::Grid& cells, int cell_scale, Rgb colour_a,
                                      Rgb colour_b);

enum class PbmKind : uint8_t { kPlain, kRaw };
std::string ExportPbm(const chart::Grid& cells, PbmKind kind);

// kColours: A and B; kStitches: . and x.
enum class CsvLetters : uint8_t { kColours, kStitches };
std::string ExportCsv(const chart::Grid& cells, CsvLetters letters);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_CHART_FILE_H_
