// The private PostgreSQL cluster that the server has where no other database is named.
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

  // Makes the cluster where there is none, starts it where it does not run, and returns when it
  // answers. FAILED_PRECONDITION with what to do where that cannot be.
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

// Run as root, the process goes on as user postgres, who then owns `folder`. FAILED_PRECONDITION
// where there is no such user, or it cannot enter the folder. Does nothing for other users.
absl::Status LeaveRoot(const std::string& folder);

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_EMBEDDED_POSTGRES_H_
