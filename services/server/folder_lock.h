// The lock on the folder of --var: it has one server at a time.
#ifndef ROWPROOF_SERVICES_SERVER_FOLDER_LOCK_H_
#define ROWPROOF_SERVICES_SERVER_FOLDER_LOCK_H_

#include <optional>
#include <string>
#include <utility>

#include "absl/status/statusor.h"

namespace rowproof::server {

// A file's descriptor, closed at its end.
class OpenFile {
 public:
  OpenFile() = default;
  explicit OpenFile(int number) : number_(number) {}
  ~OpenFile();
  OpenFile(OpenFile&& other) noexcept;
  OpenFile& operator=(OpenFile&& other) noexcept;

  int number() const { return number_; }

 private:
  int number_ = -1;
};

// Held from its making to its end: locks (flock) on FOLDER/lock and, since a file may be deleted by
// hand, on the folder itself, which the kernel takes back from a process that dies in whatever way.
// The file says who holds them, as "PID STARTED WORD", where STARTED is ProcessFacts' and WORD is
// serve or command; without the locks it says nothing. It is never deleted, and programs that are
// started do not inherit them. One thread at a time.
class FolderLock {
 public:
  // For the server. Waits up to a minute for an operator's command that has the folder.
  // FAILED_PRECONDITION that names the process if another server has it, or if there can be no
  // lock. Creates the folder if it is missing.
  static absl::StatusOr<FolderLock> TakeToServe(const std::string& folder);
  // For an operator's command that would start the private database. Nothing if a server has it.
  static absl::StatusOr<std::optional<FolderLock>> TakeForCommand(const std::string& folder);

 private:
  FolderLock() = default;
  FolderLock(OpenFile file, OpenFile folder) : file_(std::move(file)), folder_(std::move(folder)) {}

  // One without files if a server has the folder, for a command.
  static absl::StatusOr<FolderLock> Take(const std::string& name, bool serves);

  OpenFile file_;
  OpenFile folder_;
};

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_FOLDER_LOCK_H_
