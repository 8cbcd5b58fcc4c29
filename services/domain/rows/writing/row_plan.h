// Which lines a pattern has: rows written out, and lines that repeat rows, exact in every size.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_PLAN_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_PLAN_H_

#include <functional>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/rows/writing/row_layout.h"
#include "services/domain/rows/writing/row_sequence.h"
#include "services/domain/rows/writing/shortest_form.h"

namespace rowproof::rows {

// One line. Vectors have one entry for each size.
struct PlannedLine {
  // The one size for which the line holds, or -1: all.
  int only_size = -1;
  int kind = 0;  // index of RowSequences::kinds, of the first row
  std::vector<RowRange> rows;
  // Empty for a row written out; else the rows that are worked again, and how often.
  std::vector<RowRange> repeated;
  std::vector<int> times;
};

// Lines in working order. `cost` is what writing out a row of a kind costs, for all sizes (-1) or
// for one.
//
// A row band that sizes work differently often is written once and then repeated; what follows it
// lists its numbers by size. If the rows of the sizes do not agree so (a band whose colours or
// sides change places from one pass to the next), the rows that all sizes share are written for
// all, and the rest for each size by itself. Between such places lines are chosen by a dynamic
// programme of least cost over all repeats of earlier rows, unless `every_row`. Equal costs: a row
// written out before a repeat, then the repeat that reaches farthest, then the shorter one; the
// rows repeated are the first ones that fit.
std::vector<PlannedLine> PlanLines(const chart::Design& design, const RowSequences& sequences,
                                   bool every_row,
                                   const std::function<int(int kind, int only_size)>& cost,
                                   SearchBudget& budget);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_PLAN_H_
