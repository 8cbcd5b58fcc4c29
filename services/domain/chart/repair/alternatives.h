// Other ways to mend a chart than changing cells; repair.h explains them.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_ALTERNATIVES_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_ALTERNATIVES_H_

#include <vector>

#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/repair/repair.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

// Errors that no cell causes.
std::vector<Finding> UnmendableErrors(const Design& design);

// Every alternative that makes a valid design without such errors, that the options can be kept to
// in, with the edits it leaves. With a limit on runs each may cost a quarter of the options' steps.
// Not all of them if the work has to stop.
std::vector<Alternative> AlternativesOf(const Design& design, const RepairOptions& options,
                                        const Stop& stop);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_ALTERNATIVES_H_
