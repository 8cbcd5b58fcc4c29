#include "storage/releases.h"

#include <pqxx/pqxx>

#include "services/domain/names/names.h"
#include "storage/array_text.h"
#include "storage/stored_field.h"

namespace rowproof::storage {

template <>
struct StoredEnum<releases::ReleaseFileKind>
    : StoredNumbers<releases::ReleaseFileKind::kPatternSheetPdf,
                    releases::ReleaseFileKind::kErrataSheetText> {};

namespace {

constexpr Statement kInsertRelease{
    "insert_release",
    "with r as (insert into release (pattern_id, release_id, version_number, call_id,"
    " reconciliation, author_id, created_at, gate_code, gate_state, gate_sentence, gate_reason,"
    " versions_concerned) values ($1, $2, $3, $4, $5, $6, from_micros($7), $8, $9, $10, $11, $12)) "
    "insert into release_file (pattern_id, release_id, kind, content_sha256, content) "
    "values ($1, $2, 1, $13, $14), ($1, $2, 2, $15, $16), ($1, $2, 3, $17, $18)"};
constexpr Statement kLoadRelease{
    "load_release",
    "select r.release_id, r.version_number, r.call_id, r.reconciliation, r.author_id,"
    " to_micros(r.created_at), r.gate_code, r.gate_state, r.gate_sentence, r.gate_reason,"
    " r.versions_concerned, f.kind, f.content_sha256, octet_length(f.content) as content,"
    " to_micros(r.withdrawn_at), r.withdraw_reason "
    "from release r join release_file f using (pattern_id, release_id) "
    "where pattern_id = $1 and release_id = $2 order by f.kind"};
constexpr Statement kListReleases{
    "list_releases",
    "select r.release_id, r.version_number, r.call_id, r.reconciliation, r.author_id,"
    " to_micros(r.created_at), r.gate_code, r.gate_state, r.gate_sentence, r.gate_reason,"
    " r.versions_concerned, f.kind, f.content_sha256, octet_length(f.content) as content,"
    " to_micros(r.withdrawn_at), r.withdraw_reason "
    "from (select * from release where pattern_id = $1 and ($2::bigint is null"
    " or (created_at, release_id) < (from_micros($2::bigint), $3))"
    " order by created_at desc, release_id desc limit $4) r "
    "join release_file f using (pattern_id, release_id) "
    "order by r.created_at desc, r.release_id desc, f.kind"};
constexpr Statement kLoadFile{"load_release_file",
                              "select content_sha256, content from release_file "
                              "where pattern_id = $1 and release_id = $2 and kind = $3"};
constexpr Statement kWithdraw{
    "withdraw_release",
    "update release set withdrawn_at = from_micros($3), withdraw_reason = $4 "
    "where pattern_id = $1 and release_id = $2"};
constexpr Statement kUndecided{
    "count_undecided_errata",
    "select count(*) from erratum where pattern_id = $1 and state = 1 and last_report is null"};

std::vector<releases::Gate> GatesFrom(const pqxx::row& row) {
  const auto codes = ArrayIn(row[6], EnumOf<releases::GateCode>);
  const auto states = ArrayIn(row[7], EnumOf<releases::GateState>);
  const auto sentences = ArrayIn(row[8], TextOf);
  const auto reasons = ArrayIn(row[9], TextOf);
  RequireSize(states, codes.size(), row[7]);
  RequireSize(sentences, codes.size(), row[8]);
  RequireSize(reasons, codes.size(), row[9]);
  std::vector<releases::Gate> gates;
  for (size_t i = 0; i < codes.size(); ++i) {
    gates.push_back({codes[i], states[i], sentences[i], reasons[i]});
  }
  return gates;
}

releases::ReleaseRecord ReleaseFrom(const PatternId& pattern, const pqxx::row& row) {
  releases::ReleaseRecord release;
  release.pattern = pattern;
  release.id.value = TextIn(row[0]);
  release.version_number = NumberFrom1(row[1]);
  release.call.value = TextIn(row[2]);
  release.reconciliation = CountIn(row[3]);
  release.author.value = TextIn(row[4]);
  release.created_at = MomentIn(row[5], "created_at");
  release.gates = GatesFrom(row);
  release.versions_concerned = ArrayIn(row[10], [](std::string_view text, const char* column) {
    return IntegerOf(text, column, 1, INT_MAX);
  });
  release.withdrawn_at = OptionalMomentIn(row[14], "withdrawn_at");
  release.withdraw_reason = TextIn(row[15]);
  return release;
}

template <typename Read>
auto ReadOfRelease(const char* table, const PatternId& pattern, const std::string& id,
                   const Read& read) {
  return ReadRecord(
      table,
      [&] {
        return ToString(ReleaseName{pattern, {id}});
      },
      read);
}

// One record for each file, those of a release next to each other.
std::vector<releases::ReleaseRecord> ReleasesFrom(const PatternId& pattern,
                                                  const pqxx::result& result) {
  std::vector<releases::ReleaseRecord> releases;
  for (const auto& row : result) {
    if (releases.empty() || releases.back().id.value != row[0].c_str()) {
      releases.push_back(ReadOfRelease("release", pattern, row[0].c_str(),
                                       [&] { return ReleaseFrom(pattern, row); }));
    }
    releases.back().files.push_back(
        ReadOfRelease("release_file", pattern, row[0].c_str(), [&]() -> releases::ReleaseFile {
          return {EnumIn<releases::ReleaseFileKind>(row[11]), Sha256In(row[12]),
                  LongCountIn(row[13]), ""};
        }));
  }
  return releases;
}

}  // namespace

void InsertRelease(Transaction& transaction, const releases::ReleaseRecord& release) {
  ROWPROOF_CHECK(release.files.size() == 3);
  ArrayText codes;
  ArrayText states;
  ArrayText sentences;
  ArrayText reasons;
  ArrayText versions;
  for (const releases::Gate& gate : release.gates) {
    codes.Add(static_cast<int>(gate.code));
    states.Add(static_cast<int>(gate.state));
    sentences.Add(gate.sentence);
    reasons.Add(gate.reason);
  }
  for (const int version : release.versions_concerned) versions.Add(version);
  Run(transaction, kInsertRelease, release.pattern.value, release.id.value, release.version_number,
      release.call.value, release.reconciliation, release.author.value, Micros(release.created_at),
      codes.Text(), states.Text(), sentences.Text(), reasons.Text(), versions.Text(),
      Binary(release.files[0].sha256), Binary(release.files[0].content),
      Binary(release.files[1].sha256), Binary(release.files[1].content),
      Binary(release.files[2].sha256), Binary(release.files[2].content));
}

std::optional<releases::ReleaseRecord> LoadRelease(Transaction& transaction,
                                                   const PatternId& pattern, const ReleaseId& id) {
  auto releases = ReleasesFrom(pattern, Run(transaction, kLoadRelease, pattern.value, id.value));
  if (releases.empty()) return std::nullopt;
  return std::move(releases.front());
}

std::vector<releases::ReleaseRecord> ListReleases(Transaction& transaction,
                                                  const PatternId& pattern,
                                                  std::optional<Moment> before,
                                                  const ReleaseId& before_id, int limit) {
  return ReleasesFrom(pattern, Run(transaction, kListReleases, pattern.value, MicrosOrNull(before),
                                   before_id.value, limit));
}

std::optional<releases::ReleaseFile> LoadReleaseFile(Transaction& transaction,
                                                     const PatternId& pattern, const ReleaseId& id,
                                                     releases::ReleaseFileKind kind) {
  const pqxx::result result =
      Run(transaction, kLoadFile, pattern.value, id.value, static_cast<int>(kind));
  if (result.empty()) return std::nullopt;
  return ReadOfRelease("release_file", pattern, id.value, [&] {
    releases::ReleaseFile file{kind, Sha256In(result.front()[0]), 0, BytesIn(result.front()[1])};
    // A file that a buyer gets is the file that was published, or none.
    if (Sha256Of(file.content) != file.sha256) throw UnreadableValue("content");
    file.size_bytes = static_cast<int64_t>(file.content.size());
    return file;
  });
}

void WithdrawRelease(Transaction& transaction, const PatternId& pattern, const ReleaseId& id,
                     Moment at, const std::string& reason) {
  Run(transaction, kWithdraw, pattern.value, id.value, Micros(at), reason);
}

int64_t CountUndecidedErrata(Transaction& transaction, const PatternId& pattern) {
  return Run(transaction, kUndecided, pattern.value).front()[0].as<int64_t>();
}

}  // namespace rowproof::storage
