// Rows that say neither RS nor WS, or no colour, if a maker cannot be certain of it.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_LEFT_OUT_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_LEFT_OUT_H_

#include "services/domain/rows/comparing/size.h"

namespace rowproof::rows {

// Longest pattern of labels that a maker is assumed to continue.
inline constexpr int kLongestLabelPattern = 8;

// Adds kSideLeftOut and kColourLeftOut (notes) to the faults. Leaving a label out is common
// practice if it continues as before. So there is no note (the rules are this project's own) if
//   - the rows before it show a pattern in turns that continues with the chart's label: two in
//     turn once, a longer pattern (up to kLongestLabelPattern) twice;
//   - side: every row of the chart is a RS row and some row says so, or it is a tube; the row says
//     whether the work is turned, and the side of the row before is certain;
//   - colour: every row of the chart has one and some row names it; or it is the second row of a
//     chart row of inset, and the first one's is certain.
// Missing rows are ignored; rows that were not read are assumed to state their label. Time is
// linear in the rows.
void AddLeftOutLabels(const TextDocument& document, const ChartRows& chart,
                      SizeComparison& comparison);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_LEFT_OUT_H_
