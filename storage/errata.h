// Rows of errata and their confirmations. Every function throws libpqxx's exceptions, which end in
// Database, and runs inside a transaction.
#ifndef ROWPROOF_STORAGE_ERRATA_H_
#define ROWPROOF_STORAGE_ERRATA_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/faults/erratum.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

std::optional<faults::ErratumRecord> LoadErratum(Transaction& transaction, const PatternId& pattern,
                                                 const CallId& call, const ErratumId& erratum);

// In the order (chart_row, id), after (after_row, after_id) if after_row is not negative.
std::vector<faults::ErratumRecord> ListErrata(Transaction& transaction, const PatternId& pattern,
                                              const CallId& call,
                                              const faults::ErrataFilter& filter, int after_row,
                                              const ErratumId& after_id, int limit);

void UpdateDecision(Transaction& transaction, const faults::ErratumRecord& erratum);
// Replaces the seat's earlier confirmation.
void UpsertConfirmation(Transaction& transaction, const faults::ErratumRecord& erratum,
                        const faults::ConfirmationRecord& confirmation);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_ERRATA_H_
