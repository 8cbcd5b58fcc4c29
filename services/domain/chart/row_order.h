// The order in which chart rows are worked in the sizes, and what follows from it and from the row
// colours alone, whatever the cells are.
//
// A rule looks at three rows in a line at most (a drop, the row it covers, its anchor), so that a
// band of two rows or more shows all its neighbourhoods when it is worked twice, one of one row
// when it is worked three times: sizes are looked at with no more repeats than that, and the time
// does not depend on the repeats.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_ROW_ORDER_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_ROW_ORDER_H_

#include <bit>
#include <cstdint>
#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

// Bit i is for sizes[i].
using SizeSet = uint32_t;
static_assert(kMostSizes <= 32);

inline int FirstSize(SizeSet sizes) { return std::countr_zero(sizes); }
inline int SizeCount(SizeSet sizes) { return std::popcount(sizes); }

// Chart rows in working order with the band repeated at most three times, and the sizes it is for.
struct RowOrder {
  std::vector<int> chart_rows;
  SizeSet sizes = 0;
};

// Sizes in which a mark (off-colour cell or drop) of one chart row has a property; the `drawn`
// flags say that it has it already among neighbours of the drawn chart.
struct RowFacts {
  SizeSet worked = 0;     // some row works the mark's drop (all but a picture's last row)
  SizeSet no_anchor = 0;  // no-anchor
  SizeSet foreign_anchor = 0;
  SizeSet pointless = 0;
  SizeSet same_colour = 0;  // the row below has the same colour
  bool foreign_anchor_drawn = false;
  bool pointless_drawn = false;
  bool same_colour_drawn = false;
};

struct RowStructure {
  // The repeated band has an odd number of rows while the colours alternate by row number. No size
  // that repeats it can be worked; all sizes are then looked at with the band worked once.
  bool odd_band = false;
  SizeSet all_sizes = 0;
  SizeSet seam_sizes = 0;  // in which the band's first row follows its last
  std::vector<RowOrder> orders;
  std::vector<RowFacts> facts;  // index 0 is chart row 1
};

// The design must be valid.
RowStructure StructureOf(const Design& design);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_ROW_ORDER_H_
