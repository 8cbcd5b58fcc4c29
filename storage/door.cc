#include "storage/door.h"

#include <algorithm>
#include <pqxx/pqxx>

#include "fmt/format.h"
#include "storage/binary.h"

namespace rowproof::storage {
namespace {

// FOR NO KEY UPDATE: rows that refer to the root from elsewhere may still be written.
constexpr char kAdmit[] = R"(
prepare {name}(bytea, bigint, text, text, text) as
select c.account_id, c.kind, s.roles, s.seat,
       r.pattern_id, r.title, r.designer_id, r.version_count, r.revision, r.created,
       t.call_id, t.state, t.version_number, t.revision, t.event_count,
       q.method, q.digest, q.result
from (select 1) as one
  left join lateral (
    select a.account_id, a.kind from token t join account a using (account_id)
    where t.secret_sha256 = $1 and t.revoked_at is null and t.expires_at > from_micros($2)
      and a.erased_at is null {account_lock}) c on true
  left join lateral (
    select pattern_id, title, designer_id, version_count, revision, to_micros(created_at) as created
    from pattern where pattern_id = $3 {pattern_lock}) r on true
  left join lateral (
    select call_id, state, version_number, revision, event_count
    from test_call where pattern_id = $3 and call_id = $4 {call_lock}) t on true
  left join lateral (
    select bit_or(1 << m.role) as roles,
           max(m.seat_id) filter (where m.call_id = $4 and $4 <> '') as seat
    from membership m where m.account_id = c.account_id and m.pattern_id = $3) s on true
  left join request_claim q
    on q.account_id = coalesce(c.account_id, '') and q.request_id = $5;
)";

constexpr char kClaim[] = R"(
prepare claim_request(text, text, text, bytea, text, bigint) as
insert into request_claim (account_id, request_id, method, digest, result, created_at)
values ($1, $2, $3, $4, $5, from_micros($6));
)";

const char* AdmitName(Door::Lock lock) {
  switch (lock) {
    case Door::Lock::kNone:
      return "admit";
    case Door::Lock::kAccount:
      return "admit_account";
    case Door::Lock::kPattern:
      return "admit_pattern";
    case Door::Lock::kCall:
      return "admit_call";
  }
  return "";
}

std::string Admit(Door::Lock lock) {
  constexpr char kLock[] = "and c.account_id is not null for no key update";
  return fmt::format(
      kAdmit, fmt::arg("name", AdmitName(lock)),
      fmt::arg("account_lock", lock == Door::Lock::kAccount ? "for no key update of a" : ""),
      fmt::arg("pattern_lock", lock == Door::Lock::kPattern ? kLock : ""),
      fmt::arg("call_lock", lock == Door::Lock::kCall ? kLock : ""));
}

std::string ByteaLiteral(const Sha256& digest) { return "'\\x" + HexOf(digest) + "'"; }

// Columns of kAdmit.
enum Column { kAccount = 0, kRoles = 2, kSeat, kPattern, kTheCall = 10, kClaimed = 15 };

bool Has(int roles, calls::AccountKind kind) { return (roles >> static_cast<int>(kind) & 1) != 0; }

Admission FromRow(const pqxx::row& row) {
  Admission admission;
  calls::Standing& standing = admission.standing;
  if (!row[kAccount].is_null()) {
    const int roles = row[kRoles].as<int>(0);
    standing.account.value = row[kAccount].c_str();
    standing.kind = static_cast<calls::AccountKind>(row[kAccount + 1].as<int>());
    standing.designs_pattern = Has(roles, calls::AccountKind::kDesigner);
    standing.edits_pattern = Has(roles, calls::AccountKind::kEditor);
    standing.tests_pattern = Has(roles, calls::AccountKind::kTester);
    standing.seat.value = row[kSeat].as<std::string>("");
  }
  if (!row[kPattern].is_null()) {
    admission.pattern =
        PatternRow{{row[kPattern].c_str()},     row[kPattern + 1].c_str(),
                   {row[kPattern + 2].c_str()}, row[kPattern + 3].as<int>(),
                   row[kPattern + 4].as<int>(), MomentOf(row[kPattern + 5].as<int64_t>())};
  }
  if (!row[kTheCall].is_null()) {
    admission.call = CallRow{{row[kTheCall].c_str()},
                             row[kTheCall + 1].as<int>(),
                             row[kTheCall + 2].as<int>(),
                             row[kTheCall + 3].as<int>(),
                             row[kTheCall + 4].as<int>()};
  }
  if (!row[kClaimed].is_null()) admission.earlier_result = row[kClaimed + 2].c_str();
  return admission;
}

}  // namespace

std::string PrepareDoor() {
  return Admit(Door::Lock::kNone) + Admit(Door::Lock::kAccount) + Admit(Door::Lock::kPattern) +
         Admit(Door::Lock::kCall) + kClaim;
}

Admission OpenDoor(pqxx::nontransaction& work, const Door& door, bool write,
                   std::chrono::milliseconds time_left, Moment now, std::string* claimed_method,
                   Sha256* claimed_digest) {
  const std::string message = fmt::format(
      "begin {}; set local statement_timeout = {}; execute {}({}, {}, {}, {}, {})",
      write ? "isolation level read committed" : "isolation level repeatable read read only",
      std::max<int64_t>(time_left.count(), 1), AdmitName(write ? door.lock : Door::Lock::kNone),
      door.token_sha256.has_value() ? ByteaLiteral(*door.token_sha256) : "null", Micros(now),
      work.quote(door.pattern.value), work.quote(door.call.value),
      work.quote(door.request.has_value() ? door.request->request_id : std::string()));
  const pqxx::result result = work.exec(message);
  const pqxx::row row = result.front();
  if (!row[kClaimed].is_null()) {
    *claimed_method = row[kClaimed].c_str();
    *claimed_digest = Sha256From(row[kClaimed + 1]);
  }
  return FromRow(row);
}

void CloseDoor(pqxx::nontransaction& work, const std::string& last_message,
               const std::optional<Claim>& claim, const std::string& result, Moment now) {
  std::string message = last_message;
  if (claim.has_value()) {
    message +=
        fmt::format("execute claim_request({}, {}, {}, {}, {}, {}); ", work.quote(claim->account),
                    work.quote(claim->request_id), work.quote(claim->method),
                    ByteaLiteral(claim->digest), work.quote(result), Micros(now));
  }
  work.exec(message + "commit");
}

}  // namespace rowproof::storage
