#include "services/server/folder_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <thread>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/server/processes.h"

namespace rowproof::server {
namespace {

constexpr char kServe[] = "serve";
constexpr char kCommand[] = "command";
constexpr std::chrono::milliseconds kBetweenTrials{20};
// deploy/up and deploy/down ask by taking the lock for a moment, and who has just taken it has not
// yet said so.
constexpr std::chrono::seconds kForAMoment{1};
constexpr std::chrono::seconds kForACommand{60};

struct Holder {
  pid_t process = 0;  // 0: not a process that can be seen from here
  bool serves = false;
};

absl::Status Cannot(const std::string& sentence) {
  return WrongState("FOLDER_LOCK", "--var", sentence);
}

Holder HolderIn(const std::string& path) {
  std::ifstream file(path);
  pid_t process = 0;
  int64_t started = 0;
  std::string word;
  file >> process >> started >> word;
  Holder holder;
  holder.serves = word != kCommand;
  const auto facts = FactsOf(process);
  if (facts.has_value() && facts->started == started) holder.process = process;
  return holder;
}

absl::Status InUse(const std::string& folder, const Holder& holder) {
  const std::string who =
      holder.process == 0
          ? "a process that cannot be seen from here"
          : fmt::format("process {} ({})", holder.process,
                        holder.serves ? "rowproofd serve" : "an operator's command");
  return Cannot(
      fmt::format("--var {} is in use by {}; stop it first, or name another folder.", folder, who));
}

absl::Status CannotOpen(const std::string& path, int why) {
  const char* to_do = why == EACCES || why == EPERM ? "start the server as the user who owns it"
                                                    : "move it away, or name another folder";
  return Cannot(fmt::format("{} cannot be opened ({}); {}.", path, std::strerror(why), to_do));
}

absl::StatusOr<OpenFile> Open(const std::string& path, int flags) {
  OpenFile file(open(path.c_str(), flags | O_CLOEXEC, 0600));
  if (file.number() < 0) return CannotOpen(path, errno);
  return file;
}

absl::Status SayWhoHolds(int file, const std::string& path, const char* word) {
  const auto facts = FactsOf(getpid());
  const std::string line =
      fmt::format("{} {} {}\n", getpid(), facts.has_value() ? facts->started : 0, word);
  if (ftruncate(file, 0) != 0 ||
      pwrite(file, line.data(), line.size(), 0) != static_cast<ssize_t>(line.size())) {
    return Cannot(fmt::format("{} cannot be written ({}).", path, std::strerror(errno)));
  }
  return absl::OkStatus();
}

bool Locked(const OpenFile& file) { return flock(file.number(), LOCK_EX | LOCK_NB) == 0; }

}  // namespace

OpenFile::OpenFile(OpenFile&& other) noexcept : number_(std::exchange(other.number_, -1)) {}

OpenFile& OpenFile::operator=(OpenFile&& other) noexcept {
  std::swap(number_, other.number_);
  return *this;
}

OpenFile::~OpenFile() {
  if (number_ >= 0) close(number_);
}

absl::StatusOr<FolderLock> FolderLock::Take(const std::string& name, bool serves) {
  if (name.empty()) return Cannot("--var must name a folder.");
  std::error_code error;
  std::filesystem::create_directories(name, error);
  if (error) return CannotOpen(name, error.value());
  const std::string path = name + "/lock";
  ASSIGN_OR_RETURN(OpenFile file, Open(path, O_RDWR | O_CREAT | O_NOFOLLOW));
  ASSIGN_OR_RETURN(OpenFile folder, Open(name, O_RDONLY | O_DIRECTORY));
  const auto begin = std::chrono::steady_clock::now();
  while (!Locked(file) || !Locked(folder)) {
    const int why = errno;
    const bool held = why == EWOULDBLOCK || why == EINTR;
    if (!held) return Cannot(fmt::format("{} cannot be locked ({}).", path, std::strerror(why)));
    const Holder holder = HolderIn(path);
    const auto waited = std::chrono::steady_clock::now() - begin;
    if (waited >= (holder.serves ? kForAMoment : kForACommand)) {
      if (holder.serves && !serves) return FolderLock();
      return InUse(name, holder);
    }
    std::this_thread::sleep_for(kBetweenTrials);
  }
  RETURN_IF_ERROR(SayWhoHolds(file.number(), path, serves ? kServe : kCommand));
  return FolderLock(std::move(file), std::move(folder));
}

absl::StatusOr<FolderLock> FolderLock::TakeToServe(const std::string& folder) {
  return Take(folder, true);
}

absl::StatusOr<std::optional<FolderLock>> FolderLock::TakeForCommand(const std::string& folder) {
  ASSIGN_OR_RETURN(auto lock, Take(folder, false));
  if (lock.file_.number() < 0) return std::optional<FolderLock>();
  return std::optional<FolderLock>(std::move(lock));
}

}  // namespace rowproof::server
