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

absl::StatusOr<int> Open(const std::string& folder, const std::string& path) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error) return Cannot(fmt::format("the folder {} cannot be made", folder));
  const int file = open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (file < 0) {
    return Cannot(fmt::format("{} cannot be opened ({}); start the server as the user who owns it.",
                              path, std::strerror(errno)));
  }
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

// The locked file; -1 if a server has it, for a command.
absl::StatusOr<int> Take(const std::string& folder, bool serves) {
  const std::string path = folder + "/lock";
  ASSIGN_OR_RETURN(const int file, Open(folder, path));
  const auto begin = std::chrono::steady_clock::now();
  while (flock(file, LOCK_EX | LOCK_NB) != 0) {
    const bool held = errno == EWOULDBLOCK || errno == EINTR;
    const std::string why = std::strerror(errno);
    const Holder holder = HolderIn(path);
    const auto waited = std::chrono::steady_clock::now() - begin;
    if (held && waited < (holder.serves ? kForAMoment : kForACommand)) {
      std::this_thread::sleep_for(kBetweenTrials);
      continue;
    }
    close(file);
    if (!held) return Cannot(fmt::format("{} cannot be locked ({}).", path, why));
    if (holder.serves && !serves) return -1;
    return InUse(folder, holder);
  }
  if (auto said = SayWhoHolds(file, path, serves ? kServe : kCommand); !said.ok()) {
    close(file);
    return said;
  }
  return file;
}

}  // namespace

absl::StatusOr<FolderLock> FolderLock::TakeToServe(const std::string& folder) {
  ASSIGN_OR_RETURN(const int file, Take(folder, true));
  return FolderLock(file);
}

absl::StatusOr<std::optional<FolderLock>> FolderLock::TakeForCommand(const std::string& folder) {
  ASSIGN_OR_RETURN(const int file, Take(folder, false));
  if (file < 0) return std::optional<FolderLock>();
  return std::optional<FolderLock>(FolderLock(file));
}

FolderLock::FolderLock(FolderLock&& other) noexcept : file_(std::exchange(other.file_, -1)) {}

FolderLock& FolderLock::operator=(FolderLock&& other) noexcept {
  std::swap(file_, other.file_);
  return *this;
}

FolderLock::~FolderLock() {
  if (file_ >= 0) close(file_);
}

}  // namespace rowproof::server
