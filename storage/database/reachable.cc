#include "storage/database/reachable.h"

#include <algorithm>
#include <pqxx/pqxx>
#include <string_view>
#include <utility>

#include "absl/strings/ascii.h"
#include "absl/strings/str_replace.h"
#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof::storage {
namespace {

constexpr char kSaid[] =
    "The database cannot be reached: {}. Check --database, and that the database runs.";

// What a URI has after its user and password, "@" or "/" among them if they are not encoded, is
// shown by libpq as a host, a port or a name.
bool HasBarePassword(std::string_view connection) {
  const size_t scheme = connection.find("://");
  if (scheme == std::string_view::npos) return false;
  const std::string_view rest = connection.substr(scheme + 3);
  const size_t path = std::min(rest.find_first_of("/?"), rest.size());
  return std::count(rest.begin(), rest.begin() + static_cast<std::ptrdiff_t>(path), '@') > 1 ||
         rest.find('@', path) != std::string_view::npos;
}

// Of a string that libpq cannot read it quotes parts, which may be the password.
std::string WithoutSecrets(std::string reason) {
  const bool tried = reason.find("connection to server") != std::string::npos ||
                     reason.find("could not translate host name") != std::string::npos;
  if (tried) return reason;
  size_t quote = reason.find('"');
  // The signs that it misses are no part of the string.
  while (quote != std::string::npos && reason.size() > quote + 2 && reason[quote + 2] == '"' &&
         (reason[quote + 1] == '=' || reason[quote + 1] == ']')) {
    quote = reason.find('"', quote + 3);
  }
  reason.resize(std::min(quote, reason.size()));
  return reason;
}

}  // namespace

absl::Status CheckReachable(const std::string& connection) {
  if (HasBarePassword(connection)) {
    return WrongState(
        "DATABASE", "database",
        "--database cannot be read: write @ as %40 and / as %2F within a user's name or "
        "password.");
  }
  try {
    const pqxx::connection session(connection);
    return absl::OkStatus();
  } catch (const std::exception& error) {
    std::string reason = absl::StrReplaceAll(error.what(), {{"\r", " "}, {"\n", " "}, {"\t", " "}});
    reason = WithoutSecrets(std::move(reason));
    absl::RemoveExtraAsciiWhitespace(&reason);
    return WrongState("DATABASE", "database",
                      fmt::format(kSaid, reason.substr(0, reason.find_last_not_of(".?: ") + 1)));
  }
}

}  // namespace rowproof::storage
