#include "services/domain/chart/edit.h"

namespace rowproof::chart {

void Apply(const Edit& edit, Design& design) {
  design.cells.set(edit.row, edit.stitch, edit.value);
  if (design.picture_colours.empty()) return;
  // A removed mark shows its row's own colour.
  ROWPROOF_CHECK(edit.colour.has_value() || !edit.value);
  design.picture_colours[PictureCell(design, edit.row, edit.stitch)] =
      edit.colour.value_or(RowColour(design, edit.row));
}

}  // namespace rowproof::chart
