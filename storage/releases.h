// Rows of releases and their files. Every function throws libpqxx's exceptions, which end in
// Database, and runs inside a transaction.
#ifndef ROWPROOF_STORAGE_RELEASES_H_
#define ROWPROOF_STORAGE_RELEASES_H_

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "services/domain/identifiers.h"
#include "services/domain/releases/gates.h"
#include "storage/database/admission.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

// Values are stored; they never change their meaning.
enum class ReleaseFileKind : uint8_t {
  kPatternSheetPdf = 1,
  kErrataSheetPdf = 2,
  kErrataSheetText = 3,
};

struct ReleaseFileRow {
  ReleaseFileKind kind = ReleaseFileKind::kPatternSheetPdf;
  Sha256 sha256{};
  int64_t size_bytes = 0;
  std::string content;  // empty if only the facts were asked for
};

struct ReleaseRow {
  PatternId pattern;
  ReleaseId id;
  int version_number = 0;
  CallId call;             // empty: none
  int reconciliation = 0;  // of the call, whose amounts are printed; 0: none
  AccountId author;
  Moment created_at;
  std::vector<releases::Gate> gates;
  std::vector<int> versions_concerned;
  std::vector<ReleaseFileRow> files;  // by kind; without content but on insert
  std::optional<Moment> withdrawn_at;
  std::string withdraw_reason;
};

// The release with all its files, in one statement.
void InsertRelease(Transaction& transaction, const ReleaseRow& release);
std::optional<ReleaseRow> LoadRelease(Transaction& transaction, const PatternId& pattern,
                                      const ReleaseId& id);
// Newest first, after (before, before_id) if given.
std::vector<ReleaseRow> ListReleases(Transaction& transaction, const PatternId& pattern,
                                     std::optional<Moment> before, const ReleaseId& before_id,
                                     int limit);
std::optional<ReleaseFileRow> LoadReleaseFile(Transaction& transaction, const PatternId& pattern,
                                              const ReleaseId& id, ReleaseFileKind kind);

void WithdrawRelease(Transaction& transaction, const PatternId& pattern, const ReleaseId& id,
                     Moment at, const std::string& reason);

// Errata of any call of the pattern that are neither decided nor withdrawn.
int64_t CountUndecidedErrata(Transaction& transaction, const PatternId& pattern);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_RELEASES_H_
