// A transaction that only an admitted caller enters. For the .cc files of this layer: rpc sees no
// storage.
#ifndef ROWPROOF_SERVICES_USECASES_TRANSACTIONS_H_
#define ROWPROOF_SERVICES_USECASES_TRANSACTIONS_H_

#include <functional>
#include <optional>
#include <string>

#include "absl/status/status.h"
#include "services/domain/identifiers.h"
#include "services/usecases/application.h"
#include "storage/database/database.h"
#include "storage/database/transaction.h"

namespace rowproof::usecases {

// What a request names, for admission, the lock of a write, and the words of a refusal.
struct Target {
  std::string type;  // "pattern"
  std::string name;  // "patterns/abc"
  PatternId pattern;
  CallId call;
  storage::RootLock lock = storage::RootLock::kNone;
  std::optional<storage::TransactionScope::Report> report = {};
  // The write deletes it: repeated, it finds it gone, and `body` is run all the same.
  bool is_deleted = false;
};

// Runs `body` in a transaction after the roles table has admitted the caller (domain/access/
// permissions.h). A write claims its request id, the client's or one made for it; if
// admission.earlier_result is set, `body` only reads what the first run made.
absl::Status InTransaction(Application& application, RequestContext& context, const Target& target,
                           const storage::Database::Body& body);
absl::Status InSnapshot(Application& application, RequestContext& context, const Target& target,
                        const storage::Database::Body& body);

// A write that takes long to make from much of a pattern.
struct Steps {
  // In a snapshot. If admission.earlier_result is set, it reads what the first run made.
  storage::Database::Body read;
  // Without a connection, from what `read` has read.
  std::function<absl::Status()> make;
  storage::Database::Body write;
};

// Runs the steps, the last in a transaction before which nothing of the pattern has changed since
// `read`; if something has, all of them again. After some turns the others wait for this one.
absl::Status InSteps(Application& application, RequestContext& context, const Target& target,
                     const Steps& steps);

Target PatternTarget(const PatternId& pattern, storage::RootLock lock = storage::RootLock::kNone);
Target CallTarget(const PatternId& pattern, const CallId& call,
                  storage::RootLock lock = storage::RootLock::kNone);
Target SeatTarget(const PatternId& pattern, const CallId& call, const SeatId& seat,
                  storage::RootLock lock = storage::RootLock::kNone);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_TRANSACTIONS_H_
