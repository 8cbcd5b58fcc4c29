// Errata of a call joined to faults, and what recomputing says of each. Thread-safe but for the
// readings.
#ifndef ROWPROOF_SERVICES_USECASES_CLUSTER_ERRATA_H_
#define ROWPROOF_SERVICES_USECASES_CLUSTER_ERRATA_H_

#include <vector>

#include "services/domain/faults/coverage.h"
#include "services/domain/patterns/readings.h"
#include "services/domain/reconcile/reconciliation.h"
#include "services/usecases/call_evidence.h"

namespace rowproof::usecases {

// Clusters of the errata, by the present version's chart, with what recomputing its rows says.
// Of several reports of one fault, those made after it was listed count as seen before. Not whole
// if the work has to stop, which the caller asks.
std::vector<reconcile::ClusterResult> ClusterErrata(const CallEvidence& evidence,
                                                    const std::vector<faults::TesterWork>& work,
                                                    patterns::Readings& readings, const Stop& stop);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CLUSTER_ERRATA_H_
