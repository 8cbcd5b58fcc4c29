// Rows of patterns and versions. Every function throws libpqxx's exceptions, which end in
// Database, and runs inside a transaction.
#ifndef ROWPROOF_STORAGE_PATTERNS_H_
#define ROWPROOF_STORAGE_PATTERNS_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/patterns/pattern.h"
#include "services/domain/patterns/version.h"
#include "services/domain/patterns/version_content.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

void InsertPattern(Transaction& transaction, const patterns::PatternRecord& pattern);
std::optional<patterns::PatternRecord> LoadPattern(Transaction& transaction, const PatternId& id);
void UpdatePatternTitle(Transaction& transaction, const PatternId& id, const std::string& title);
// Puts it away since then; nothing: takes it up again.
void ArchivePattern(Transaction& transaction, const PatternId& id, std::optional<Moment> since);
// Patterns in which the account is designer, editor or tester; newest first, after
// (before, before_id) if given.
std::vector<patterns::PatternRecord> ListPatterns(Transaction& transaction,
                                                  const AccountId& account, bool archived_too,
                                                  std::optional<Moment> before,
                                                  const PatternId& before_id, int limit);

// Stores the version, counts it in its pattern and claims the request of its author, as a write of
// one statement (RunWhole). Overtaken if `version.number` is not the pattern's version_count
// + 1, or the pattern is archived.
void InsertVersion(Transaction& transaction, const patterns::VersionRecord& version);
std::optional<patterns::VersionRecord> LoadVersion(Transaction& transaction,
                                                   const PatternId& pattern, int number);
// What the canonical encoding of a version that was loaded says; unreadable if it is not what
// was hashed when the version was stored, or findings name places that the design does not have.
patterns::VersionContent DecodedContent(const patterns::VersionRecord& version);
// The content alone, of a version that a record names; a version that is not there is unreadable.
patterns::VersionContent LoadVersionContent(Transaction& transaction, const PatternId& pattern,
                                            int number);
// Newest first, below `before_number` if that is not 0.
std::vector<patterns::VersionRecord> ListVersions(Transaction& transaction,
                                                  const PatternId& pattern, int before_number,
                                                  int limit);
// Whether a call in which the account holds a seat was sent this version, before the seat ended.
bool WasSentVersion(Transaction& transaction, const PatternId& pattern, int number,
                    const AccountId& account);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_PATTERNS_H_
