#include "services/rpc/call_signal.h"

#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

constexpr std::chrono::milliseconds kBetweenQuestions{2};

}  // namespace

absl::Status CallSignal::Look() {
  const Time now = std::chrono::steady_clock::now();
  if (now >= deadline_) return TimeUp();
  if (now < asks_next_) return absl::OkStatus();
  asks_next_ = now + kBetweenQuestions;
  // Also reads what has arrived on the call's connection, so that a cancellation is seen although
  // every thread computes.
  return call_.IsCancelled() ? Cancelled() : absl::OkStatus();
}

}  // namespace rowproof::rpc
