#include "storage/patterns.h"

#include <pqxx/pqxx>

#include "services/domain/check.h"
#include "storage/binary.h"
#include "storage/json/comparison_json.h"
#include "storage/json/version_json.h"

namespace rowproof::storage {
namespace {

constexpr Statement kInsertPattern{
    "insert_pattern",
    "with p as (insert into pattern (pattern_id, designer_id, title, created_at) "
    "values ($1, $2, $3, from_micros($4)) returning pattern_id) "
    "insert into membership (account_id, pattern_id, role) values ($2, $1, 1)"};
constexpr Statement kLoadPattern{
    "load_pattern",
    "select pattern_id, title, designer_id, version_count, revision, to_micros(created_at) "
    "from pattern where pattern_id = $1"};
constexpr Statement kUpdatePatternTitle{
    "update_pattern_title",
    "update pattern set title = $2, revision = revision + 1 where pattern_id = $1"};
constexpr Statement kListPatterns{
    "list_patterns",
    "select pattern_id, title, designer_id, version_count, revision, to_micros(created_at) "
    "from pattern where pattern_id in (select pattern_id from membership where account_id = $1) "
    "and ($2::bigint is null or (created_at, pattern_id) < (from_micros($2::bigint), $3)) "
    "order by created_at desc, pattern_id desc limit $4"};
constexpr Statement kInsertVersion{
    "insert_version",
    "with p as (update pattern set version_count = $2"
    " where pattern_id = $1 and version_count = $2 - 1 returning 1), "
    "q as (insert into request_claim (account_id, request_id, method, digest, result, created_at)"
    " select $4, $17, $18, $19, $2::text, from_micros($5) from p) "
    "insert into version (pattern_id, number, parent_number, author_id, created_at, note, workable,"
    " content_hash, content, rules_version, error_count, warning_count, note_count, findings,"
    " model_version, estimates, comparison_version, comparison_errors, comparison_warnings,"
    " comparison_notes, comparison) select $1, $2, $3, $4, from_micros($5), $6, $7, $8, $9, $10,"
    " $11, $12, $13, $14, $15, $16, $20, $21, $22, $23, $24 from p"};
constexpr Statement kLoadVersion{
    "load_version",
    "select number, parent_number, author_id, to_micros(created_at), note, content_hash, "
    "rules_version, error_count, warning_count, note_count, model_version, comparison_version, "
    "comparison_errors, comparison_warnings, comparison_notes, content, findings, estimates, "
    "comparison from version where pattern_id = $1 and number = $2"};
constexpr Statement kLoadVersionContent{
    "load_version_content", "select content from version where pattern_id = $1 and number = $2"};
constexpr Statement kListVersions{
    "list_versions",
    "select number, parent_number, author_id, to_micros(created_at), note, content_hash, "
    "rules_version, error_count, warning_count, note_count, model_version, comparison_version, "
    "comparison_errors, comparison_warnings, comparison_notes "
    "from version where pattern_id = $1 and ($2 = 0 or number < $2) order by number desc limit $3"};
constexpr Statement kWasSent{
    "was_sent_version",
    "select exists (select from membership m join call_version v using (pattern_id, call_id) "
    "join seat s using (pattern_id, call_id, seat_id) "
    "where m.pattern_id = $1 and v.number = $2 and m.account_id = $3 and m.role = 2 "
    "and (s.ended_at is null or v.sent_at <= s.ended_at))"};
constexpr Statement kInsertEditor{
    "insert_editor",
    "insert into membership (account_id, pattern_id, role) values ($2, $1, 3) "
    "on conflict do nothing"};
constexpr Statement kDeleteEditor{
    "delete_editor",
    "delete from membership where pattern_id = $1 and account_id = $2 and role = 3"};
constexpr Statement kListEditors{
    "list_editors",
    "select m.account_id, coalesce(p.display_name, '') from membership m "
    "left join person p using (account_id) where m.pattern_id = $1 and m.role = 3 "
    "order by m.account_id"};

// Nulls where a version has no text of its own.
struct ComparisonColumns {
  std::optional<int> version;
  std::optional<int64_t> errors;
  std::optional<int64_t> warnings;
  std::optional<int64_t> notes;
  std::optional<std::string> found;
};

ComparisonColumns ColumnsOf(const VersionRow& version) {
  if (!version.comparison.has_value()) return {};
  const rows::Comparison& comparison = *version.comparison;
  return {version.comparison_version, comparison.error_count, comparison.warning_count,
          comparison.note_count, ComparisonToJson(comparison)};
}

PatternRow PatternFrom(const pqxx::row& row) {
  return {{row[0].c_str()}, row[1].c_str(),   {row[2].c_str()},
          row[3].as<int>(), row[4].as<int>(), MomentOf(row[5].as<int64_t>())};
}

VersionRow VersionFrom(const PatternId& pattern, const pqxx::row& row) {
  VersionRow version;
  version.pattern = pattern;
  version.number = row[0].as<int>();
  version.parent_number = row[1].as<int>();
  version.author.value = row[2].c_str();
  version.created_at = MomentOf(row[3].as<int64_t>());
  version.note = row[4].c_str();
  version.content_hash = Sha256From(row[5]);
  version.rules_version = row[6].as<int>();
  version.check.error_count = row[7].as<int64_t>();
  version.check.warning_count = row[8].as<int64_t>();
  version.check.note_count = row[9].as<int64_t>();
  version.model_version = row[10].as<int>();
  if (!row[11].is_null()) {
    version.comparison_version = row[11].as<int>();
    version.comparison.emplace();
    version.comparison->error_count = row[12].as<int64_t>();
    version.comparison->warning_count = row[13].as<int64_t>();
    version.comparison->note_count = row[14].as<int64_t>();
  }
  return version;
}

}  // namespace

void InsertPattern(Transaction& transaction, const PatternRow& pattern) {
  Run(transaction, kInsertPattern, pattern.id.value, pattern.designer.value, pattern.title,
      Micros(pattern.created_at));
}

std::optional<PatternRow> LoadPattern(Transaction& transaction, const PatternId& id) {
  const pqxx::result result = Run(transaction, kLoadPattern, id.value);
  if (result.empty()) return std::nullopt;
  return PatternFrom(result.front());
}

void UpdatePatternTitle(Transaction& transaction, const PatternId& id, const std::string& title) {
  Run(transaction, kUpdatePatternTitle, id.value, title);
}

std::vector<PatternRow> ListPatterns(Transaction& transaction, const AccountId& account,
                                     std::optional<Moment> before, const PatternId& before_id,
                                     int limit) {
  std::vector<PatternRow> patterns;
  const pqxx::result result =
      Run(transaction, kListPatterns, account.value, MicrosOrNull(before), before_id.value, limit);
  for (const auto& row : result) patterns.push_back(PatternFrom(row));
  return patterns;
}

void InsertVersion(Transaction& transaction, const VersionRow& version) {
  const std::optional<Claim>& claim = transaction.claim();
  ROWPROOF_CHECK(claim.has_value());  // usecases claim every write
  const ComparisonColumns comparison = ColumnsOf(version);
  RunWhole(transaction, kInsertVersion, version.pattern.value, version.number,
           version.parent_number, version.author.value, Micros(version.created_at), version.note,
           version.check.workable(), Binary(version.content_hash), Binary(version.content),
           version.rules_version, version.check.error_count, version.check.warning_count,
           version.check.note_count, FindingsToJson(version.check), version.model_version,
           EstimatesToJson(version.estimates), claim->request_id, claim->method,
           Binary(claim->digest), comparison.version, comparison.errors, comparison.warnings,
           comparison.notes, comparison.found);
}

std::optional<VersionRow> LoadVersion(Transaction& transaction, const PatternId& pattern,
                                      int number) {
  const pqxx::result result = Run(transaction, kLoadVersion, pattern.value, number);
  if (result.empty()) return std::nullopt;
  const pqxx::row row = result.front();
  VersionRow version = VersionFrom(pattern, row);
  version.content = BytesFrom(row[15]);
  FindingsFromJson(row[16].c_str(), &version.check);
  version.estimates = EstimatesFromJson(row[17].c_str());
  if (version.comparison.has_value()) {
    ComparisonFromJson(row[18].c_str(), &*version.comparison);
  }
  return version;
}

std::optional<std::string> LoadVersionContent(Transaction& transaction, const PatternId& pattern,
                                              int number) {
  const pqxx::result result = Run(transaction, kLoadVersionContent, pattern.value, number);
  if (result.empty()) return std::nullopt;
  return BytesFrom(result.front()[0]);
}

std::vector<VersionRow> ListVersions(Transaction& transaction, const PatternId& pattern,
                                     int before_number, int limit) {
  std::vector<VersionRow> versions;
  const pqxx::result result = Run(transaction, kListVersions, pattern.value, before_number, limit);
  for (const auto& row : result) versions.push_back(VersionFrom(pattern, row));
  return versions;
}

bool WasSentVersion(Transaction& transaction, const PatternId& pattern, int number,
                    const AccountId& account) {
  return Run(transaction, kWasSent, pattern.value, number, account.value).front()[0].as<bool>();
}

void InsertEditor(Transaction& transaction, const PatternId& pattern, const AccountId& account) {
  Run(transaction, kInsertEditor, pattern.value, account.value);
}

void DeleteEditor(Transaction& transaction, const PatternId& pattern, const AccountId& account) {
  Run(transaction, kDeleteEditor, pattern.value, account.value);
}

std::vector<EditorRow> ListEditors(Transaction& transaction, const PatternId& pattern) {
  std::vector<EditorRow> editors;
  const pqxx::result result = Run(transaction, kListEditors, pattern.value);
  for (const auto& row : result) editors.push_back({{row[0].c_str()}, row[1].c_str()});
  return editors;
}

}  // namespace rowproof::storage
