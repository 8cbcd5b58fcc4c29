// The words of a row between its head and its closing count, with numbers listed by size.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_TEXT_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_TEXT_H_

#include <string>
#include <vector>

#include "services/domain/rows/instructions.h"
#include "services/domain/rows/number_list.h"
#include "services/domain/rows/writing/row_items.h"
#include "services/domain/rows/writing/shortest_form.h"

namespace rowproof::rows {

// A row of the chart in working order: stitches before the repeated band, in the band, and after
// it, each of the chart's stitches separately: kChainSpace is one that is skipped. Without a band
// all stitches are `before`.
struct BandedRow {
  std::vector<Stitch> before;
  std::vector<Stitch> band;
  std::vector<Stitch> after;
  // Its chain spaces are over those of the row before (a WS row of inset).
  bool over_space = false;
};

struct RowText {
  std::string steps;  // "sc 4, [ssc, sc 2] 9 (13, 17) times, sc 3"
  int cost = 0;
};

// Writes a row for sizes that work its band `repeats` times each (all at least 1, not empty). If
// every size works the band once, the row is written as a whole. Otherwise the band is one group,
// or, if it holds one kind of stitch, one run together with its neighbours of that kind; what is
// before, inside and after it is shortest in each part, and brackets in it are counted down from
// `depth`. If skipped stitches meet at a join, the band is turned so that their chain space
// stays whole, at the first place of least cost; the group is then worked once less.
RowText WriteSteps(const BandedRow& row, const std::vector<int>& repeats, const RowWords& words,
                   int depth, SearchBudget& budget);

// Stitches and chain spaces of the row, for a band that is worked `repeats` times (at least 1).
ClosingCount CountOf(const BandedRow& row, int repeats);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_TEXT_H_
