// What the gates and the sheets of a release are made from.
#ifndef ROWPROOF_SERVICES_USECASES_RELEASE_BASIS_H_
#define ROWPROOF_SERVICES_USECASES_RELEASE_BASIS_H_

#include <cstdint>
#include <optional>
#include <string>

#include "absl/status/statusor.h"
#include "services/domain/reconcile/reconciliation.h"
#include "services/domain/releases/gates.h"
#include "services/domain/testcalls/test_call.h"
#include "services/usecases/application.h"
#include "services/usecases/call_evidence.h"
#include "services/usecases/read_version.h"

namespace rowproof::usecases {

// Everything that gates and sheets of one version are made from.
struct ReleaseBasis {
  ReadVersion version;
  std::string designer;  // display name
  int64_t errata_undecided = 0;
  // Of the call; absent without one.
  std::optional<testcalls::TestCallRecord> call;
  std::optional<CallEvidence> evidence;
  std::optional<reconcile::ReconciliationRecord> reconciliation;  // the newest
  // The version that the errata sheet compares with: the one published before, or the one the test
  // call began with; absent if there is no older one.
  std::optional<ReadVersion> before;
};
// Inside a transaction. NOT_FOUND if the version is absent.
absl::StatusOr<ReleaseBasis> LoadReleaseBasis(Application& application,
                                              storage::Transaction& transaction,
                                              const storage::Admission& who,
                                              const PatternId& pattern, int version,
                                              const CallId& id);

// Not whole if the work has to stop, which the caller asks.
releases::GateFacts FactsOf(const ReleaseBasis& basis, const Stop& stop);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_RELEASE_BASIS_H_
