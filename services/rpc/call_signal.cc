#include "services/rpc/call_signal.h"

#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

constexpr std::chrono::milliseconds kBetweenQuestions{2};
// gRPC cancels a call at its deadline itself, by a clock of its own that may be ahead of ours.
constexpr std::chrono::milliseconds kAhead{20};

}  // namespace

absl::Status CallSignal::Look() {
  const Time now = std::chrono::steady_clock::now();
  if (now >= deadline_) return TimeUp();
  if (now < asks_next_) return absl::OkStatus();
  asks_next_ = now + kBetweenQuestions;
  // Also reads what has arrived on the call's connection, so that a cancellation is seen although
  // every thread computes.
  if (!call_.IsCancelled()) return absl::OkStatus();
  return now + kAhead >= deadline_ ? TimeUp() : Cancelled();
}

}  // namespace rowproof::rpc
