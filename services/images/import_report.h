// What was found in a chart's file, what was cut away, and what each colour means. Value types.
#ifndef ROWPROOF_SERVICES_IMAGES_IMPORT_REPORT_H_
#define ROWPROOF_SERVICES_IMAGES_IMPORT_REPORT_H_

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/images/colour.h"

namespace rowproof::images {

// The kind of a chart file.
enum class FileFormat : uint8_t {
  kPng,
  kPlainPbm,
  kRawPbm,
  kPlainPgm,
  kRawPgm,
  kPlainPpm,
  kRawPpm,
  kCsv,
  kTsv,
};
// "PNG", "plain PBM", "raw PBM", ... "raw PPM", "CSV" or "TSV".
const char* Name(FileFormat format);

// Pixels (entries of a CSV or TSV) at the sides of a picture.
struct Margins {
  int left = 0;
  int top = 0;
  int right = 0;
  int bottom = 0;
  bool empty() const { return left == 0 && top == 0 && right == 0 && bottom == 0; }
  bool operator==(const Margins&) const = default;
};

// Which of the sides cut away hold more than their own ground: row numbers, stitch numbers, a key.
struct MarkedSides {
  bool left = false;
  bool top = false;
  bool right = false;
  bool bottom = false;
  bool any() const { return left || top || right || bottom; }
  bool operator==(const MarkedSides&) const = default;
};

// Grid lines that were removed.
struct GridLines {
  // From one line to the next, in pixels; a mean, and a fraction if the lines are not evenly
  // spaced.
  double pitch_x = 0;
  double pitch_y = 0;
  // Width of the usual line, and of the widest one (say, every tenth), in pixels; 0: no line.
  int line_width_x = 0;
  int line_width_y = 0;
  int widest_line = 0;
  // Upright and level lines.
  int lines_across = 0;
  int lines_up = 0;
  // Pixels left out along each side of a cell, if lines have soft edges.
  int soft_edge = 0;
  // Empty if the lines were declared.
  std::vector<Rgb> line_colours;
  bool declared = false;
};

// A colour of the cells.
struct TakenColour {
  Rgb colour;
  int64_t pixels = 0;
  // In a working chart A means plain stitches and B drops.
  chart::Colour taken_for = chart::Colour::kA;
  bool operator==(const TakenColour&) const = default;
};

inline constexpr size_t kMostColoursReported = 64;

struct ImportReport {
  FileFormat format = FileFormat::kPng;
  chart::Convention convention = chart::Convention::kPicture;  // as read
  // The whole picture, in pixels (entries of a CSV or TSV).
  int width = 0;
  int height = 0;
  // Side of a cell in pixels; 0 if grid lines were removed, or cells are not square.
  int cell_scale = 1;
  // Pixels of a cell; 0 if grid lines were removed.
  int cell_width = 1;
  int cell_height = 1;
  // Whether the cells' size was given, or follows from the picture.
  bool cell_size_certain = true;
  std::optional<GridLines> grid;
  Margins cut;         // found or declared
  MarkedSides marked;  // what was cut away holds more than its ground
  // Most frequent first, kMostColoursReported at most; before any exchange of A and B. Empty for
  // a CSV or TSV.
  std::vector<TakenColour> colours;
  size_t colour_count = 0;  // all of them
  // The file says itself how it was exported (see Export), and that holds: its convention.
  std::optional<chart::Convention> exported_as;
};

// The report in sentences for a designer, one per line.
std::string Describe(const ImportReport& report);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_IMPORT_REPORT_H_
