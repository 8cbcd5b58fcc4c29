// What each row of a chart or of one size holds, for comparing it with other rows. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_ROW_CONTENTS_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_ROW_CONTENTS_H_

#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/grid.h"

namespace rowproof::patterns {

// Contents of the rows of one chart or of one size, bottom first.
struct RowContents {
  struct Row {
    int drops_row = 0;  // row of `stitches` that holds the row's drops; 0: it has none
    int skips_row = 0;  // inset: row of `stitches` whose drops are skipped here; 0: none
    chart::Colour colour = chart::Colour::kA;
    chart::Side side = chart::Side::kRightSide;
  };
  chart::Grid stitches;
  std::vector<Row> rows;
};

// The chart as drawn, each band once, as drops; one content for each chart row. In inset a row also
// holds what the row above fills and this one skips: if that changes, both are worked differently.
// The design must be valid.
RowContents ChartRows(const chart::Design& design);

// One size as worked: one content a worked row (inset: two a chart row, RS then WS; what the next
// colour fills is skipped in both). `size` indexes design.sizes.
RowContents WorkedRows(const chart::Design& design, int size);

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_ROW_CONTENTS_H_
