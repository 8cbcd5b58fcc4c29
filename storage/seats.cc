#include "storage/seats.h"

#include <pqxx/pqxx>

#include "storage/binary.h"

namespace rowproof::storage {
namespace {

constexpr Statement kInsertSeat{
    "insert_seat",
    "insert into seat (pattern_id, call_id, seat_id, state, size_name, invitation_sha256,"
    " created_at) values ($1, $2, $3, $4, $5, $6, from_micros($7))"};
constexpr Statement kLoadSeat{
    "load_seat",
    "select pattern_id, call_id, seat_id, state, size_name, account_id, display_name, created, "
    "taken, ended, report_count, last_row, report_version from seat_with_report "
    "where pattern_id = $1 and call_id = $2 and seat_id = $3"};
constexpr Statement kListSeats{
    "list_seats",
    "select pattern_id, call_id, seat_id, state, size_name, account_id, display_name, created, "
    "taken, ended, report_count, last_row, report_version from seat_with_report "
    "where pattern_id = $1 and call_id = $2 "
    "and ($3::bigint is null or (created_at, seat_id) > (from_micros($3::bigint), $4)) "
    "order by created_at, seat_id limit $5"};
constexpr Statement kCountSeats{"count_seats",
                                "select count(*) from seat where pattern_id = $1 and call_id = $2"};
constexpr Statement kStates{
    "load_seat_states",
    "select size_name, state from seat where pattern_id = $1 and call_id = $2 "
    "order by created_at, seat_id"};
constexpr Statement kReplaceInvitation{
    "replace_invitation",
    "update seat set invitation_sha256 = $4 "
    "where pattern_id = $1 and call_id = $2 and seat_id = $3 and state = 1"};
// A write that locks its call first, as every other: nobody is known at the door yet.
constexpr Statement kLockInvited{
    "lock_invited_seat",
    "with c as materialized (select pattern_id, call_id, state from test_call "
    "where (pattern_id, call_id) = (select pattern_id, call_id from seat "
    "where invitation_sha256 = $1) for no key update) "
    "select s.pattern_id, s.call_id, s.seat_id, s.state, s.size_name, s.account_id, '' as name, "
    "to_micros(s.created_at), to_micros(s.taken_at), to_micros(s.ended_at), s.report_count, 0, 0, "
    "c.state from c join seat s using (pattern_id, call_id) "
    "where s.invitation_sha256 = $1 for no key update of s"};
constexpr Statement kTake{
    "take_seat",
    "with m as (insert into membership (account_id, pattern_id, call_id, role, seat_id) "
    "values ($5, $1, $2, 2, $3)) "
    "update seat set state = $4, account_id = $5, taken_at = from_micros($6) "
    "where pattern_id = $1 and call_id = $2 and seat_id = $3"};
constexpr Statement kUpdateState{"update_seat_state",
                                 "update seat set state = $4, ended_at = from_micros($5::bigint) "
                                 "where pattern_id = $1 and call_id = $2 and seat_id = $3"};

std::optional<Moment> MomentOrNull(const pqxx::field& field) {
  if (field.is_null()) return std::nullopt;
  return MomentOf(field.as<int64_t>());
}

SeatRow SeatFrom(const pqxx::row& row) {
  SeatRow seat;
  seat.pattern.value = row[0].c_str();
  seat.call.value = row[1].c_str();
  seat.id.value = row[2].c_str();
  seat.state = static_cast<testcalls::SeatState>(row[3].as<int>());
  seat.size = row[4].c_str();
  seat.account.value = row[5].as<std::string>("");
  seat.display_name = row[6].c_str();
  seat.created_at = MomentOf(row[7].as<int64_t>());
  seat.taken_at = MomentOrNull(row[8]);
  seat.ended_at = MomentOrNull(row[9]);
  seat.report_count = row[10].as<int>();
  seat.last_row = row[11].as<int>();
  seat.report_version = row[12].as<int>();
  return seat;
}

}  // namespace

void InsertSeat(Transaction& transaction, const SeatRow& seat, const Sha256& invitation_sha256) {
  Run(transaction, kInsertSeat, seat.pattern.value, seat.call.value, seat.id.value,
      static_cast<int>(seat.state), seat.size, Binary(invitation_sha256), Micros(seat.created_at));
}

std::optional<SeatRow> LoadSeat(Transaction& transaction, const PatternId& pattern,
                                const CallId& call, const SeatId& seat) {
  const pqxx::result result = Run(transaction, kLoadSeat, pattern.value, call.value, seat.value);
  if (result.empty()) return std::nullopt;
  return SeatFrom(result.front());
}

std::vector<SeatRow> ListSeats(Transaction& transaction, const PatternId& pattern,
                               const CallId& call, std::optional<Moment> after,
                               const SeatId& after_id, int limit) {
  std::vector<SeatRow> seats;
  const pqxx::result result = Run(transaction, kListSeats, pattern.value, call.value,
                                  MicrosOrNull(after), after_id.value, limit);
  for (const auto& row : result) seats.push_back(SeatFrom(row));
  return seats;
}

int CountSeats(Transaction& transaction, const PatternId& pattern, const CallId& call) {
  return Run(transaction, kCountSeats, pattern.value, call.value).front()[0].as<int>();
}

std::vector<testcalls::Seat> LoadSeatStates(Transaction& transaction, const PatternId& pattern,
                                            const CallId& call) {
  std::vector<testcalls::Seat> seats;
  const pqxx::result result = Run(transaction, kStates, pattern.value, call.value);
  for (const auto& row : result) {
    seats.push_back({row[0].c_str(), static_cast<testcalls::SeatState>(row[1].as<int>())});
  }
  return seats;
}

bool ReplaceInvitation(Transaction& transaction, const PatternId& pattern, const CallId& call,
                       const SeatId& seat, const Sha256& invitation_sha256) {
  return Run(transaction, kReplaceInvitation, pattern.value, call.value, seat.value,
             Binary(invitation_sha256))
             .affected_rows() == 1;
}

std::optional<InvitedSeat> LockInvitedSeat(Transaction& transaction,
                                           const Sha256& invitation_sha256) {
  const pqxx::result result = Run(transaction, kLockInvited, Binary(invitation_sha256));
  if (result.empty()) return std::nullopt;
  const pqxx::row row = result.front();
  return InvitedSeat{SeatFrom(row), static_cast<testcalls::CallState>(row[13].as<int>())};
}

void TakeSeat(Transaction& transaction, const SeatRow& seat) {
  Run(transaction, kTake, seat.pattern.value, seat.call.value, seat.id.value,
      static_cast<int>(seat.state), seat.account.value, MicrosOrNull(seat.taken_at));
}

void UpdateSeatState(Transaction& transaction, const SeatRow& seat) {
  Run(transaction, kUpdateState, seat.pattern.value, seat.call.value, seat.id.value,
      static_cast<int>(seat.state), MicrosOrNull(seat.ended_at));
}

}  // namespace rowproof::storage
