// What a repaired chart has to be, as plainly as it is worded: every size laid out in full.
#ifndef ROWPROOF_TESTS_DOMAIN_CHART_REPAIR_PLAIN_REPAIR_H_
#define ROWPROOF_TESTS_DOMAIN_CHART_REPAIR_PLAIN_REPAIR_H_

#include <cstdint>

#include "services/domain/chart/design.h"
#include "services/domain/chart/repair/options.h"

namespace rowproof::chart {

// Whether the picture of every size has the symmetries that the options declare.
bool IsSymmetric(const Design& design, const RepairOptions& options);

// Whether no row of any size has more marks side by side than the options allow.
bool KeepsRuns(const Design& design, const RepairOptions& options);

// Whether both show the same in all locked cells.
bool KeepsLocks(const Design& design, const Design& mended, const RepairOptions& options);

// Workable by the plain rules, and all of these.
bool IsAcceptable(const Design& design, const Design& mended, const RepairOptions& options);

// The fewest changed cells by search through all charts, nearest first; -1 where no chart is
// acceptable. For very small charts.
int64_t FewestEdits(const Design& design, const RepairOptions& options);

}  // namespace rowproof::chart

#endif  // ROWPROOF_TESTS_DOMAIN_CHART_REPAIR_PLAIN_REPAIR_H_
