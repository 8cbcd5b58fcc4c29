#include "services/domain/stop.h"

#include <gtest/gtest.h>

#include <limits>
#include <utility>

#include "tests/support/expect_stops.h"

namespace rowproof {
namespace {

TEST(Stop, WithoutASignalNeverStops) {
  const Stop stop;
  EXPECT_FALSE(stop.After(std::numeric_limits<int64_t>::max()));
  EXPECT_FALSE(stop.After(std::numeric_limits<int64_t>::max()));
  EXPECT_FALSE(stop.Now());
  EXPECT_TRUE(stop.status().ok());
}

TEST(Stop, LooksAtOnceAndThenAfterSoMuchWork) {
  StopsAtLook signal(0);
  const Stop stop(signal);
  EXPECT_FALSE(stop.After(1));
  EXPECT_EQ(signal.looks(), 1);
  for (int64_t i = 0; i < Stop::kWorkBetweenLooks; ++i) EXPECT_FALSE(stop.After(1));
  EXPECT_EQ(signal.looks(), 1);
  EXPECT_FALSE(stop.After(1));
  EXPECT_EQ(signal.looks(), 2);
  // A step larger than the distance of looks costs one look.
  EXPECT_FALSE(stop.After(10 * Stop::kWorkBetweenLooks));
  EXPECT_EQ(signal.looks(), 3);
}

TEST(Stop, StaysStoppedWithTheFirstStatusAndLooksNoMore) {
  StopsAtLook signal(2);
  const Stop stop(signal);
  EXPECT_FALSE(stop.Now());
  EXPECT_TRUE(stop.Now());
  for (const int64_t work : {int64_t{0}, int64_t{1}, 5 * Stop::kWorkBetweenLooks}) {
    EXPECT_TRUE(stop.After(work));
  }
  EXPECT_TRUE(stop.Now());
  EXPECT_EQ(stop.status().code(), absl::StatusCode::kCancelled);
  EXPECT_EQ(signal.looks(), 2);
}

TEST(Stop, LooksAtTheSignalThatItIsGivenLater) {
  StopsAtLook signal(1);
  Stop stop;
  EXPECT_FALSE(stop.Now());
  stop = Stop(signal);
  EXPECT_TRUE(stop.After(1));
}

}  // namespace
}  // namespace rowproof
