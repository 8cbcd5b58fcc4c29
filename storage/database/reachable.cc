#include "storage/database/reachable.h"

#include <pqxx/pqxx>

#include "absl/strings/ascii.h"
#include "absl/strings/str_replace.h"
#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof::storage {

absl::Status CheckReachable(const std::string& connection) {
  try {
    const pqxx::connection session(connection);
    return absl::OkStatus();
  } catch (const std::exception& error) {
    std::string reason = absl::StrReplaceAll(error.what(), {{"\r", " "}, {"\n", " "}, {"\t", " "}});
    // libpq repeats a URI that it cannot read.
    if (!connection.empty()) reason = absl::StrReplaceAll(reason, {{connection, "..."}});
    absl::RemoveExtraAsciiWhitespace(&reason);
    return WrongState("DATABASE", "database",
                      fmt::format("The database cannot be reached: {}. Check --database, and that "
                                  "the database runs.",
                                  reason.substr(0, reason.find_last_not_of('.') + 1)));
  }
}

}  // namespace rowproof::storage
