#include "storage/database/migrate.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <pqxx/pqxx>

#include "absl/strings/ascii.h"
#include "absl/strings/str_replace.h"
#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "storage/database/failure.h"

namespace rowproof::storage {
namespace {

// Any number that no other program uses on this database; "rowproof" in ASCII.
constexpr int64_t kAdvisoryLock = 0x726f7770726f6f66;

absl::Status Bad(const std::string& sentence) {
  return WrongState("MIGRATIONS", "migrations", sentence);
}

std::map<int, std::string> Applied(pqxx::transaction_base& work) {
  std::map<int, std::string> applied;
  const pqxx::result known = work.exec("select to_regclass('schema_migration') is not null");
  if (!known[0][0].as<bool>()) return applied;
  for (const auto& row : work.exec("select number, name from schema_migration")) {
    applied[row[0].as<int>()] = row[1].c_str();
  }
  return applied;
}

absl::Status Refuse(const std::map<int, std::string>& applied,
                    const std::vector<Migration>& migrations) {
  for (const auto& [number, name] : applied) {
    const auto same =
        std::find_if(migrations.begin(), migrations.end(),
                     [wanted = number](const Migration& m) { return m.number == wanted; });
    if (same == migrations.end()) {
      return WrongState("SCHEMA_NEWER", "database",
                        fmt::format("The database has migration {:04} ({}), which this build does "
                                    "not know; start a newer build.",
                                    number, name));
    }
    if (same->name != name) {
      return WrongState("SCHEMA_NEWER", "database",
                        fmt::format("Migration {:04} is {} in the database, but {} in this build.",
                                    number, name, same->name));
    }
  }
  return absl::OkStatus();
}

absl::Status Apply(pqxx::connection& session, const Migration& migration) {
  pqxx::work work(session);
  try {
    work.exec(migration.sql);
  } catch (const pqxx::sql_error& error) {
    std::string reason = absl::StrReplaceAll(error.what(), {{"\n", " "}});
    absl::RemoveExtraAsciiWhitespace(&reason);
    return Bad(fmt::format("The migration {}.sql failed, and nothing of it was kept: {} ({}).",
                           migration.name, reason, error.sqlstate()));
  }
  work.exec_params("insert into schema_migration (number, name, applied_at) values ($1, $2, now())",
                   migration.number, migration.name);
  work.commit();
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<std::vector<Migration>> ReadMigrations(const std::string& folder) {
  std::vector<Migration> migrations;
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator(folder, error)) {
    if (entry.path().extension() != ".sql") continue;
    const std::string name = entry.path().stem().string();
    std::ifstream file(entry.path(), std::ios::binary);
    std::string sql((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    if (name.size() < 6 ||
        !std::all_of(name.begin(), name.begin() + 4, [](char c) { return c >= '0' && c <= '9'; })) {
      return Bad(fmt::format("The migration {} must be named NNNN_name.sql.", name));
    }
    migrations.push_back({std::stoi(name.substr(0, 4)), name, std::move(sql)});
  }
  if (error)
    return Bad(fmt::format("--migrations {} cannot be read ({}).", folder, error.message()));
  std::sort(migrations.begin(), migrations.end(),
            [](const Migration& a, const Migration& b) { return a.number < b.number; });
  for (size_t i = 0; i < migrations.size(); ++i) {
    if (migrations[i].number != static_cast<int>(i) + 1) {
      return Bad(fmt::format("Migration {:04} is missing or there twice in {}.", i + 1, folder));
    }
  }
  if (migrations.empty()) return Bad(fmt::format("--migrations {} holds no migrations.", folder));
  return migrations;
}

absl::StatusOr<int> Migrate(const std::string& connection, const std::vector<Migration>& migrations,
                            const BeforeMigration& before) {
  try {
    pqxx::connection session(connection);
    {
      pqxx::nontransaction work(session);
      work.exec(fmt::format("select pg_advisory_lock({})", kAdvisoryLock));
      work.exec(
          "set client_min_messages = warning; create table if not exists schema_migration (number "
          "integer primary key, name text not null, applied_at timestamptz not null)");
    }
    std::map<int, std::string> applied;
    {
      pqxx::work work(session);
      applied = Applied(work);
      RETURN_IF_ERROR(Refuse(applied, migrations));
    }
    int count = 0;
    for (const Migration& migration : migrations) {
      if (applied.contains(migration.number)) continue;
      if (count == 0 && !applied.empty() && before != nullptr) {
        RETURN_IF_ERROR(before(migration.number));
      }
      RETURN_IF_ERROR(Apply(session, migration));
      ++count;
    }
    if (count > 0) {
      pqxx::nontransaction work(session);
      work.exec("analyze");
    }
    return count;  // the lock ends with the connection
  } catch (const std::exception&) {
    return FailureOf(std::current_exception()).status;
  }
}

absl::Status CheckSchema(const std::string& connection, const std::vector<Migration>& migrations) {
  try {
    pqxx::connection session(connection);
    pqxx::work work(session);
    const auto applied = Applied(work);
    RETURN_IF_ERROR(Refuse(applied, migrations));
    if (applied.size() < migrations.size()) {
      return WrongState("SCHEMA_OLDER", "database",
                        fmt::format("The database has {} of {} migrations; run \"rowproofd "
                                    "migrate\" first.",
                                    applied.size(), migrations.size()));
    }
    return absl::OkStatus();
  } catch (const std::exception&) {
    return FailureOf(std::current_exception()).status;
  }
}

}  // namespace rowproof::storage
