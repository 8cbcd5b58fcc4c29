// Locked cells that no repair can keep.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_LOCK_CLASHES_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_LOCK_CLASHES_H_

#include "absl/status/status.h"
#include "services/domain/chart/repair/variables.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

inline constexpr size_t kMostClashes = 20;

// FAILED_PRECONDITION, type LOCKS_CLASH, one condition for each clash, kMostClashes at most. All
// rules only forbid marks, so that the locked marks and their images, all other cells plain, break
// whatever cannot be kept: subject is the finding's code, the description its sentence. Or the
// subject is `symmetry`: a locked cell and its image do not go together.
// The stop's status if the work has to stop.
absl::Status RequireLocksHold(const RepairVariables& variables, const Stop& stop);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_LOCK_CLASHES_H_
