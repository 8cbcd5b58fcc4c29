// Reconciliations of a test call.
#ifndef ROWPROOF_SERVICES_USECASES_RECONCILIATIONS_H_
#define ROWPROOF_SERVICES_USECASES_RECONCILIATIONS_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/names/names.h"
#include "services/domain/reconcile/reconciliation.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

struct ReconciliationPage {
  std::vector<reconcile::ReconciliationRecord> reconciliations;
  bool more = false;
};

// Reconciles the newest report of every seat with the call's present version and stores the result.
absl::StatusOr<reconcile::ReconciliationRecord> CreateReconciliation(Application& application,
                                                                     RequestContext& context,
                                                                     const PatternId& pattern,
                                                                     const CallId& id);
absl::StatusOr<reconcile::ReconciliationRecord> GetReconciliation(Application& application,
                                                                  RequestContext& context,
                                                                  const PatternId& pattern,
                                                                  const CallId& id, int number);
// Below `before_number` if that is not 0.
absl::StatusOr<ReconciliationPage> ListReconciliations(Application& application,
                                                       RequestContext& context,
                                                       const PatternId& pattern, const CallId& id,
                                                       int before_number, int limit);

struct SetAsidePage {
  std::vector<reconcile::SetAsideRecord> set_asides;
  bool more = false;
};

// From the next reconciliation on. INVALID_ARGUMENT "note"; ALREADY_EXISTS.
absl::StatusOr<reconcile::SetAsideRecord> CreateSetAside(Application& application,
                                                         RequestContext& context,
                                                         const PatternId& pattern, const CallId& id,
                                                         const reconcile::SetAside& set_aside);
absl::StatusOr<reconcile::SetAsideRecord> GetSetAside(Application& application,
                                                      RequestContext& context,
                                                      const SetAsideName& name);
// By seat, after (after_seat, after_quantity), a stored number.
absl::StatusOr<SetAsidePage> ListSetAsides(Application& application, RequestContext& context,
                                           const PatternId& pattern, const CallId& id,
                                           const SeatId& after_seat, int after_quantity, int limit);
absl::Status DeleteSetAside(Application& application, RequestContext& context,
                            const SetAsideName& name);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_RECONCILIATIONS_H_
