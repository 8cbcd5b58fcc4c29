// Brings a database's schema up to this build's. Forward only.
#ifndef ROWPROOF_STORAGE_DATABASE_MIGRATE_H_
#define ROWPROOF_STORAGE_DATABASE_MIGRATE_H_

#include <functional>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "absl/status/statusor.h"

namespace rowproof::storage {

struct Migration {
  int number = 0;
  std::string name;  // file name without ".sql"
  std::string sql;
};

// The numbered files of a folder, in order. FAILED_PRECONDITION if a number is missing or occurs
// twice, a name is not NNNN_name.sql, or there are none.
absl::StatusOr<std::vector<Migration>> ReadMigrations(const std::string& folder);

// Called once before the first of the missing migrations, `migration`, is applied to a database
// that has earlier ones.
using BeforeMigration = std::function<absl::Status(int migration)>;

// Applies what is missing, each in its own transaction together with its entry in
// schema_migration, under one advisory lock; ANALYZE afterwards. FAILED_PRECONDITION
// (SCHEMA_NEWER) if the database has a number that this build does not know, or a name that
// differs; UNAVAILABLE if it cannot be reached; `before`'s refusal, with
// nothing applied. Returns how many were applied.
absl::StatusOr<int> Migrate(const std::string& connection, const std::vector<Migration>& migrations,
                            const BeforeMigration& before = nullptr);

// The same refusals, and FAILED_PRECONDITION (SCHEMA_OLDER) if one is missing; changes nothing.
absl::Status CheckSchema(const std::string& connection, const std::vector<Migration>& migrations);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_MIGRATE_H_
