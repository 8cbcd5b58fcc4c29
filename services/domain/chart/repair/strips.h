// Covers that are too wide to be solved exactly: a good answer and a weight that none goes below.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_STRIPS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_STRIPS_H_

#include <cstdint>

#include "services/domain/chart/repair/cover.h"

namespace rowproof::chart {

// Solve in cover.h explains how it works. Uses about `steps` table entries. If the work has to
// stop, the answer has the cover's size and is no answer.
CoverAnswer SolveInStrips(const Cover& cover, int64_t steps, const Stop& stop);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_STRIPS_H_
