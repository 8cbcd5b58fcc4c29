#include "storage/database/begin_and_commit.h"

#include <algorithm>
#include <pqxx/pqxx>
#include <string_view>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/domain/names/names.h"
#include "storage/database/connection.h"
#include "storage/stored_field.h"

namespace rowproof::storage {
namespace {

// FOR NO KEY UPDATE: rows that refer to the root from elsewhere may still be written.
constexpr char kAdmit[] = R"(
select c.account_id, c.may_create_patterns, s.roles, s.seat, s.seat_ended,
       {pattern_columns}, {call_columns}, q.method, q.digest, q.result{more_columns}
from (select 1) as one
  left join lateral (
    select a.account_id, a.may_create_patterns from token t join account a using (account_id)
    where t.secret_sha256 = $1 and t.revoked_at is null and t.expires_at > from_micros($2)
      and a.erased_at is null {account_lock}) c on true
  {pattern_join}
  {call_join}
  left join lateral (
    select bit_or(1 << m.role) filter (where not m.seat_ended) as roles,
           max(m.seat_id) filter (where m.call_id = $4 and $4 <> '') as seat,
           bool_or(m.seat_ended) filter (where m.call_id = $4 and $4 <> '') as seat_ended
    from membership m where m.account_id = c.account_id and m.pattern_id = $3) s on true
  left join request_claim q
    on q.account_id = coalesce(c.account_id, '') and q.request_id = $5
  {more_joins}
)";
constexpr char kPatternColumns[] =
    "r.pattern_id, r.title, r.designer_id, r.version_count, r.revision, r.created, "
    "r.archived";
constexpr char kPatternJoin[] = R"(
  left join lateral (
    select pattern_id, title, designer_id, version_count, revision, {} as created,
           to_micros(archived_at) as archived
    from pattern where pattern_id = $3 {}) r on true)";
constexpr char kCallColumns[] = "t.call_id, t.state, t.version_number, t.revision";
constexpr char kCallJoin[] = R"(
  left join lateral (
    select pattern_id, call_id, state, version_number, revision
    from test_call where pattern_id = $3 and call_id = $4 {}) t on true)";

constexpr char kClaim[] = R"(
prepare claim_request(text, text, text, bytea, text, bigint, text) as
insert into request_claim (account_id, request_id, method, digest, result, created_at, pattern_id)
values ($1, $2, $3, $4, $5, from_micros($6),
        (select $7 from pg_advisory_xact_lock_shared(hashtextextended($7, 0))));
)";

constexpr char kLock[] = "and c.account_id is not null for no key update";

// For a transaction with this table's root row locked; "": none.
std::string Admit(const char* name, std::string_view locked) {
  const char* account_lock = locked == "account" ? "for no key update of a" : "";
  return fmt::format(
      "prepare {}(bytea, bigint, text, text, text) as {};\n", name,
      fmt::format(kAdmit, fmt::arg("account_lock", account_lock),
                  fmt::arg("pattern_columns", kPatternColumns),
                  fmt::arg("pattern_join", fmt::format(kPatternJoin, "to_micros(created_at)",
                                                       locked == "pattern" ? kLock : "")),
                  fmt::arg("call_columns", kCallColumns),
                  fmt::arg("call_join", fmt::format(kCallJoin, locked == "call" ? kLock : "")),
                  fmt::arg("more_columns", ""), fmt::arg("more_joins", "")));
}

// Without a transaction, and without what the one statement does not need.
const std::string kAdmitVersionText =
    fmt::format(kAdmit, fmt::arg("account_lock", ""), fmt::arg("pattern_columns", kPatternColumns),
                fmt::arg("pattern_join", fmt::format(kPatternJoin, "null::bigint", "")),
                fmt::arg("call_columns", "null, 0, 0, 0"), fmt::arg("call_join", ""),
                fmt::arg("more_columns", ""), fmt::arg("more_joins", ""));
// A call has a pattern.
const std::string kAdmitReportText = fmt::format(
    kAdmit, fmt::arg("account_lock", ""),
    fmt::arg("pattern_columns", "t.pattern_id, '', '', 0, 0, null::bigint, null::bigint"),
    fmt::arg("pattern_join", ""), fmt::arg("call_columns", kCallColumns),
    fmt::arg("call_join", fmt::format(kCallJoin, "")),
    fmt::arg("more_columns", fmt::format(", {}", kBasisColumns)),
    fmt::arg("more_joins", kBasisJoin));
const Statement kAdmitVersion{"admit_version", kAdmitVersionText.c_str()};
const Statement kAdmitReport{"admit_report", kAdmitReportText.c_str()};

const char* AdmitName(RootLock lock) {
  switch (lock) {
    case RootLock::kAccount:
      return "admit_account";
    case RootLock::kPattern:
      return "admit_pattern";
    case RootLock::kCall:
      return "admit_call";
    case RootLock::kNone:
    case RootLock::kByStatement:
      break;
  }
  return "admit";
}

std::string ByteaLiteral(const Sha256& digest) { return "'\\x" + HexOf(digest) + "'"; }

// Columns of kAdmit.
enum Column {
  kAccount = 0,
  kRoles = 2,
  kSeat,
  kSeatEnded,
  kPattern,
  kTheCall = kPattern + 7,
  kClaimed = kTheCall + 4,
  kBasis = kClaimed + 3
};

bool Has(int roles, access::Role role) { return (roles >> static_cast<int>(role) & 1) != 0; }

patterns::PatternRecord AdmittedPattern(const pqxx::row& row) {
  return ReadRecord(
      "pattern", [&] { return ToString(PatternName{{row[kPattern].c_str()}}); },
      [&]() -> patterns::PatternRecord {
        return {{TextIn(row[kPattern])},
                TextIn(row[kPattern + 1]),
                {TextIn(row[kPattern + 2])},
                CountIn(row[kPattern + 3]),
                CountIn(row[kPattern + 4]),
                OptionalMomentIn(row[kPattern + 5], "created_at").value_or(Moment()),
                OptionalMomentIn(row[kPattern + 6], "archived_at")};
      });
}

AdmittedCall CallFrom(const TransactionScope& scope, const pqxx::row& row) {
  return ReadRecord(
      "test_call",
      [&] {
        return ToString(TestCallName{scope.pattern, scope.call});
      },
      [&]() -> AdmittedCall {
        return {{TextIn(row[kTheCall])},
                EnumIn<testcalls::CallState>(row[kTheCall + 1]),
                NumberFrom1(row[kTheCall + 2]),
                CountIn(row[kTheCall + 3])};
      });
}

Admission FromRow(const TransactionScope& scope, const pqxx::row& row) {
  Admission admission;
  access::Standing& standing = admission.standing;
  if (!row[kAccount].is_null()) {
    const int roles = row[kRoles].is_null() ? 0 : CountIn(row[kRoles]);
    standing.account.value = TextIn(row[kAccount]);
    standing.creates_patterns = ReadRecord(
        "account", [&] { return ToString(AccountName{standing.account}); },
        [&] { return FlagIn(row[kAccount + 1]); });
    standing.designs_pattern = Has(roles, access::Role::kDesigner);
    standing.edits_pattern = Has(roles, access::Role::kEditor);
    standing.tests_pattern = Has(roles, access::Role::kTester);
    if (!row[kSeat].is_null()) {
      standing.seat.value = TextIn(row[kSeat]);
      standing.seat_ended = FlagIn(row[kSeatEnded]);
    }
  }
  if (!row[kPattern].is_null()) admission.pattern = AdmittedPattern(row);
  if (!row[kTheCall].is_null()) admission.call = CallFrom(scope, row);
  if (!row[kClaimed].is_null()) admission.earlier_result = TextIn(row[kClaimed + 2]);
  if (scope.report.has_value() && !row[kBasis].is_null()) {
    admission.basis =
        BasisFrom(row, kBasis, ToString(SeatName{scope.pattern, scope.call, scope.report->seat}));
  }
  return admission;
}

// Outside transactions. Reuses the session's statement_timeout if it is within 1/16 below the one
// asked for: SET costs a round trip.
std::string SetTimeout(Connection& connection, int64_t timeout_ms) {
  const int64_t set = connection.statement_timeout_ms;
  if (set <= timeout_ms && set > timeout_ms - timeout_ms / 16) return "";
  connection.statement_timeout_ms = std::max<int64_t>(timeout_ms - timeout_ms / 32, 1);
  return fmt::format("set statement_timeout = {}; ", connection.statement_timeout_ms);
}

}  // namespace

std::string PrepareAdmission() {
  return kClaim + Admit("admit", "") + Admit("admit_account", "account") +
         Admit("admit_pattern", "pattern") + Admit("admit_call", "call");
}

Admission BeginAdmitted(Connection& connection, pqxx::nontransaction& work,
                        const TransactionScope& scope, bool write,
                        std::chrono::milliseconds time_left, Moment now,
                        std::string* claimed_method, Sha256* claimed_digest) {
  const int64_t timeout_ms = std::max<int64_t>(time_left.count(), 1);
  const bool by_statement = write && scope.lock == RootLock::kByStatement;
  const std::string begin =
      by_statement
          ? SetTimeout(connection, timeout_ms)
          : fmt::format("begin isolation level {}; set local statement_timeout = {}; ",
                        write ? "read committed" : "repeatable read read only", timeout_ms);
  const std::string request = scope.request.has_value() ? scope.request->request_id : std::string();
  pqxx::result result;
  if (by_statement || scope.report.has_value()) {
    ROWPROOF_CHECK(scope.token_sha256.has_value());  // these methods are for known callers only
    if (!begin.empty()) work.exec(begin);
    const pqxx::binarystring token = Binary(*scope.token_sha256);
    const Statement& statement = scope.report.has_value() ? kAdmitReport : kAdmitVersion;
    connection.Prepare(statement);
    result = scope.report.has_value()
                 ? work.exec_prepared(statement.name, token, Micros(now), scope.pattern.value,
                                      scope.call.value, request, scope.report->seat.value,
                                      scope.report->version)
                 : work.exec_prepared(statement.name, token, Micros(now), scope.pattern.value,
                                      scope.call.value, request);
  } else {
    result = work.exec(begin + fmt::format("execute {}({}, {}, {}, {}, {})",
                                           AdmitName(write ? scope.lock : RootLock::kNone),
                                           scope.token_sha256.has_value()
                                               ? ByteaLiteral(*scope.token_sha256)
                                               : "null",
                                           Micros(now), work.quote(scope.pattern.value),
                                           work.quote(scope.call.value), work.quote(request)));
  }
  const pqxx::row row = result.front();
  if (!row[kClaimed].is_null()) {
    *claimed_method = TextIn(row[kClaimed]);
    *claimed_digest = Sha256In(row[kClaimed + 1]);
  }
  return FromRow(scope, row);
}

void CommitWithClaim(pqxx::nontransaction& work, const Claim& claim, const std::string& result,
                     Moment now) {
  work.exec(fmt::format("execute claim_request({}, {}, {}, {}, {}, {}, {}); commit",
                        work.quote(claim.account), work.quote(claim.request_id),
                        work.quote(claim.method), ByteaLiteral(claim.digest), work.quote(result),
                        Micros(now), work.quote(claim.pattern.value)));
}

}  // namespace rowproof::storage
