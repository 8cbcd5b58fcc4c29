// Picture cells that name a colour which neither their own row nor the row above has.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FOREIGN_COLOURS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FOREIGN_COLOURS_H_

#include <cstdint>
#include <span>

#include "services/domain/chart/design.h"
#include "services/domain/chart/row_order.h"

namespace rowproof::chart {

// The rows directly above a chart row in some size, if any: the next one in every size, and the
// repeated band's first one above its last.
struct RowsAbove {
  int drawn = 0;  // 0: none
  int seam = 0;
  SizeSet drawn_sizes = 0;
  SizeSet seam_sizes = 0;
};
RowsAbove RowsAboveOf(const Design& design, const RowStructure& structure, int row);

// Sets the bits of `foreign` (a row's words) whose cells show neither their own row's colour nor
// that of `above`. The design must name its cells' colours.
void FindForeignColours(const Design& design, int row, int above, std::span<uint64_t> foreign);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FOREIGN_COLOURS_H_
