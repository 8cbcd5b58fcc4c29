// A reconciliation as the database keeps it (jsonb), so that an operator can query it. Keys are the
// field names, enums their numbers. Thread-safe.
#ifndef ROWPROOF_STORAGE_JSON_RECONCILIATION_JSON_H_
#define ROWPROOF_STORAGE_JSON_RECONCILIATION_JSON_H_

#include <string>
#include <vector>

#include "services/domain/reconcile/reconciliation.h"

namespace rowproof::storage {

std::string ReconciliationToJson(const reconcile::Reconciliation& reconciliation);

// Inverse of the above, and of its member "reports" alone. Throws UnreadableValue for
// another text.
reconcile::Reconciliation ReconciliationFromJson(const std::string& json);
std::vector<reconcile::UsedReport> UsedReportsFromJson(const std::string& json);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_JSON_RECONCILIATION_JSON_H_
