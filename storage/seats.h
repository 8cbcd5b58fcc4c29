// Rows of seats. Every function throws libpqxx's exceptions, which end in Database, and runs inside
// a transaction.
#ifndef ROWPROOF_STORAGE_SEATS_H_
#define ROWPROOF_STORAGE_SEATS_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/testcalls/test_call.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

// An invitation's seat, locked together with its call until the transaction ends.
struct InvitedSeat {
  testcalls::SeatRecord seat;
  testcalls::CallState call_state = testcalls::CallState::kDraft;
};

void InsertSeat(Transaction& transaction, const testcalls::SeatRecord& seat,
                const Sha256& invitation_sha256);
std::optional<testcalls::SeatRecord> LoadSeat(Transaction& transaction, const PatternId& pattern,
                                              const CallId& call, const SeatId& seat);
// In the order (created_at, id), after (after, after_id) if given.
std::vector<testcalls::SeatRecord> ListSeats(Transaction& transaction, const PatternId& pattern,
                                             const CallId& call, std::optional<Moment> after,
                                             const SeatId& after_id, int limit);
// An account's seats in all calls, newest first, after (before, before_id) if given.
std::vector<testcalls::SeatRecord> ListSeatsOf(Transaction& transaction, const AccountId& account,
                                               std::optional<Moment> before,
                                               const SeatId& before_id, int limit);
int CountSeats(Transaction& transaction, const PatternId& pattern, const CallId& call);
// Size and state of every seat of a call.
std::vector<testcalls::Seat> LoadSeatStates(Transaction& transaction, const PatternId& pattern,
                                            const CallId& call);

// Gives a seat that is still offered another invitation. False if there is none.
bool ReplaceInvitation(Transaction& transaction, const PatternId& pattern, const CallId& call,
                       const SeatId& seat, const Sha256& invitation_sha256);
std::optional<InvitedSeat> LockInvitedSeat(Transaction& transaction,
                                           const Sha256& invitation_sha256);
// The account takes the seat: its state, its time, and the account's membership as a tester.
void TakeSeat(Transaction& transaction, const testcalls::SeatRecord& seat);
// The seat's state, and `ended_at` if it has ended.
void EndSeat(Transaction& transaction, const testcalls::SeatRecord& seat);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_SEATS_H_
