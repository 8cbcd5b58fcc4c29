// A dump of the private cluster's database, kept before it is migrated.
#ifndef ROWPROOF_SERVICES_SERVER_BACKUP_H_
#define ROWPROOF_SERVICES_SERVER_BACKUP_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/clock.h"

namespace rowproof::server {

// How many dumps are kept in a folder; older ones are deleted.
inline constexpr size_t kBackupsKept = 5;

struct Backup {
  std::string connection;  // libpq connection string of what is dumped
  std::string programs;    // holds pg_dump and pg_restore
  std::string folder;      // created if it is missing, and closed to other users
};

// Dumps the database into folder/before-migration-NNNN-TIME.dump, in pg_dump's custom format, and
// returns the file's name. pg_restore reads the file through to its end, and the file is on the
// disk, before it gets that name. FAILED_PRECONDITION with one sentence if any of that fails; the
// folder's earlier dumps are then unchanged.
absl::StatusOr<std::string> BackUpBeforeMigration(const Backup& backup, int migration, Moment now);

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_BACKUP_H_
