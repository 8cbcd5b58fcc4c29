// What a designer decides about a chart: cells, convention, technique, bands and sizes.
// Terms and conventions: the trade's, as used throughout the project (services/domain/GLOSSARY.md).
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_DESIGN_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_DESIGN_H_

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "services/domain/chart/grid.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

enum class Technique : uint8_t { kSpike, kOverlay, kInset };
enum class Facing : uint8_t { kOneFace, kTwoFace, kPaired };
enum class Ends : uint8_t { kCut, kCarried, kWaiting };
enum class Form : uint8_t { kFlat, kTube };
// kPicture: a set cell shows colour B on face 1. kWorking: a set cell is a drop stitch.
enum class Convention : uint8_t { kPicture, kWorking };
enum class Hand : uint8_t { kRight, kLeft };
enum class Terms : uint8_t { kUs, kUk };
enum class Side : uint8_t { kRightSide, kWrongSide };
enum class Colour : uint8_t { kA, kB, kC, kD, kE, kF, kG, kH };
inline constexpr size_t kMostColours = 8;

// The repeated band: rows (or stitches) first..last of the chart, from 1, both inclusive; the rest
// is worked once.
struct Band {
  int first = 0;
  int last = 0;
  int length() const { return last - first + 1; }
  bool operator==(const Band&) const = default;
};

// How often each repeated band is worked, at least once. Without a band the count is 1.
struct Size {
  std::string name;
  int stitch_repeats = 1;
  int row_repeats = 1;
  bool operator==(const Size&) const = default;
};

inline constexpr int kMostSizes = 20;
inline constexpr int kMostRepeats = 4000;
inline constexpr size_t kLongestSizeName = 60;  // bytes of UTF-8

struct Design {
  Technique technique = Technique::kSpike;
  Facing facing = Facing::kTwoFace;
  Ends ends = Ends::kCut;
  Form form = Form::kFlat;
  Convention convention = Convention::kPicture;
  Grid cells;
  // One colour a chart row, bottom first; empty: A in odd rows and B in even rows.
  std::vector<Colour> row_colours;
  // The colour each cell shows, row by row from row 1, stitch 1 first (PictureCell). Only for a
  // picture whose row colours go beyond A and B, and needed there; empty otherwise. A cell is then
  // set where it shows another colour than its row's own (a mark), not where it shows B.
  std::vector<Colour> picture_colours;
  // The colour of a foundation of worked stitches (row 0), if the chart declares one: an anchor
  // for row 2 if that row has its colour. None: a foundation chain.
  std::optional<Colour> foundation_colour;
  std::optional<Band> stitch_band;
  std::optional<Band> row_band;
  // At least one; a design without bands has one size.
  std::vector<Size> sizes = {Size{"one size", 1, 1}};
  // The number the written rows give to the first worked row (some writers count the foundation).
  int first_row_number = 1;

  bool operator==(const Design&) const = default;
};

// Colour of a chart row by `row_colours`, or by the alternation if that is empty. Row from 1.
inline Colour RowColour(const Design& design, int row) {
  if (!design.row_colours.empty()) return design.row_colours[static_cast<size_t>(row - 1)];
  return row % 2 == 1 ? Colour::kA : Colour::kB;
}

// Index of a cell in picture_colours.
inline size_t PictureCell(const Design& design, int row, int stitch) {
  return static_cast<size_t>(row - 1) * static_cast<size_t>(design.cells.stitches()) +
         static_cast<size_t>(stitch - 1);
}

// Whether picture_colours gives a cell's value in the picture.
inline bool NamesColours(const Design& design) { return !design.picture_colours.empty(); }

// The names of the sizes, for a sentence: "small", "small or large", "S, M or L"; of more than
// eight the first ones and how many there are.
std::string SizesInWords(const Design& design);

// Whether the row colours go beyond A and B.
bool HasMoreThanTwoColours(const Design& design);

// INVALID_ARGUMENT with the field's path (cells, stitch_band.first, sizes[1].row_repeats, ...)
// if the design is not well formed: no cells, a band outside the chart, a repeat below 1 or
// without a band, two sizes of one name, an expanded size over kMostRows x kMostStitches, a colour
// list whose length is not the number of rows, picture colours that are missing, out of place or
// disagree with the cells, a form that the technique does not have. A well-formed design may still
// be unworkable: that is what Check finds.
// The stop's status if the work has to stop.
absl::Status Validate(const Design& design, const Stop& stop = {});

// Names as the API and the command line spell them ("spike", "two-face", "carried", ...).
const char* Name(Technique technique);
const char* Name(Facing facing);
const char* Name(Ends ends);
const char* Name(Form form);
const char* Name(Convention convention);
const char* Name(Colour colour);  // "A" to "H"
const char* Name(Side side);      // "RS", "WS"

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_DESIGN_H_
