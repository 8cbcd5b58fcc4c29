// Rows of reconciliations and of measurements set aside. Every function throws libpqxx's
// exceptions, which end in Database, and runs inside a transaction.
#ifndef ROWPROOF_STORAGE_RECONCILIATIONS_H_
#define ROWPROOF_STORAGE_RECONCILIATIONS_H_

#include <map>
#include <optional>
#include <vector>

#include "services/domain/identifiers.h"
#include "services/domain/patterns/readings.h"
#include "services/domain/reconcile/reconciliation.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

// The call is locked. Numbers run from 1 without gaps.
int CountReconciliations(Transaction& transaction, const PatternId& pattern, const CallId& call);
void InsertReconciliation(Transaction& transaction, const reconcile::ReconciliationRecord& row);
std::optional<reconcile::ReconciliationRecord> LoadReconciliation(Transaction& transaction,
                                                                  const PatternId& pattern,
                                                                  const CallId& call, int number);
std::optional<reconcile::ReconciliationRecord> LoadNewestReconciliation(Transaction& transaction,
                                                                        const PatternId& pattern,
                                                                        const CallId& call);
// Newest first, below `before_number` if that is not 0.
std::vector<reconcile::ReconciliationRecord> ListReconciliations(Transaction& transaction,
                                                                 const PatternId& pattern,
                                                                 const CallId& call,
                                                                 int before_number, int limit);

// Nothing is set aside yet of that seat and quantity.
void InsertSetAside(Transaction& transaction, const PatternId& pattern, const CallId& call,
                    const reconcile::SetAsideRecord& row);
// Whether there was one.
bool DeleteSetAside(Transaction& transaction, const PatternId& pattern, const CallId& call,
                    const SetAsideId& id);
std::optional<reconcile::SetAsideRecord> LoadSetAside(Transaction& transaction,
                                                      const PatternId& pattern, const CallId& call,
                                                      const SetAsideId& id);
std::optional<SetAsideId> FindSetAside(Transaction& transaction, const PatternId& pattern,
                                       const CallId& call, const SeatId& seat,
                                       reconcile::Quantity quantity);
// By seat and stored number of the quantity, after these.
std::vector<reconcile::SetAsideRecord> ListSetAsides(Transaction& transaction,
                                                     const PatternId& pattern, const CallId& call,
                                                     const SeatId& after_seat, int after_quantity,
                                                     int limit);

// Version and last row of every revision, by seat, oldest first.
std::map<SeatId, std::vector<patterns::WorkStep>> LoadWorkSteps(Transaction& transaction,
                                                                const PatternId& pattern,
                                                                const CallId& call);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_RECONCILIATIONS_H_
