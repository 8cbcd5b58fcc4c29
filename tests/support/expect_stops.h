// How the tests of an engine see that it ends when it is told to.
#ifndef ROWPROOF_TESTS_SUPPORT_EXPECT_STOPS_H_
#define ROWPROOF_TESTS_SUPPORT_EXPECT_STOPS_H_

#include <gtest/gtest.h>

#include <set>

#include "services/domain/errors.h"
#include "services/domain/stop.h"

namespace rowproof {

// Says stop at one look, counted from 1, and at all after it; 0: never.
class StopsAtLook : public StopSignal {
 public:
  explicit StopsAtLook(int look) : look_(look) {}
  absl::Status Look() override {
    ++looks_;
    return look_ != 0 && looks_ >= look_ ? Cancelled() : absl::OkStatus();
  }
  int looks() const { return looks_; }

 private:
  int look_;
  int looks_ = 0;
};

// `run(stop)` does some work and returns its status. It looks at least so often, comes to its end
// if nothing stops it, and wherever it is stopped it ends as cancelled, without another look.
template <typename Run>
void ExpectStops(int least_looks, Run run) {
  StopsAtLook never(0);
  const Stop unstopped(never);
  ASSERT_TRUE(run(unstopped).ok());
  const int looks = never.looks();
  ASSERT_GE(looks, least_looks);
  for (const int look : std::set<int>{1, 2, looks / 4, looks / 2, looks - 1, looks}) {
    if (look < 1) continue;
    StopsAtLook signal(look);
    const Stop stop(signal);
    EXPECT_EQ(run(stop).code(), absl::StatusCode::kCancelled) << look << " of " << looks;
    EXPECT_EQ(signal.looks(), look) << "of " << looks;
  }
}

}  // namespace rowproof

#endif  // ROWPROOF_TESTS_SUPPORT_EXPECT_STOPS_H_
