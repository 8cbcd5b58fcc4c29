#include "services/server/embedded_postgres.h"

#include <grp.h>
#include <poll.h>
#include <pwd.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <thread>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/server/processes.h"
#include "services/server/program.h"

namespace rowproof::server {
namespace {

// sockaddr_un.sun_path holds 108 bytes with its NUL; the server's socket is named .s.PGSQL.5432.
constexpr size_t kLongestSocketPath = 107;
constexpr char kSocketName[] = "/.s.PGSQL.5432";
constexpr char kPort[] = "5432";
constexpr char kDatabase[] = "rowproof";
constexpr char kProgram[] = "postgres";
constexpr std::chrono::milliseconds kBetweenLooks{20};
constexpr std::chrono::seconds kPatienceWithOrphans{3};
constexpr std::chrono::seconds kEndOfOrphans{10};

absl::Status Cannot(const std::string& sentence) {
  return WrongState("EMBEDDED_DATABASE", "database", sentence);
}

absl::Status Stopped() { return Cannot("PostgreSQL was stopped before it answered"); }

absl::Status CannotMake(const std::string& folder, int why) {
  return Cannot(fmt::format("The folder {} cannot be made or taken ({}); name another by --var.",
                            folder, std::strerror(why)));
}

absl::Status MakeFolder(const std::string& folder) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error) return CannotMake(folder, error.value());
  if (chmod(folder.c_str(), 0700) != 0) return CannotMake(folder, errno);
  return absl::OkStatus();
}

// The first line of a lock file of PostgreSQL; 0 if there is no number.
pid_t NumberIn(const std::string& path) {
  std::ifstream file(path);
  pid_t number = 0;
  return file >> number ? number : 0;
}

// Before the server waits for its signals they are only pending.
bool StopIsAsked() {
  sigset_t pending;
  return sigpending(&pending) == 0 &&
         (sigismember(&pending, SIGTERM) == 1 || sigismember(&pending, SIGINT) == 1);
}

// Sends a signal to a process of the cluster, and to no other that gets its number meanwhile. Waits
// for its end; whether it has ended.
bool SignalIfRuns(pid_t process, const std::string& data, int signal,
                  std::chrono::milliseconds longest = std::chrono::milliseconds(0)) {
  const int file = static_cast<int>(syscall(SYS_pidfd_open, process, 0));
  if (file < 0) return errno == ESRCH;
  bool ended = true;
  if (RunsIn(process, kProgram, data) &&
      syscall(SYS_pidfd_send_signal, file, signal, nullptr, 0) == 0) {
    pollfd end{file, POLLIN, 0};
    ended = poll(&end, 1, static_cast<int>(longest.count())) == 1;
    if (ended) waitpid(process, nullptr, WNOHANG);  // it may be a child of this process
  }
  close(file);
  return ended;
}

}  // namespace

EmbeddedPostgres::EmbeddedPostgres(const std::string& folder, std::string programs)
    : folder_(std::filesystem::absolute(folder).string()),
      programs_(std::move(programs)),
      data_(folder_ + "/data"),
      socket_folder_(folder_ + "/s"),
      log_(folder_ + "/postgres.log") {}

absl::Status EmbeddedPostgres::Make() {
  RETURN_IF_ERROR(MakeFolder(folder_));
  RETURN_IF_ERROR(MakeFolder(socket_folder_));
  if (std::filesystem::exists(data_ + "/PG_VERSION")) return absl::OkStatus();
  // A cluster is created under another name and renamed at the end, so that an interrupted creation
  // starts again.
  const std::string unfinished = folder_ + "/unfinished";
  std::filesystem::remove_all(unfinished);
  const int made = RunProgram(
      {programs_ + "/initdb", "--pgdata=" + unfinished, "--username=rowproof", "--auth-local=trust",
       "--auth-host=reject", "--encoding=UTF8", "--locale=C", "--data-checksums"},
      log_);
  if (made != 0) return Cannot(fmt::format("initdb failed with {}; {} says why", made, log_));
  std::filesystem::rename(unfinished, data_);
  return absl::OkStatus();
}

absl::Status EmbeddedPostgres::Start() {
  if (socket_folder_.size() + sizeof(kSocketName) - 1 > kLongestSocketPath) {
    return Cannot(
        fmt::format("the path {} is too long for a socket; use a shorter --var", socket_folder_));
  }
  for (const char* program : {"/initdb", "/postgres"}) {
    if (access((programs_ + program).c_str(), X_OK) != 0) {
      return Cannot(fmt::format("{}{} is not there; install postgresql-15", programs_, program));
    }
  }
  RETURN_IF_ERROR(Make());
  // One that is being stopped may have ended by the time it would answer.
  if (!Running() || !AwaitAnswer(0).ok()) RETURN_IF_ERROR(Launch());
  // createdb fails if the database exists, which is all right.
  RunProgram(
      {programs_ + "/createdb", "-h", socket_folder_, "-p", kPort, "-U", "rowproof", kDatabase},
      log_);
  return absl::OkStatus();
}

absl::Status EmbeddedPostgres::Launch() {
  if (given_up_ || StopIsAsked()) return Stopped();
  RETURN_IF_ERROR(EndOrphans());
  ForgetDeadProcesses();
  // The port is in the socket's name; without it PGPORT would decide.
  const pid_t child =
      StartProgram({programs_ + "/postgres", "-D", data_, "-c", "listen_addresses=", "-c",
                    fmt::format("unix_socket_directories=\"{}\"", socket_folder_), "-c",
                    fmt::format("port={}", kPort), "-c", "unix_socket_permissions=0700", "-c",
                    "max_connections=60", "-c", "fsync=on", "-c", "synchronous_commit=on", "-c",
                    "update_process_title=off"},
                   log_);
  if (child < 0) return Cannot(fmt::format("{}/postgres cannot be started", programs_));
  return AwaitAnswer(child);
}

pid_t EmbeddedPostgres::Postmaster() const {
  const pid_t noted = NumberIn(data_ + "/postmaster.pid");
  return RunsIn(noted, kProgram, data_) ? noted : 0;
}

// The file may be left by a killed one that had the same number in another container.
bool EmbeddedPostgres::Answers() const {
  return RunProgram({programs_ + "/pg_isready", "-q", "-h", socket_folder_, "-p", kPort},
                    "/dev/null") == 0;
}

absl::Status EmbeddedPostgres::AwaitAnswer(pid_t child) {
  constexpr int kStatusLine = 8;  // of postmaster.pid: starting, ready, stopping
  for (;;) {
    const bool ended = child > 0 ? waitpid(child, nullptr, WNOHANG) != 0 : !Running();
    if (ended) return Cannot(fmt::format("PostgreSQL does not start; {} says why", log_));
    std::ifstream file(data_ + "/postmaster.pid");
    std::string line;
    for (int i = 0; i < kStatusLine && std::getline(file, line); ++i) {
      if (i + 1 == kStatusLine && line.starts_with("ready") && Running() && Answers()) {
        return absl::OkStatus();
      }
    }
    if (given_up_ || StopIsAsked()) return Stopped();
    std::this_thread::sleep_for(kBetweenLooks);
  }
}

absl::Status EmbeddedPostgres::AwaitRunning() {
  const auto end = std::chrono::steady_clock::now() + std::chrono::minutes(1);
  while (!Running()) {
    if (std::chrono::steady_clock::now() >= end) {
      return Cannot(
          fmt::format("a server has {}, but not its PostgreSQL; name the server's --database, or "
                      "stop the server",
                      folder_));
    }
    std::this_thread::sleep_for(kBetweenLooks);
  }
  return AwaitAnswer(0);
}

// Processes of the cluster whose first process was killed. They end by themselves as soon as they
// look; one that computes looks late, and PostgreSQL does not start beside it.
absl::Status EmbeddedPostgres::EndOrphans() {
  const auto begin = std::chrono::steady_clock::now();
  for (;;) {
    const std::vector<pid_t> orphans = ProcessesIn(kProgram, data_);
    if (orphans.empty()) return absl::OkStatus();
    if (given_up_ || StopIsAsked()) return Stopped();
    const auto waited = std::chrono::steady_clock::now() - begin;
    if (waited > kEndOfOrphans) {
      return Cannot(fmt::format("process {} of an earlier PostgreSQL in {} does not end",
                                orphans.front(), data_));
    }
    if (waited > kPatienceWithOrphans) {
      for (const pid_t orphan : orphans) SignalIfRuns(orphan, data_, SIGKILL);
    }
    std::this_thread::sleep_for(kBetweenLooks);
  }
}

// PostgreSQL does not start while the number in one of its lock files is anybody's: a zombie's, a
// stranger's, or this process's own in a new container. An empty file stops it as well. With
// nothing of the cluster running such a file says nothing. PostgreSQL judges one whose process is
// gone by itself, and looks for shared memory in use as it does.
void EmbeddedPostgres::ForgetDeadProcesses() {
  for (const std::string& file :
       {data_ + "/postmaster.pid", fmt::format("{}{}.lock", socket_folder_, kSocketName)}) {
    const pid_t noted = std::abs(NumberIn(file));  // below 0: postgres without a first process
    std::error_code error;
    if (noted == 0 || FactsOf(noted).has_value()) std::filesystem::remove(file, error);
  }
}

bool EmbeddedPostgres::End(int signal, std::chrono::milliseconds longest) {
  const pid_t postmaster = Postmaster();
  if (postmaster == 0) return true;
  return SignalIfRuns(postmaster, data_, signal, longest);
}

void EmbeddedPostgres::Stop() {
  // Fast, then immediate: the next start then recovers, as after a crash.
  if (!End(SIGINT, std::chrono::minutes(1))) End(SIGQUIT, std::chrono::seconds(10));
}

std::string EmbeddedPostgres::Connection() const {
  return fmt::format("host='{}' port={} user=rowproof dbname={}", socket_folder_, kPort, kDatabase);
}

absl::Status LeaveRoot(const std::string& folder) {
  if (geteuid() != 0) return absl::OkStatus();
  const passwd* user = getpwnam("postgres");
  if (user == nullptr) {
    return Cannot(
        "there is no user postgres to run as instead of root; install postgresql-15, or start this "
        "as another user");
  }
  if (!folder.empty()) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error) return CannotMake(folder, error.value());
    if (chown(folder.c_str(), user->pw_uid, user->pw_gid) != 0) return CannotMake(folder, errno);
  }
  if (initgroups(user->pw_name, user->pw_gid) != 0 || setgid(user->pw_gid) != 0 ||
      setuid(user->pw_uid) != 0) {
    return Cannot("the user cannot be changed to postgres");
  }
  // Where libpq looks for .pgpass: root's cannot be read any more.
  setenv("HOME", user->pw_dir, 1);
  if (!folder.empty() && access(folder.c_str(), W_OK | X_OK) != 0) {
    return Cannot(
        fmt::format("user postgres cannot enter {}; move the checkout to a folder that "
                    "others may pass, or name another --var",
                    folder));
  }
  return absl::OkStatus();
}

}  // namespace rowproof::server
