// Grid lines along one axis: from the possible places of lines to the cells between them.
#ifndef ROWPROOF_SERVICES_IMAGES_AXIS_FIT_H_
#define ROWPROOF_SERVICES_IMAGES_AXIS_FIT_H_

#include <cstdint>
#include <optional>
#include <vector>

#include "services/images/picture.h"

namespace rowproof::images {

// Cells narrower than this are not found, only declared.
inline constexpr int kNarrowestFoundCell = 3;

struct AxisFit {
  std::vector<Span> cells;
  double pitch = 0;     // a mean
  int usual_pitch = 0;  // the most frequent
  int line_width = 0;
  int widest_line = 0;
  int line_count = 0;
  // From the first line to the last, or to the last cell if that has none.
  Span used;
  // Before the first cell or after the last there is so much of the line's colour that more cells
  // of that colour may be hidden in it.
  bool hides_first = false;
  bool hides_last = false;
  // As many whole cells as would just fill it up to the end of the places; 0: no whole number.
  int hidden_first = 0;
  int hidden_last = 0;
  bool operator==(const AxisFit&) const = default;
  bool hides_cells() const { return hides_first || hides_last; }
  bool fills() const {
    return (!hides_first || hidden_first > 0) && (!hides_last || hidden_last > 0);
  }
};

// If a line is wider than the others: all of it is between the cells, which are all alike, or part
// of it is over those next to it.
enum class LineSpread : uint8_t { kBesideCells, kOverCells };

// `is_line`: a byte for each place, not 0 if a line of the grid's colour runs all along the grid.
// `extent`: from where to where the lines that cross these run. Looks for the longest series of
// bands of such places at the same distance from each other, give or take one (next to a line wider
// than the others also less, if it may cover cells). A band as wide as a line and some whole cells
// is read as cells of the line's own colour. Two cells at least. No value: there is no such series.
std::optional<AxisFit> FitAxis(const std::vector<uint8_t>& is_line, Span extent, LineSpread spread);

// The same cells and those hidden, which fill the places.
AxisFit WithHiddenCells(const AxisFit& fit);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_AXIS_FIT_H_
