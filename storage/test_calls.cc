#include "storage/test_calls.h"

#include <pqxx/pqxx>

#include "services/domain/names/names.h"
#include "storage/json/call_settings_json.h"
#include "storage/stored_field.h"

namespace rowproof::storage {
namespace {

constexpr Statement kInsertCall{
    "insert_test_call",
    "with c as (insert into test_call (pattern_id, call_id, state, version_number, revision,"
    " created_at, settings) values ($1, $2, $3, $4, $5, from_micros($6), $7)) "
    "insert into call_version (pattern_id, call_id, number, sent_at) "
    "values ($1, $2, $4, from_micros($6))"};
constexpr Statement kLoadCall{
    "load_test_call",
    "select call_id, state, version_number, revision, to_micros(created_at), settings "
    "from test_call where pattern_id = $1 and call_id = $2"};
constexpr Statement kListCalls{
    "list_test_calls",
    "select call_id, state, version_number, revision, to_micros(created_at), settings "
    "from test_call c where pattern_id = $1 "
    "and ($2 = '' or exists (select from current_membership m where m.account_id = $2"
    " and m.pattern_id = c.pattern_id and m.call_id = c.call_id and m.role = 2)) "
    "and ($3::bigint is null or (created_at, call_id) < (from_micros($3::bigint), $4)) "
    "order by created_at desc, call_id desc limit $5"};
constexpr Statement kUpdate{"update_test_call",
                            "update test_call set state = $3, settings = $4, revision = $5 "
                            "where pattern_id = $1 and call_id = $2"};
// Foreign keys are looked at when the whole statement has run.
constexpr Statement kDelete{
    "delete_test_call",
    "with a as (delete from set_aside where pattern_id = $1 and call_id = $2), "
    "r as (delete from reconciliation where pattern_id = $1 and call_id = $2), "
    "v as (delete from call_version where pattern_id = $1 and call_id = $2), "
    "s as (delete from seat where pattern_id = $1 and call_id = $2) "
    "delete from test_call where pattern_id = $1 and call_id = $2"};
constexpr Statement kIsReleased{
    "is_released", "select exists (select from release where pattern_id = $1 and call_id = $2)"};
constexpr Statement kInsertSent{
    "insert_sent_version",
    "with c as (update test_call set version_number = $3, revision = $4 "
    "where pattern_id = $1 and call_id = $2) "
    "insert into call_version (pattern_id, call_id, number, sent_at) "
    "values ($1, $2, $3, from_micros($5)) "
    "on conflict (pattern_id, call_id, number) do update set sent_at = excluded.sent_at"};
constexpr Statement kListSent{
    "list_sent_versions",
    "select number, to_micros(sent_at) from call_version where pattern_id = $1 and call_id = $2 "
    "order by sent_at, number"};

testcalls::TestCallRecord CallFrom(const PatternId& pattern, const pqxx::row& row) {
  return ReadRecord(
      "test_call",
      [&] {
        return ToString(TestCallName{pattern, {row[0].c_str()}});
      },
      [&]() -> testcalls::TestCallRecord {
        return {pattern,
                {TextIn(row[0])},
                EnumIn<testcalls::CallState>(row[1]),
                NumberFrom1(row[2]),
                CountIn(row[3]),
                MomentIn(row[4], "created_at"),
                ReadColumn("settings", [&] { return CallSettingsFromJson(TextIn(row[5])); })};
      });
}

}  // namespace

void InsertTestCall(Transaction& transaction, const testcalls::TestCallRecord& call) {
  Run(transaction, kInsertCall, call.pattern.value, call.id.value, static_cast<int>(call.state),
      call.version_number, call.revision, Micros(call.created_at),
      CallSettingsToJson(call.settings));
}

std::optional<testcalls::TestCallRecord> LoadTestCall(Transaction& transaction,
                                                      const PatternId& pattern,
                                                      const CallId& call) {
  const pqxx::result result = Run(transaction, kLoadCall, pattern.value, call.value);
  if (result.empty()) return std::nullopt;
  return CallFrom(pattern, result.front());
}

std::vector<testcalls::TestCallRecord> ListTestCalls(Transaction& transaction,
                                                     const PatternId& pattern,
                                                     const AccountId& tester,
                                                     std::optional<Moment> before,
                                                     const CallId& before_id, int limit) {
  std::vector<testcalls::TestCallRecord> calls;
  const pqxx::result result = Run(transaction, kListCalls, pattern.value, tester.value,
                                  MicrosOrNull(before), before_id.value, limit);
  for (const auto& row : result) calls.push_back(CallFrom(pattern, row));
  return calls;
}

void UpdateTestCall(Transaction& transaction, const testcalls::TestCallRecord& call) {
  Run(transaction, kUpdate, call.pattern.value, call.id.value, static_cast<int>(call.state),
      CallSettingsToJson(call.settings), call.revision);
}

void DeleteTestCall(Transaction& transaction, const PatternId& pattern, const CallId& call) {
  Run(transaction, kDelete, pattern.value, call.value);
}

bool IsReleased(Transaction& transaction, const PatternId& pattern, const CallId& call) {
  return Run(transaction, kIsReleased, pattern.value, call.value).front()[0].as<bool>();
}

void InsertSentVersion(Transaction& transaction, const testcalls::TestCallRecord& call,
                       Moment sent_at) {
  Run(transaction, kInsertSent, call.pattern.value, call.id.value, call.version_number,
      call.revision, Micros(sent_at));
}

std::vector<testcalls::SentVersion> ListSentVersions(Transaction& transaction,
                                                     const PatternId& pattern, const CallId& call) {
  std::vector<testcalls::SentVersion> versions;
  const pqxx::result result = Run(transaction, kListSent, pattern.value, call.value);
  for (const auto& row : result) {
    versions.push_back(ReadRecord(
        "call_version",
        [&] {
          return ToString(TestCallName{pattern, call});
        },
        [&]() -> testcalls::SentVersion {
          return {NumberFrom1(row[0]), MomentIn(row[1], "sent_at")};
        }));
  }
  return versions;
}

}  // namespace rowproof::storage
