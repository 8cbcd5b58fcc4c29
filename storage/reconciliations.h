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
#include "storage/database/admission.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

struct ReconciliationRow {
  PatternId pattern;
  CallId call;
  int number = 0;
  AccountId author;
  Moment created_at;
  int version_number = 0;  // whose amounts it states
  int model_version = 0;
  reconcile::Reconciliation result;  // lists: its reports alone
};

// The call is locked. Numbers run from 1 without gaps.
int CountReconciliations(Transaction& transaction, const PatternId& pattern, const CallId& call);
void InsertReconciliation(Transaction& transaction, const ReconciliationRow& row);
std::optional<ReconciliationRow> LoadReconciliation(Transaction& transaction,
                                                    const PatternId& pattern, const CallId& call,
                                                    int number);
std::optional<ReconciliationRow> LoadNewestReconciliation(Transaction& transaction,
                                                          const PatternId& pattern,
                                                          const CallId& call);
// Newest first, below `before_number` where that is not 0.
std::vector<ReconciliationRow> ListReconciliations(Transaction& transaction,
                                                   const PatternId& pattern, const CallId& call,
                                                   int before_number, int limit);

struct SetAsideRow {
  reconcile::SetAside set_aside;
  Moment set_at;
};
// Replaces what stood there.
void UpsertSetAside(Transaction& transaction, const PatternId& pattern, const CallId& call,
                    const SetAsideRow& row);
void DeleteSetAside(Transaction& transaction, const PatternId& pattern, const CallId& call,
                    const SeatId& seat, reconcile::Quantity quantity);
// By seat and quantity.
std::vector<SetAsideRow> ListSetAside(Transaction& transaction, const PatternId& pattern,
                                      const CallId& call);

// Version and last row of every revision, by seat, oldest first.
std::map<SeatId, std::vector<patterns::WorkStep>> LoadWorkSteps(Transaction& transaction,
                                                                const PatternId& pattern,
                                                                const CallId& call);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_RECONCILIATIONS_H_
