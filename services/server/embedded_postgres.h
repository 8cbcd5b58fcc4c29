// The server's private PostgreSQL cluster, used if no other database is named.
#ifndef ROWPROOF_SERVICES_SERVER_EMBEDDED_POSTGRES_H_
#define ROWPROOF_SERVICES_SERVER_EMBEDDED_POSTGRES_H_

#include <sys/types.h>

#include <atomic>
#include <chrono>
#include <string>

#include "absl/status/status.h"

namespace rowproof::server {

// A cluster of PostgreSQL 15 in a folder: Unix socket only, data checksums on, reached through a
// socket folder that only its user may enter. What PostgreSQL notes about its process is never
// believed: a process is this cluster's if it lives, is a postgres and works in the data folder.
// One thread at a time, except GiveUp().
class EmbeddedPostgres {
 public:
  // `folder` is absolute, or below the working directory; `programs` holds PostgreSQL's programs.
  EmbeddedPostgres(const std::string& folder, std::string programs);

  // Creates the cluster if there is none, starts it if it is not running, and returns when it
  // answers, which after a crash may take as long as the writing since the last checkpoint did.
  // Ends what a killed PostgreSQL left. FAILED_PRECONDITION, with what to do, if that fails. Only
  // for who may start it: no other process may do the same at the same time (FolderLock).
  absl::Status Start();
  // Makes a Start() that waits in another thread, and every later one, return at once.
  void GiveUp() { given_up_ = true; }
  bool Running() const { return Postmaster() > 0; }
  // For who may not start it: waits a minute at most until it runs.
  absl::Status AwaitRunning();
  // Fast shutdown: open transactions are rolled back. Waits until it is down.
  void Stop();

  // libpq connection string of its database.
  std::string Connection() const;

 private:
  absl::Status Make();
  // The number of the cluster's first process; 0 if none runs.
  pid_t Postmaster() const;
  absl::Status Launch();
  bool Answers() const;
  // Until it answers, or `child`, if that is a number, has ended.
  absl::Status AwaitAnswer(pid_t child);
  absl::Status EndOrphans();
  void ForgetDeadProcesses();
  bool End(int signal, std::chrono::milliseconds longest);

  const std::string folder_;
  const std::string programs_;
  const std::string data_;
  const std::string socket_folder_;
  const std::string log_;
  std::atomic<bool> given_up_ = false;
};

// If run as root, the process becomes user postgres, who then owns `folder` ("": none).
// FAILED_PRECONDITION if there is no such user, or it cannot enter the folder. Does nothing for
// other users.
absl::Status LeaveRoot(const std::string& folder);

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_EMBEDDED_POSTGRES_H_
