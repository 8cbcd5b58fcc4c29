#include "storage/seats.h"

#include <pqxx/pqxx>

#include "services/domain/names/names.h"
#include "storage/stored_field.h"

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
constexpr Statement kListSeatsOf{
    "list_seats_of",
    "select pattern_id, call_id, seat_id, state, size_name, account_id, display_name, created, "
    "taken, ended, report_count, last_row, report_version from seat_with_report "
    "where account_id = $1 "
    "and ($2::bigint is null or (created_at, seat_id) < (from_micros($2::bigint), $3)) "
    "order by created_at desc, seat_id desc limit $4"};
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
// A write that locks its call first, as every other: admission does not know the caller yet.
constexpr Statement kLockInvited{
    "lock_invited_seat",
    "with c as materialized (select pattern_id, call_id, state from test_call "
    "where (pattern_id, call_id) = (select pattern_id, call_id from seat "
    "where invitation_sha256 = $1) for no key update) "
    "select s.pattern_id, s.call_id, s.seat_id, s.state, s.size_name, s.account_id, '' as name, "
    "to_micros(s.created_at), to_micros(s.taken_at), to_micros(s.ended_at), s.report_count, 0 as "
    "last_row, 0 as report_version, "
    "c.state from c join seat s using (pattern_id, call_id) "
    "where s.invitation_sha256 = $1 for no key update of s"};
constexpr Statement kTake{
    "take_seat",
    "with m as (insert into membership (account_id, pattern_id, call_id, role, seat_id) "
    "values ($5, $1, $2, 2, $3)) "
    "update seat set state = $4, account_id = $5, taken_at = from_micros($6) "
    "where pattern_id = $1 and call_id = $2 and seat_id = $3"};
constexpr Statement kEnd{"end_seat",
                         "with m as (update membership set seat_ended = true "
                         "where pattern_id = $1 and call_id = $2 and seat_id = $3 and role = 2) "
                         "update seat set state = $4, ended_at = from_micros($5::bigint) "
                         "where pattern_id = $1 and call_id = $2 and seat_id = $3"};

testcalls::SeatRecord SeatFields(const pqxx::row& row) {
  testcalls::SeatRecord seat;
  seat.pattern.value = TextIn(row[0]);
  seat.call.value = TextIn(row[1]);
  seat.id.value = TextIn(row[2]);
  seat.state = EnumIn<testcalls::SeatState>(row[3]);
  seat.size = TextIn(row[4]);
  if (!row[5].is_null()) seat.account.value = TextIn(row[5]);
  seat.display_name = TextIn(row[6]);
  seat.created_at = MomentIn(row[7], "created_at");
  seat.taken_at = OptionalMomentIn(row[8], "taken_at");
  seat.ended_at = OptionalMomentIn(row[9], "ended_at");
  seat.report_count = CountIn(row[10]);
  seat.last_row = CountIn(row[11]);
  seat.report_version = CountIn(row[12]);
  return seat;
}

testcalls::SeatRecord SeatFrom(const pqxx::row& row) {
  return ReadRecord(
      "seat",
      [&] {
        return ToString(SeatName{{row[0].c_str()}, {row[1].c_str()}, {row[2].c_str()}});
      },
      [&] { return SeatFields(row); });
}

}  // namespace

void InsertSeat(Transaction& transaction, const testcalls::SeatRecord& seat,
                const Sha256& invitation_sha256) {
  Run(transaction, kInsertSeat, seat.pattern.value, seat.call.value, seat.id.value,
      static_cast<int>(seat.state), seat.size, Binary(invitation_sha256), Micros(seat.created_at));
}

std::optional<testcalls::SeatRecord> LoadSeat(Transaction& transaction, const PatternId& pattern,
                                              const CallId& call, const SeatId& seat) {
  const pqxx::result result = Run(transaction, kLoadSeat, pattern.value, call.value, seat.value);
  if (result.empty()) return std::nullopt;
  return SeatFrom(result.front());
}

std::vector<testcalls::SeatRecord> ListSeats(Transaction& transaction, const PatternId& pattern,
                                             const CallId& call, std::optional<Moment> after,
                                             const SeatId& after_id, int limit) {
  std::vector<testcalls::SeatRecord> seats;
  const pqxx::result result = Run(transaction, kListSeats, pattern.value, call.value,
                                  MicrosOrNull(after), after_id.value, limit);
  for (const auto& row : result) seats.push_back(SeatFrom(row));
  return seats;
}

std::vector<testcalls::SeatRecord> ListSeatsOf(Transaction& transaction, const AccountId& account,
                                               std::optional<Moment> before,
                                               const SeatId& before_id, int limit) {
  std::vector<testcalls::SeatRecord> seats;
  const pqxx::result result =
      Run(transaction, kListSeatsOf, account.value, MicrosOrNull(before), before_id.value, limit);
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
    seats.push_back(ReadRecord(
        "seat",
        [&] {
          return ToString(TestCallName{pattern, call});
        },
        [&]() -> testcalls::Seat {
          return {TextIn(row[0]), EnumIn<testcalls::SeatState>(row[1])};
        }));
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
  const testcalls::SeatRecord seat = SeatFrom(row);
  return ReadRecord(
      "test_call",
      [&] {
        return ToString(TestCallName{seat.pattern, seat.call});
      },
      [&] {
        return InvitedSeat{seat, EnumIn<testcalls::CallState>(row[13])};
      });
}

void TakeSeat(Transaction& transaction, const testcalls::SeatRecord& seat) {
  Run(transaction, kTake, seat.pattern.value, seat.call.value, seat.id.value,
      static_cast<int>(seat.state), seat.account.value, MicrosOrNull(seat.taken_at));
}

void EndSeat(Transaction& transaction, const testcalls::SeatRecord& seat) {
  Run(transaction, kEnd, seat.pattern.value, seat.call.value, seat.id.value,
      static_cast<int>(seat.state), MicrosOrNull(seat.ended_at));
}

}  // namespace rowproof::storage
