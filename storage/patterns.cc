#include "storage/patterns.h"

#include <algorithm>
#include <pqxx/pqxx>

#include "services/domain/check.h"
#include "services/domain/names/names.h"
#include "services/domain/patterns/canonical.h"
#include "services/domain/patterns/canonical_decoding.h"
#include "storage/json/comparison_json.h"
#include "storage/json/version_json.h"
#include "storage/stored_field.h"

namespace rowproof::storage {
namespace {

constexpr Statement kInsertPattern{
    "insert_pattern",
    "with p as (insert into pattern (pattern_id, designer_id, title, created_at) "
    "values ($1, $2, $3, from_micros($4)) returning pattern_id) "
    "insert into membership (account_id, pattern_id, role) values ($2, $1, 1)"};
constexpr Statement kLoadPattern{
    "load_pattern",
    "select pattern_id, title, designer_id, version_count, revision, to_micros(created_at), "
    "to_micros(archived_at) from pattern where pattern_id = $1"};
constexpr Statement kUpdatePatternTitle{
    "update_pattern_title",
    "update pattern set title = $2, revision = revision + 1 where pattern_id = $1"};
constexpr Statement kArchive{
    "archive_pattern",
    "update pattern set archived_at = from_micros($2::bigint), revision = revision + 1 "
    "where pattern_id = $1"};
constexpr Statement kListPatterns{
    "list_patterns",
    "select pattern_id, title, designer_id, version_count, revision, to_micros(created_at), "
    "to_micros(archived_at) from pattern where pattern_id in (select pattern_id from "
    "current_membership where account_id = $1) "
    "and ($2::bigint is null or (created_at, pattern_id) < (from_micros($2::bigint), $3)) "
    "and ($5 or archived_at is null) order by created_at desc, pattern_id desc limit $4"};
constexpr Statement kInsertVersion{
    "insert_version",
    "with p as (update pattern set version_count = $2"
    " where pattern_id = $1 and version_count = $2 - 1 and archived_at is null returning 1), "
    "q as (insert into request_claim (account_id, request_id, method, digest, result, created_at,"
    " pattern_id) select $4, $17, $18, $19, $2::text, from_micros($5),"
    " (select $1 from pg_advisory_xact_lock_shared(hashtextextended($1, 0))) from p) "
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
    "load_version_content",
    "select content, content_hash from version where pattern_id = $1 and number = $2"};
constexpr Statement kListVersions{
    "list_versions",
    "select number, parent_number, author_id, to_micros(created_at), note, content_hash, "
    "rules_version, error_count, warning_count, note_count, model_version, comparison_version, "
    "comparison_errors, comparison_warnings, comparison_notes "
    "from version where pattern_id = $1 and ($2 = 0 or number < $2) order by number desc limit $3"};
constexpr Statement kWasSent{
    "was_sent_version",
    "select exists (select from current_membership m join call_version v using (pattern_id, "
    "call_id) "
    "where m.pattern_id = $1 and v.number = $2 and m.account_id = $3 and m.role = 2)"};
// Nulls if a version has no designer's text.
struct ComparisonColumns {
  std::optional<int> version;
  std::optional<int64_t> errors;
  std::optional<int64_t> warnings;
  std::optional<int64_t> notes;
  std::optional<std::string> found;
};

ComparisonColumns ColumnsOf(const patterns::VersionRecord& version) {
  if (!version.comparison.has_value()) return {};
  const rows::Comparison& comparison = *version.comparison;
  return {version.comparison_version, comparison.error_count, comparison.warning_count,
          comparison.note_count, ComparisonToJson(comparison)};
}

patterns::PatternRecord PatternFrom(const pqxx::row& row) {
  return ReadRecord(
      "pattern", [&] { return ToString(PatternName{{row[0].c_str()}}); },
      [&]() -> patterns::PatternRecord {
        return {{TextIn(row[0])},
                TextIn(row[1]),
                {TextIn(row[2])},
                CountIn(row[3]),
                CountIn(row[4]),
                MomentIn(row[5], "created_at"),
                OptionalMomentIn(row[6], "archived_at")};
      });
}

patterns::VersionRecord VersionFields(const PatternId& pattern, const pqxx::row& row) {
  patterns::VersionRecord version;
  version.pattern = pattern;
  version.number = NumberFrom1(row[0]);
  version.parent_number = CountIn(row[1]);
  version.author.value = TextIn(row[2]);
  version.created_at = MomentIn(row[3], "created_at");
  version.note = TextIn(row[4]);
  version.content_hash = Sha256In(row[5]);
  version.rules_version = CountIn(row[6]);
  version.check.error_count = LongCountIn(row[7]);
  version.check.warning_count = LongCountIn(row[8]);
  version.check.note_count = LongCountIn(row[9]);
  version.model_version = CountIn(row[10]);
  if (!row[11].is_null()) {
    version.comparison_version = CountIn(row[11]);
    version.comparison.emplace();
    version.comparison->error_count = LongCountIn(row[12]);
    version.comparison->warning_count = LongCountIn(row[13]);
    version.comparison->note_count = LongCountIn(row[14]);
  }
  return version;
}

template <typename Read>
auto ReadOfVersion(const PatternId& pattern, int number, const Read& read) {
  return ReadRecord(
      "version",
      [&] {
        return ToString(VersionName{pattern, number});
      },
      read);
}

bool IsWithin(int value, int least, int most) { return value >= least && value <= most; }

// Findings name sizes by their index, and places in the chart, where the code that shows them looks
// them up.
void RequirePlaces(const patterns::VersionRecord& version, const chart::Design& design) {
  const int last_size = static_cast<int>(design.sizes.size()) - 1;
  const int rows = design.cells.rows();
  const int stitches = design.cells.stitches();
  for (const chart::Finding& finding : version.check.findings) {
    const bool known =
        IsWithin(finding.size, 0, last_size) && IsWithin(finding.size_count, 1, last_size + 1) &&
        IsWithin(finding.row, 0, rows) && IsWithin(finding.stitch, 0, stitches) &&
        IsWithin(finding.last_stitch, 0, stitches) &&
        (!finding.edit.has_value() ||
         (IsWithin(finding.edit->row, 1, rows) && IsWithin(finding.edit->stitch, 1, stitches)));
    if (!known) throw UnreadableValue("findings");
  }
  if (!version.comparison.has_value()) return;
  for (const rows::ComparisonFinding& finding : version.comparison->findings) {
    const bool known = !finding.sizes.empty() && finding.off_by.size() == finding.sizes.size() &&
                       std::all_of(finding.sizes.begin(), finding.sizes.end(),
                                   [&](int size) { return IsWithin(size, 0, last_size); });
    if (!known) throw UnreadableValue("comparison");
  }
}

patterns::VersionRecord WholeVersion(const PatternId& pattern, const pqxx::row& row) {
  patterns::VersionRecord version = VersionFields(pattern, row);
  version.content = BytesIn(row[15]);
  const auto text = [&row](int column) {
    return std::string(RawIn(row[column], row[column].name()));
  };
  ReadColumn("findings", [&] { FindingsFromJson(text(16), &version.check); });
  ReadColumn("estimates", [&] { version.estimates = EstimatesFromJson(text(17)); });
  if (version.comparison.has_value()) {
    ReadColumn("comparison", [&] { ComparisonFromJson(text(18), &*version.comparison); });
  }
  return version;
}

}  // namespace

void InsertPattern(Transaction& transaction, const patterns::PatternRecord& pattern) {
  Run(transaction, kInsertPattern, pattern.id.value, pattern.designer.value, pattern.title,
      Micros(pattern.created_at));
}

std::optional<patterns::PatternRecord> LoadPattern(Transaction& transaction, const PatternId& id) {
  const pqxx::result result = Run(transaction, kLoadPattern, id.value);
  if (result.empty()) return std::nullopt;
  return PatternFrom(result.front());
}

void UpdatePatternTitle(Transaction& transaction, const PatternId& id, const std::string& title) {
  Run(transaction, kUpdatePatternTitle, id.value, title);
}

void ArchivePattern(Transaction& transaction, const PatternId& id, std::optional<Moment> since) {
  Run(transaction, kArchive, id.value, MicrosOrNull(since));
}

std::vector<patterns::PatternRecord> ListPatterns(Transaction& transaction,
                                                  const AccountId& account, bool archived_too,
                                                  std::optional<Moment> before,
                                                  const PatternId& before_id, int limit) {
  std::vector<patterns::PatternRecord> patterns;
  const pqxx::result result = Run(transaction, kListPatterns, account.value, MicrosOrNull(before),
                                  before_id.value, limit, archived_too);
  for (const auto& row : result) patterns.push_back(PatternFrom(row));
  return patterns;
}

void InsertVersion(Transaction& transaction, const patterns::VersionRecord& version) {
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

std::optional<patterns::VersionRecord> LoadVersion(Transaction& transaction,
                                                   const PatternId& pattern, int number) {
  const pqxx::result result = Run(transaction, kLoadVersion, pattern.value, number);
  if (result.empty()) return std::nullopt;
  return ReadOfVersion(pattern, number, [&] { return WholeVersion(pattern, result.front()); });
}

patterns::VersionContent DecodedContent(const patterns::VersionRecord& version) {
  return ReadOfVersion(version.pattern, version.number, [&] {
    // The hash vouches for the limits on the materials' numbers that applied when it was written.
    if (Sha256Of(version.content) != version.content_hash) throw UnreadableValue("content");
    auto content = patterns::Decode(version.content);
    if (!content.ok()) throw UnreadableValue("content");
    RequirePlaces(version, content->design);
    return *std::move(content);
  });
}

patterns::VersionContent LoadVersionContent(Transaction& transaction, const PatternId& pattern,
                                            int number) {
  const pqxx::result result = Run(transaction, kLoadVersionContent, pattern.value, number);
  patterns::VersionRecord version;
  version.pattern = pattern;
  version.number = number;
  ReadOfVersion(pattern, number, [&] {
    if (result.empty()) throw UnreadableValue("number");
    version.content = BytesIn(result.front()[0]);
    version.content_hash = Sha256In(result.front()[1]);
  });
  return DecodedContent(version);
}

std::vector<patterns::VersionRecord> ListVersions(Transaction& transaction,
                                                  const PatternId& pattern, int before_number,
                                                  int limit) {
  std::vector<patterns::VersionRecord> versions;
  const pqxx::result result = Run(transaction, kListVersions, pattern.value, before_number, limit);
  for (const auto& row : result) {
    versions.push_back(ReadRecord(
        "version",
        [&] {
          return ToString(VersionName{pattern, NumberIn<int>(row[0].c_str()).value_or(0)});
        },
        [&] { return VersionFields(pattern, row); }));
  }
  return versions;
}

bool WasSentVersion(Transaction& transaction, const PatternId& pattern, int number,
                    const AccountId& account) {
  return Run(transaction, kWasSent, pattern.value, number, account.value).front()[0].as<bool>();
}

}  // namespace rowproof::storage
