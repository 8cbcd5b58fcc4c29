// The one change of a cell that ends a finding (Finding.edit).
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FINDING_EDITS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FINDING_EDITS_H_

#include <vector>

#include "services/domain/chart/check/edges.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/runs.h"
#include "services/domain/chart/row_order.h"

namespace rowproof::chart {

// Gives each finding its edit if there is one. `edges` are all edge faults of the design, by row
// and stitch; `runs` found the runs.
void AddEdits(const Design& design, const RowStructure& structure,
              const std::vector<EdgeFault>& edges, const RunFinder& runs,
              std::vector<Finding>& findings);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FINDING_EDITS_H_
