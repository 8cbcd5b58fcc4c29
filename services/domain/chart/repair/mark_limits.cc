#include "services/domain/chart/repair/mark_limits.h"

#include "services/domain/chart/check/foreign_colours.h"
#include "services/domain/chart/edit.h"
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

// Colour of the rows directly above a row; bars the row if they differ or have its own colour.
Colour ColourAbove(const Design& design, const RowStructure& structure, int row, bool& barred) {
  const RowsAbove above = RowsAboveOf(design, structure, row);
  const Colour own = RowColour(design, row);
  Colour colour = own;
  for (const int other : {above.drawn, above.seam}) {
    if (other == 0) continue;
    const Colour covering = RowColour(design, other);
    if (covering == own || (colour != own && colour != covering)) barred = true;
    colour = covering;
  }
  if (colour == own) barred = true;
  return colour;
}

}  // namespace

MarkLimits LimitsOf(const Design& design, const RowStructure& structure) {
  const int rows = design.cells.rows();
  const bool picture = design.convention == Convention::kPicture;
  MarkLimits limits;
  limits.plain_edges =
      design.form == Form::kFlat && FactsOf(design.technique).edges == EdgeRule::kPlain;
  const bool stands_on_itself = structure.seam_sizes != 0;
  limits.seam = stands_on_itself && design.row_band->length() > 1;
  for (int row = 1; row <= rows; ++row) {
    bool barred = structure.facts[static_cast<size_t>(row - 1)].no_anchor != 0;
    if (picture && row == rows) barred = true;
    // A band of one row is above itself.
    if (stands_on_itself && !limits.seam && row == design.row_band->first) barred = true;
    if (!picture) {
      limits.mark_colours.push_back(RowColour(design, row));
    } else if (NamesColours(design)) {
      limits.mark_colours.push_back(ColourAbove(design, structure, row, barred));
    } else {
      limits.mark_colours.push_back(RowColour(design, row) == Colour::kA ? Colour::kB : Colour::kA);
    }
    limits.barred_rows.push_back(barred);
  }
  return limits;
}

bool IsForeign(const Design& design, const MarkLimits& limits, int row, int stitch) {
  return NamesColours(design) && design.cells.at(row, stitch) &&
         design.picture_colours[PictureCell(design, row, stitch)] != limits.MarkColour(row);
}

int64_t TakeForeignAway(Design& design, const MarkLimits& limits, const Stop& stop) {
  if (!NamesColours(design)) return 0;
  int64_t count = 0;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    if (stop.After(design.cells.stitches())) break;
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      if (!IsForeign(design, limits, row, stitch)) continue;
      ++count;
      Apply({row, stitch, false, RowColour(design, row)}, design);
    }
  }
  return count;
}

}  // namespace rowproof::chart
