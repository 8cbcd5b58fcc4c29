// The worked rows of every size as keys: equal keys are rows that are worked alike.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_SEQUENCE_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_SEQUENCE_H_

#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/rows/writing/row_text.h"
#include "services/domain/stop.h"

namespace rowproof::rows {

// What makes two rows alike, in every size: the stitches in working order (those of the chart, with
// the same stitches repeated), colour and side. The first row is like no other if it is worked
// into a chain.
struct RowKind {
  int content = 0;  // index of RowSequences::contents
  chart::Colour colour = chart::Colour::kA;
  chart::Side side = chart::Side::kRightSide;
  bool first = false;
  bool operator==(const RowKind&) const = default;
};

struct RowSequences {
  std::vector<BandedRow> contents;
  std::vector<RowKind> kinds;
  // By size, by worked row (from row 1): index of `kinds`, and the chart row.
  std::vector<std::vector<int>> rows;
  std::vector<std::vector<int>> chart_rows;
};

// The design must be valid. Thread-safe. If the work has to stop, not all rows are there, and
// nothing may be looked up in them.
RowSequences SequenceRows(const chart::Design& design, chart::Hand hand, const Stop& stop = {});

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_SEQUENCE_H_
