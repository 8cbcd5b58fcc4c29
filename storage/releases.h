// Rows of releases and their files. Every function throws libpqxx's exceptions, which end in
// Database, and runs inside a transaction.
#ifndef ROWPROOF_STORAGE_RELEASES_H_
#define ROWPROOF_STORAGE_RELEASES_H_

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "services/domain/releases/release.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

// The release with all its files, in one statement.
void InsertRelease(Transaction& transaction, const releases::ReleaseRecord& release);
std::optional<releases::ReleaseRecord> LoadRelease(Transaction& transaction,
                                                   const PatternId& pattern, const ReleaseId& id);
// Newest first, after (before, before_id) if given.
std::vector<releases::ReleaseRecord> ListReleases(Transaction& transaction,
                                                  const PatternId& pattern,
                                                  std::optional<Moment> before,
                                                  const ReleaseId& before_id, int limit);
std::optional<releases::ReleaseFile> LoadReleaseFile(Transaction& transaction,
                                                     const PatternId& pattern, const ReleaseId& id,
                                                     releases::ReleaseFileKind kind);

void WithdrawRelease(Transaction& transaction, const PatternId& pattern, const ReleaseId& id,
                     Moment at, const std::string& reason);

// Errata of any call of the pattern that are neither decided nor withdrawn.
int64_t CountUndecidedErrata(Transaction& transaction, const PatternId& pattern);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_RELEASES_H_
