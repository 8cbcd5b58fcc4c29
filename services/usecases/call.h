// What every use case is given: the application's parts, and the call that it serves.
#ifndef ROWPROOF_SERVICES_USECASES_CALL_H_
#define ROWPROOF_SERVICES_USECASES_CALL_H_

#include <chrono>
#include <functional>
#include <optional>
#include <string>

#include "absl/status/status.h"
#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "services/usecases/version_cache.h"
#include "storage/database/database.h"

namespace rowproof::usecases {

// Parts that live as long as the server. Thread-safe.
struct Application {
  storage::Database& database;
  IdentifierSource& identifiers;
  Clock& clock;
  VersionCache& versions;
};

// One call. Belongs to one thread.
struct Call {
  std::string method;  // "PatternService.CreateVersion"
  storage::Deadline deadline;
  std::optional<Sha256> token_sha256;
  // The client's request id, or empty; `digest` covers the decoded input.
  std::string request_id;
  Sha256 digest{};
  // Filled on admission, for the log.
  AccountId account;
};

// What the call names, for admission, the lock of a write, and the words of a refusal.
struct Target {
  std::string type;  // "pattern"
  std::string name;  // "patterns/abc"
  PatternId pattern;
  CallId call;
  storage::Door::Lock lock = storage::Door::Lock::kNone;
  std::optional<storage::Door::Report> report = {};
};

// Runs `body` in a transaction after the roles table has admitted the caller (domain/access/
// permissions.h). A write claims its request id, the client's or one made for it; where
// admission.earlier_result is set, `body` only reads what the first run made.
absl::Status Write(Application& application, Call& call, const Target& target,
                   const storage::Database::Body& body);
absl::Status Read(Application& application, Call& call, const Target& target,
                  const storage::Database::Body& body);

// Refuses a request that cannot reach a transaction for lack of a token.
absl::Status RequireToken(const Call& call);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CALL_H_
