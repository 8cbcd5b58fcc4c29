// Whether a database can be reached at all.
#ifndef ROWPROOF_STORAGE_DATABASE_REACHABLE_H_
#define ROWPROOF_STORAGE_DATABASE_REACHABLE_H_

#include <string>

#include "absl/status/status.h"

namespace rowproof::storage {

// Connects once. FAILED_PRECONDITION with libpq's reason in one line: an option that it does not
// know, a host that does not answer, a role that is refused. For the operator's eyes: it may name
// hosts and roles, and never repeats a whole connection string, which may hold a password.
absl::Status CheckReachable(const std::string& connection);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_REACHABLE_H_
