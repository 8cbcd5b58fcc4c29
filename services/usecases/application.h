// What every use case is given: the parts of the application, and a transaction that only an
// admitted caller enters.
#ifndef ROWPROOF_SERVICES_USECASES_APPLICATION_H_
#define ROWPROOF_SERVICES_USECASES_APPLICATION_H_

#include <functional>
#include <optional>
#include <string>

#include "absl/status/status.h"
#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "services/usecases/request_context.h"
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

// What a request names, for admission, the lock of a write, and the words of a refusal.
struct Target {
  std::string type;  // "pattern"
  std::string name;  // "patterns/abc"
  PatternId pattern;
  CallId call;
  storage::Door::Lock lock = storage::Door::Lock::kNone;
  std::optional<storage::Door::Report> report = {};
  // The write deletes it: repeated, it finds it gone, and `body` is run all the same.
  bool is_deleted = false;
};

// Runs `body` in a transaction after the roles table has admitted the caller (domain/access/
// permissions.h). A write claims its request id, the client's or one made for it; if
// admission.earlier_result is set, `body` only reads what the first run made.
absl::Status Write(Application& application, RequestContext& context, const Target& target,
                   const storage::Database::Body& body);
absl::Status Read(Application& application, RequestContext& context, const Target& target,
                  const storage::Database::Body& body);

// Refuses a request that cannot reach a transaction for lack of a token.
absl::Status RequireToken(const RequestContext& context);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_APPLICATION_H_
