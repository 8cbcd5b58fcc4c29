#include "services/domain/testcalls/states.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/domain/testcalls/call_settings.h"

namespace rowproof::testcalls {
namespace {

absl::Status CallRefusal(CallState now, const std::string& name, const char* accepted) {
  return WrongState("CALL_STATE", name,
                    fmt::format("The test call is {}; it must be {}.", Name(now), accepted));
}

absl::Status SeatRefusal(SeatState now, const std::string& name, const char* accepted) {
  return WrongState("SEAT_STATE", name,
                    fmt::format("The seat is {}; it must be {}.", Name(now), accepted));
}

// Refuses a seat that nobody works on.
absl::Status RequireActive(SeatState now, const std::string& name) {
  switch (now) {
    case SeatState::kTaken:
    case SeatState::kFinished:
      return absl::OkStatus();
    case SeatState::kOffered:
      return WrongState("SEAT_STATE", name,
                        "Nobody has taken this seat yet; send its invitation first.");
    case SeatState::kGivenUp:
      return WrongState("SEAT_STATE", name, "This seat was given up; it takes no more reports.");
    case SeatState::kCancelled:
      return WrongState("SEAT_STATE", name, "This seat was cancelled; it takes no more reports.");
  }
  return absl::OkStatus();
}

absl::Status RequireOpen(CallState call, const std::string& name) {
  return call == CallState::kOpen ? absl::OkStatus() : CallRefusal(call, name, "open");
}

absl::Status RequireNotClosed(CallState call, const std::string& name) {
  return call != CallState::kClosed ? absl::OkStatus() : CallRefusal(call, name, "a draft or open");
}

void Count(SeatState state, SizeProgress& progress) {
  switch (state) {
    case SeatState::kOffered:
      ++progress.offered;
      return;
    case SeatState::kTaken:
      ++progress.taken;
      return;
    case SeatState::kFinished:
      ++progress.finished;
      return;
    case SeatState::kGivenUp:
      ++progress.given_up;
      return;
    case SeatState::kCancelled:
      ++progress.cancelled;
      return;
  }
}

}  // namespace

absl::StatusOr<CallState> OpenCall(CallState now, const std::string& name) {
  if (now != CallState::kDraft) return CallRefusal(now, name, "a draft");
  return CallState::kOpen;
}

absl::StatusOr<CallState> CloseCall(CallState now, const std::string& name) {
  if (now != CallState::kOpen) return CallRefusal(now, name, "open");
  return CallState::kClosed;
}

absl::StatusOr<CallState> ReopenCall(CallState now, const std::string& name) {
  if (now != CallState::kClosed) return CallRefusal(now, name, "closed");
  return CallState::kOpen;
}

absl::Status MayChangeCall(CallState call, const std::string& name) {
  return RequireNotClosed(call, name);
}

absl::Status MayDeleteCall(CallState call, const std::string& name) {
  return call == CallState::kDraft ? absl::OkStatus() : CallRefusal(call, name, "a draft");
}

absl::Status MayOfferSeat(CallState call, const std::string& name) {
  return RequireNotClosed(call, name);
}

absl::Status MaySendVersion(CallState call, const std::string& name) {
  return RequireOpen(call, name);
}

absl::StatusOr<SeatState> TakeSeat(CallState call, SeatState now, const std::string& name) {
  RETURN_IF_ERROR(RequireOpen(call, name));
  if (now != SeatState::kOffered) return SeatRefusal(now, name, "offered");
  return SeatState::kTaken;
}

absl::Status MayReport(CallState call, SeatState seat, const std::string& name) {
  RETURN_IF_ERROR(RequireOpen(call, name));
  return RequireActive(seat, name);
}

absl::StatusOr<SeatState> ReportOnSeat(CallState call, SeatState now, bool finished,
                                       const std::string& name) {
  RETURN_IF_ERROR(MayReport(call, now, name));
  return finished ? SeatState::kFinished : SeatState::kTaken;
}

absl::StatusOr<SeatState> GiveUpSeat(SeatState now, const std::string& name) {
  if (!IsActive(now)) return SeatRefusal(now, name, "taken or finished");
  return SeatState::kGivenUp;
}

absl::StatusOr<SeatState> CancelSeat(SeatState now, const std::string& name) {
  if (now != SeatState::kOffered && now != SeatState::kTaken) {
    return SeatRefusal(now, name, "offered or taken");
  }
  return SeatState::kCancelled;
}

std::vector<SizeProgress> Progress(std::span<const Seat> seats,
                                   std::span<const WantedSize> wanted) {
  std::vector<SizeProgress> progress;
  for (const WantedSize& size : wanted) {
    progress.emplace_back();
    progress.back().size = size.size;
    progress.back().required = size.required;
  }
  for (const Seat& seat : seats) {
    auto found = std::find_if(progress.begin(), progress.end(),
                              [&](const SizeProgress& p) { return p.size == seat.size; });
    if (found == progress.end()) {
      progress.emplace_back();
      found = progress.end() - 1;
      found->size = seat.size;
    }
    Count(seat.state, *found);
  }
  return progress;
}

const char* Name(CallState state) {
  switch (state) {
    case CallState::kDraft:
      return "draft";
    case CallState::kOpen:
      return "open";
    case CallState::kClosed:
      return "closed";
  }
  return "";
}

const char* Name(SeatState state) {
  switch (state) {
    case SeatState::kOffered:
      return "offered";
    case SeatState::kTaken:
      return "taken";
    case SeatState::kFinished:
      return "finished";
    case SeatState::kGivenUp:
      return "given-up";
    case SeatState::kCancelled:
      return "cancelled";
  }
  return "";
}

}  // namespace rowproof::testcalls
