#include "services/server/backup.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <vector>

#include "absl/time/time.h"
#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/server/program.h"

namespace rowproof::server {
namespace {

namespace fs = std::filesystem;

constexpr char kStart[] = "before-migration-";
constexpr char kEnd[] = ".dump";

absl::Status Cannot(const Backup& backup, const std::string& why) {
  return WrongState(
      "BACKUP", "database",
      fmt::format("the database is not migrated, because it cannot be dumped into {} "
                  "first: {}; make room there or mend what is named, then start again",
                  backup.folder, why));
}

// Whether the file's or folder's content has reached the disk.
bool Synced(const std::string& path) {
  const int file = open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) return false;
  const bool synced = fsync(file) == 0;
  return close(file) == 0 && synced;
}

std::string TimeText(Moment now) {
  return absl::FormatTime("%Y%m%dT%H%M%SZ", absl::FromUnixMicros(Micros(now)), absl::UTCTimeZone());
}

// The names hold number and time, so that their order is that of their writing.
void DeleteOldest(const std::string& folder) {
  std::vector<fs::path> dumps;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    const std::string name = entry.path().filename().string();
    if (name.starts_with(kStart) && name.ends_with(kEnd)) dumps.push_back(entry.path());
  }
  std::sort(dumps.begin(), dumps.end());
  for (size_t i = 0; i + kBackupsKept < dumps.size(); ++i) fs::remove(dumps[i], error);
}

}  // namespace

absl::StatusOr<std::string> BackUpBeforeMigration(const Backup& backup, int migration, Moment now) {
  std::error_code error;
  fs::create_directories(backup.folder, error);
  if (error || chmod(backup.folder.c_str(), 0700) != 0) {
    return Cannot(backup, "the folder cannot be made");
  }
  const std::string log = backup.folder + "/pg_dump.log";
  const std::string unfinished = backup.folder + "/unfinished";
  fs::remove(unfinished, error);
  const int dumped = RunProgram({backup.programs + "/pg_dump", "--format=custom", "--no-password",
                                 "--file=" + unfinished, "--dbname=" + backup.connection},
                                log);
  if (dumped != 0) return Cannot(backup, fmt::format("pg_dump ends with {}; see {}", dumped, log));
  const auto bytes = fs::file_size(unfinished, error);
  if (error || bytes == 0) return Cannot(backup, "pg_dump has written nothing");
  // Reads all of the data, not only the table of contents (--list).
  const int read =
      RunProgram({backup.programs + "/pg_restore", "--file=/dev/null", unfinished}, log);
  if (read != 0) {
    return Cannot(backup, fmt::format("pg_restore cannot read the dump ({}); see {}", read, log));
  }
  const std::string name =
      fmt::format("{}/{}{:04}-{}{}", backup.folder, kStart, migration, TimeText(now), kEnd);
  const bool kept =
      Synced(unfinished) && rename(unfinished.c_str(), name.c_str()) == 0 && Synced(backup.folder);
  if (!kept) return Cannot(backup, "the dump cannot be written to the disk");
  fs::remove(log, error);
  DeleteOldest(backup.folder);
  return name;
}

}  // namespace rowproof::server
