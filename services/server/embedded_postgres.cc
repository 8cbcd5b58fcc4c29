#include "services/server/embedded_postgres.h"

#include <grp.h>
#include <pwd.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/server/program.h"

namespace rowproof::server {
namespace {

// sockaddr_un.sun_path holds 108 bytes with its NUL; the server's socket is named .s.PGSQL.5432.
constexpr size_t kLongestSocketPath = 107;
constexpr char kSocketName[] = "/.s.PGSQL.5432";
constexpr char kDatabase[] = "rowproof";

absl::Status Cannot(const std::string& sentence) {
  return WrongState("EMBEDDED_DATABASE", "database", sentence);
}

absl::Status MakeFolder(const std::string& folder) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error || chmod(folder.c_str(), 0700) != 0) {
    return Cannot(fmt::format("the folder {} cannot be made", folder));
  }
  return absl::OkStatus();
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
  if (access((programs_ + "/initdb").c_str(), X_OK) != 0) {
    return Cannot(fmt::format("{}/initdb is not there; install postgresql-15", programs_));
  }
  RETURN_IF_ERROR(Make());
  if (!Running()) {
    const int started =
        RunProgram({programs_ + "/pg_ctl", "start", "-w", "-t", "60", "-D", data_, "-l", log_, "-o",
                    fmt::format("-c listen_addresses= -c unix_socket_directories='{}' "
                                "-c unix_socket_permissions=0700 -c max_connections=60 "
                                "-c fsync=on -c synchronous_commit=on -c update_process_title=off",
                                socket_folder_)},
                   log_);
    if (started != 0) return Cannot(fmt::format("PostgreSQL does not start; {} says why", log_));
  }
  // createdb fails if the database exists, which is all right.
  RunProgram({programs_ + "/createdb", "-h", socket_folder_, "-U", "rowproof", kDatabase}, log_);
  return absl::OkStatus();
}

bool EmbeddedPostgres::Running() {
  return RunProgram({programs_ + "/pg_ctl", "status", "-D", data_}, "/dev/null") == 0;
}

void EmbeddedPostgres::Stop() {
  RunProgram({programs_ + "/pg_ctl", "stop", "-w", "-t", "60", "-m", "fast", "-D", data_}, log_);
}

std::string EmbeddedPostgres::Connection() const {
  return fmt::format("host='{}' user=rowproof dbname={}", socket_folder_, kDatabase);
}

absl::Status LeaveRoot(const std::string& folder) {
  if (geteuid() != 0) return absl::OkStatus();
  const passwd* user = getpwnam("postgres");
  if (user == nullptr) return Cannot("there is no user postgres to run as; install postgresql-15");
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error) return Cannot(fmt::format("the folder {} cannot be made", folder));
  if (chown(folder.c_str(), user->pw_uid, user->pw_gid) != 0 ||
      initgroups(user->pw_name, user->pw_gid) != 0 || setgid(user->pw_gid) != 0 ||
      setuid(user->pw_uid) != 0) {
    return Cannot("the user cannot be changed to postgres");
  }
  if (access(folder.c_str(), W_OK | X_OK) != 0) {
    return Cannot(
        fmt::format("user postgres cannot enter {}; move the checkout to a folder that "
                    "others may pass, or name another --var",
                    folder));
  }
  return absl::OkStatus();
}

}  // namespace rowproof::server
