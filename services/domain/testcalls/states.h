// The states of a test call and of its seats, and what may be done in which. Thread-safe.
//
//   call: draft -> open <-> closed
//   seat: offered -> taken -> finished      (back to taken if a later report is not finished)
//         taken, finished -> given up       (the tester stops, at any time and without a reason)
//         offered, taken  -> cancelled      (the designer takes the seat back)
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_STATES_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_STATES_H_

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "absl/status/statusor.h"

namespace rowproof::testcalls {

// Values are stored; they never change their meaning.
enum class CallState : uint8_t { kDraft = 1, kOpen = 2, kClosed = 3 };
enum class SeatState : uint8_t {
  kOffered = 1,   // an invitation is out
  kTaken = 2,     // a tester works on it
  kFinished = 3,  // the tester's newest report is of a finished piece
  kGivenUp = 4,   // by the tester
  kCancelled = 5  // by the designer
};

// Each returns the new state. FAILED_PRECONDITION (type CALL_STATE or SEAT_STATE, subject `name`,
// the resource's name) if the state does not allow it.
absl::StatusOr<CallState> OpenCall(CallState now, const std::string& name);    // from draft
absl::StatusOr<CallState> CloseCall(CallState now, const std::string& name);   // from open
absl::StatusOr<CallState> ReopenCall(CallState now, const std::string& name);  // from closed

// Settings and size list may be changed in a draft and while the call is open.
absl::Status MayChangeCall(CallState call, const std::string& name);
// Only a draft may be deleted: nobody has taken a seat in it.
absl::Status MayDeleteCall(CallState call, const std::string& name);
// A seat may be offered in a draft or an open call.
absl::Status MayOfferSeat(CallState call, const std::string& name);
// Another version may be sent to the testers while the call is open.
absl::Status MaySendVersion(CallState call, const std::string& name);

absl::StatusOr<SeatState> TakeSeat(CallState call, SeatState now, const std::string& name);
// Reports and revisions: call open, seat taken or finished.
absl::StatusOr<SeatState> ReportOnSeat(CallState call, SeatState now, bool finished,
                                       const std::string& name);
// Stopping and taking back are allowed whatever the call's state.
absl::StatusOr<SeatState> GiveUpSeat(SeatState now, const std::string& name);
absl::StatusOr<SeatState> CancelSeat(SeatState now, const std::string& name);
// Errata are confirmed, and the tester's own form is handed out, as reports are.
absl::Status MayReport(CallState call, SeatState seat, const std::string& name);

inline bool IsActive(SeatState seat) {
  return seat == SeatState::kTaken || seat == SeatState::kFinished;
}

struct Seat {
  std::string size;
  SeatState state = SeatState::kOffered;
};

// How far the seats of one size are.
struct SizeProgress {
  std::string size;
  int offered = 0;
  int taken = 0;
  int finished = 0;
  int given_up = 0;
  int cancelled = 0;
  int required = 0;  // finished testers
  bool enough() const { return finished >= required; }
  // Finished testers that can still come, if everybody who is at it gets there.
  bool within_reach() const { return offered + taken + finished >= required; }
  bool operator==(const SizeProgress&) const = default;
};

struct WantedSize;  // call_settings.h
// One entry for each wanted size, in that order; seats of other sizes are counted after them, with
// nothing required.
std::vector<SizeProgress> Progress(std::span<const Seat> seats, std::span<const WantedSize> wanted);

const char* Name(CallState state);  // "draft", "open", "closed"
const char* Name(SeatState state);  // "offered", "taken", "finished", "given-up", "cancelled"

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_STATES_H_
