// The lock on the folder of --var: it has one server at a time.
#ifndef ROWPROOF_SERVICES_SERVER_FOLDER_LOCK_H_
#define ROWPROOF_SERVICES_SERVER_FOLDER_LOCK_H_

#include <optional>
#include <string>

#include "absl/status/statusor.h"

namespace rowproof::server {

// Held from its making to its end: a lock (flock) on FOLDER/lock, which the kernel takes back from
// a process that dies in whatever way. The file says who holds it, as "PID STARTED WORD", where
// STARTED is ProcessFacts' and WORD is serve or command; without the lock it says nothing. It is
// never deleted, and programs that are started do not inherit it. One thread at a time.
class FolderLock {
 public:
  // For the server. Waits up to a minute for an operator's command that has the folder.
  // FAILED_PRECONDITION that names the process if another server has it, or if there can be no
  // lock. Creates the folder if it is missing.
  static absl::StatusOr<FolderLock> TakeToServe(const std::string& folder);
  // For an operator's command that would start the private database. Nothing if a server has it.
  static absl::StatusOr<std::optional<FolderLock>> TakeForCommand(const std::string& folder);

  ~FolderLock();
  FolderLock(FolderLock&& other) noexcept;
  FolderLock& operator=(FolderLock&& other) noexcept;

 private:
  explicit FolderLock(int file) : file_(file) {}

  int file_;
};

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_FOLDER_LOCK_H_
