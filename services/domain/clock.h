// Time as a seam, so that tests can set it. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_CLOCK_H_
#define ROWPROOF_SERVICES_DOMAIN_CLOCK_H_

#include <chrono>
#include <cstdint>

namespace rowproof {

// A moment in UTC.
using Moment = std::chrono::time_point<std::chrono::system_clock, std::chrono::microseconds>;

inline int64_t Micros(Moment moment) { return moment.time_since_epoch().count(); }
inline Moment MomentOf(int64_t micros) { return Moment(std::chrono::microseconds(micros)); }

class Clock {
 public:
  virtual ~Clock() = default;
  virtual Moment Now() = 0;
};

// Waits between tries; a test's sleeper returns at once.
class Sleeper {
 public:
  virtual ~Sleeper() = default;
  virtual void SleepUntil(std::chrono::steady_clock::time_point end) = 0;
};

}  // namespace rowproof

#endif  // ROWPROOF_SERVICES_DOMAIN_CLOCK_H_
