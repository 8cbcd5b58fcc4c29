#include "services/domain/chart/check/foreign_colours.h"

#include <bit>

namespace rowproof::chart {

RowsAbove RowsAboveOf(const Design& design, const RowStructure& structure, int row) {
  RowsAbove above;
  if (row < design.cells.rows()) {
    above.drawn = row + 1;
    above.drawn_sizes = structure.all_sizes;
  }
  if (structure.seam_sizes != 0 && row == design.row_band->last) {
    above.seam = design.row_band->first;
    above.seam_sizes = structure.seam_sizes;
  }
  return above;
}

void FindForeignColours(const Design& design, int row, int above, std::span<uint64_t> foreign) {
  ROWPROOF_CHECK(NamesColours(design));
  const Colour covering = RowColour(design, above);
  const Colour* const named = design.picture_colours.data() + PictureCell(design, row, 1);
  const auto marks = design.cells.row(row);
  for (size_t i = 0; i < marks.size(); ++i) {
    foreign[i] = 0;
    for (uint64_t rest = marks[i]; rest != 0; rest &= rest - 1) {
      const size_t cell = i * 64 + static_cast<size_t>(std::countr_zero(rest));
      if (named[cell] != covering) foreign[i] |= rest & -rest;
    }
  }
}

}  // namespace rowproof::chart
