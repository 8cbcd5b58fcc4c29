#include "storage/database/changes.h"

#include <pqxx/pqxx>

#include "storage/database/transaction.h"

namespace rowproof::storage {
namespace {

constexpr Statement kSeen{"seen", "select pg_current_snapshot()::text"};
constexpr Statement kShutOut{"shut_out", "select pg_advisory_xact_lock(hashtextextended($1, 0))"};
constexpr Statement kChanged{
    "changed_since",
    "select exists (select from request_claim where pattern_id = $1 and pattern_id <> '' "
    "and changed_in >= pg_snapshot_xmin($2::text::pg_snapshot) "
    "and not pg_visible_in_snapshot(changed_in, $2::text::pg_snapshot))"};

}  // namespace

std::string SeenBy(Transaction& transaction) { return Run(transaction, kSeen).front()[0].c_str(); }

void ShutOut(Transaction& transaction, const PatternId& pattern) {
  Run(transaction, kShutOut, pattern.value);
}

bool ChangedSince(Transaction& transaction, const PatternId& pattern, const std::string& seen) {
  return Run(transaction, kChanged, pattern.value, seen).front()[0].as<bool>();
}

}  // namespace rowproof::storage
