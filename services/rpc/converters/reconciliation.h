// Reconciliations between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_RECONCILIATION_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_RECONCILIATION_H_

#include <string>

#include "absl/status/statusor.h"
#include "rowproof/v1/reconciliation.pb.h"
#include "services/domain/reconcile/reconciliation.h"

namespace rowproof::rpc {

// Name, author, time, version and reports, as lists have it.
v1::Reconciliation ToListedProto(const reconcile::ReconciliationRecord& row);
v1::Reconciliation ToProto(const reconcile::ReconciliationRecord& row);
v1::SetAside ToProto(const PatternId& pattern, const CallId& call,
                     const reconcile::SetAsideRecord& row);

// INVALID_ARGUMENT `field`.kind or `field`.yarn for an unspecified or unknown quantity.
absl::StatusOr<reconcile::Quantity> FromProto(const std::string& field,
                                              const v1::Quantity& quantity);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_RECONCILIATION_H_
