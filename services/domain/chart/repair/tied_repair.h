// Repair with ties, locks and limits on runs: what repair.h promises for a repair with options.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_TIED_REPAIR_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_TIED_REPAIR_H_

#include <cstdint>

#include "services/domain/chart/grid.h"
#include "services/domain/chart/repair/variables.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

struct MendedMarks {
  Grid marks;         // of the mended chart
  int64_t edits = 0;  // changed cells
  int64_t least = 0;  // no repair changes fewer; equal to `edits` if that is proved
};

// The locks must hold (lock_clashes.h). Time O(cells) and a little more without a limit on runs. If
// the work has to stop, what is returned is no repair.
MendedMarks Mend(const RepairVariables& variables, const Stop& stop);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_TIED_REPAIR_H_
