// Reconciliations of a test call.
#ifndef ROWPROOF_SERVICES_USECASES_RECONCILIATIONS_H_
#define ROWPROOF_SERVICES_USECASES_RECONCILIATIONS_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/usecases/application.h"
#include "storage/reconciliations.h"

namespace rowproof::usecases {

struct ReconciliationPage {
  std::vector<storage::ReconciliationRow> reconciliations;
  bool more = false;
};

// Reconciles the newest report of every seat with the call's present version and stores the result.
absl::StatusOr<storage::ReconciliationRow> Reconcile(Application& application,
                                                     RequestContext& context,
                                                     const PatternId& pattern, const CallId& id);
absl::StatusOr<storage::ReconciliationRow> GetReconciliation(Application& application,
                                                             RequestContext& context,
                                                             const PatternId& pattern,
                                                             const CallId& id, int number);
// Below `before_number` where that is not 0.
absl::StatusOr<ReconciliationPage> ListReconciliations(Application& application,
                                                       RequestContext& context,
                                                       const PatternId& pattern, const CallId& id,
                                                       int before_number, int limit);

// From the next reconciliation on. INVALID_ARGUMENT "note".
absl::StatusOr<storage::SetAsideRow> SetAside(Application& application, RequestContext& context,
                                              const PatternId& pattern, const CallId& id,
                                              const SeatId& seat, reconcile::Quantity quantity,
                                              const std::string& note);
absl::Status TakeBack(Application& application, RequestContext& context, const PatternId& pattern,
                      const CallId& id, const SeatId& seat, reconcile::Quantity quantity);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_RECONCILIATIONS_H_
