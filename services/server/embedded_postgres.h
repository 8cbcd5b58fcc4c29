// The server's private PostgreSQL cluster, used if no other database is named.
#ifndef ROWPROOF_SERVICES_SERVER_EMBEDDED_POSTGRES_H_
#define ROWPROOF_SERVICES_SERVER_EMBEDDED_POSTGRES_H_

#include <string>

#include "absl/status/status.h"

namespace rowproof::server {

// A cluster of PostgreSQL 15 in a folder: Unix socket only, data checksums on, reached through a
// socket folder that only its user may enter. One thread at a time.
class EmbeddedPostgres {
 public:
  // `folder` is absolute, or below the working directory; `programs` holds initdb and pg_ctl.
  EmbeddedPostgres(const std::string& folder, std::string programs);

  // Creates the cluster if there is none, starts it if it is not running, and returns when it
  // answers. FAILED_PRECONDITION, with what to do, if that fails.
  absl::Status Start();
  bool Running();
  // Fast shutdown: open transactions are rolled back. Waits until it is down.
  void Stop();

  // libpq connection string of its database.
  std::string Connection() const;

 private:
  absl::Status Make();

  const std::string folder_;
  const std::string programs_;
  const std::string data_;
  const std::string socket_folder_;
  const std::string log_;
};

// If run as root, the process becomes user postgres, who then owns `folder`. FAILED_PRECONDITION if
// there is no such user, or it cannot enter the folder. Does nothing for other users.
absl::Status LeaveRoot(const std::string& folder);

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_EMBEDDED_POSTGRES_H_
