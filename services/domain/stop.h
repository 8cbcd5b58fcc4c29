// How a computation learns that nobody waits for it any more.
#ifndef ROWPROOF_SERVICES_DOMAIN_STOP_H_
#define ROWPROOF_SERVICES_DOMAIN_STOP_H_

#include <cstdint>
#include <limits>

#include "absl/status/status.h"

namespace rowproof {

// Knows whether somebody still waits: a deadline, a cancelled request, a server that shuts down.
class StopSignal {
 public:
  virtual ~StopSignal() = default;
  // OK, or why the work has to end (TimeUp, Cancelled). Once it is an error, it stays one.
  virtual absl::Status Look() = 0;
};

// What every computation that can take more than 20 ms is given, and asks as it goes. It counts
// work, so that asking costs an addition and a comparison; the signal is asked every
// kWorkBetweenLooks units. Once the work has to end, After() says so each time.
//
// A computation that is told to end returns at once whatever it has, and the function that gave it
// the work returns status() in place of a result. So nothing half-done leaves an engine:
//
//   for (int row = 1; row <= rows; ++row) {
//     if (stop.After(stitches)) break;
//     ...
//   }
//   RETURN_IF_ERROR(stop.status());
//
// Belongs to one thread. The signal outlives it. Not copied: a copy would not know that the first
// has been told to end.
class Stop {
 public:
  // A unit is about 10 ns of the release build: a cell looked at, an entry of a table, a byte of
  // text read. Ten times as much or as little does no harm.
  static constexpr int64_t kWorkBetweenLooks = 50'000;

  // Never tells to end. For work that is small by its limits, for programs that are stopped as a
  // whole, and for tests.
  Stop() = default;
  explicit Stop(StopSignal& signal) : left_(0), signal_(&signal) {}
  Stop(Stop&&) = default;
  Stop& operator=(Stop&&) = default;
  Stop(const Stop&) = delete;
  Stop& operator=(const Stop&) = delete;

  // Counts `work` units, 0 or more; whether the computation has to end.
  bool After(int64_t work) const {
    left_ -= work;
    return left_ < 0 && Look();
  }
  bool After(size_t work) const { return After(static_cast<int64_t>(work)); }
  bool After(int work) const { return After(int64_t{work}); }

  // Whether the computation has to end, by a look at once: before or after a step whose length is
  // not known here.
  bool Now() const { return Look(); }

  // OK, or why the work had to end. Does not look again.
  const absl::Status& status() const { return status_; }

 private:
  bool Look() const;

  // Asking is const, so that a stop can be passed on as a constant and made in place.
  mutable int64_t left_ = std::numeric_limits<int64_t>::max();
  mutable absl::Status status_;
  StopSignal* signal_ = nullptr;
};

}  // namespace rowproof

#endif  // ROWPROOF_SERVICES_DOMAIN_STOP_H_
