// Request ids that are old enough to be forgotten.
#ifndef ROWPROOF_STORAGE_DATABASE_CLAIMS_H_
#define ROWPROOF_STORAGE_DATABASE_CLAIMS_H_

#include "absl/status/status.h"
#include "storage/database/database.h"

namespace rowproof::storage {

// A repeated request finds what it made for this long.
inline constexpr std::chrono::hours kClaimsKept{24 * 30};

// Deletes claims older than kClaimsKept.
absl::Status PruneClaims(Database& database);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_CLAIMS_H_
