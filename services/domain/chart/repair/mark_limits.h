// Where no mark (off-colour cell, drop) is allowed, and what colour one shows. A repair keeps to
// this (no-anchor, drop-over-drop, uncovered-top-row, edge-drop and edge-skip if they are errors,
// and colours that a cell cannot show).
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_MARK_LIMITS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_MARK_LIMITS_H_

#include <cstdint>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/row_order.h"

namespace rowproof::chart {

// Besides this, no mark is allowed directly above a mark.
struct MarkLimits {
  // By row, index 0 is row 1: no mark can be worked there in some size.
  std::vector<bool> barred_rows;
  // Nor in the first and last stitch.
  bool plain_edges = false;
  // The row band, of at least two rows, is above itself in some size: its first row follows its
  // last.
  bool seam = false;
  // By row: the colour that a mark there shows. Of a picture that names its cells' colours, the
  // colour of the rows above (in a barred row any), of any other picture the other colour, of a
  // working chart the drop's own.
  std::vector<Colour> mark_colours;

  bool RowIsBarred(int row) const { return barred_rows[static_cast<size_t>(row - 1)]; }
  Colour MarkColour(int row) const { return mark_colours[static_cast<size_t>(row - 1)]; }
};

// The design must be valid.
MarkLimits LimitsOf(const Design& design, const RowStructure& structure);

// Whether a set cell of a picture that names colours shows another colour than a mark of its row
// can: such a cell changes in any repair.
bool IsForeign(const Design& design, const MarkLimits& limits, int row, int stitch);

// Gives every foreign cell its row's own colour and returns how many there were.
int64_t TakeForeignAway(Design& design, const MarkLimits& limits, const Stop& stop);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_MARK_LIMITS_H_
