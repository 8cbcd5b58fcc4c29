// Quantities as people read them.
#include "services/client/tables/measures.h"

#include <gtest/gtest.h>

namespace rowproof::client {
namespace {

TEST(Measures, HaveNoMoreDigitsThanTheUncertaintyAllows) {
  EXPECT_EQ(YarnLength(234600, Units::kMetric, 9000), "235 m (255 yd)");
  EXPECT_EQ(YarnLength(234600, Units::kImperial, 9000), "255 yd (235 m)");
  EXPECT_EQ(WidthAndHeight(712, 476, Units::kMetric, 12), "71 x 48 cm (28 x 18.5 in)");
  EXPECT_EQ(Rounded(1234.5, 60), "1250");
  EXPECT_EQ(Rounded(0.1234, 0.004), "0.124");
  EXPECT_EQ(Rounded(12.34, 0), "12.3");
  EXPECT_EQ(Rounded(0, 0), "0");
}

TEST(Measures, SayWorkingTimeInHalfHours) {
  EXPECT_EQ(WorkingTime(2), "5 min");
  EXPECT_EQ(WorkingTime(42), "40 min");
  EXPECT_EQ(WorkingTime(449), "7 1/2 h");
  EXPECT_EQ(WorkingTime(60), "1 h");
  EXPECT_EQ(WorkingTime(23 * 60 + 10), "23 h");
}

TEST(Measures, FollowTheReadersLocale) {
  EXPECT_EQ(UnitsOfLocale("en_US.UTF-8"), Units::kImperial);
  EXPECT_EQ(UnitsOfLocale("de_DE.UTF-8"), Units::kMetric);
  EXPECT_EQ(UnitsOfLocale("C"), Units::kMetric);
  EXPECT_EQ(UnitsOfLocale(""), Units::kMetric);
}

}  // namespace
}  // namespace rowproof::client
