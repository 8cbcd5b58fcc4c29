// Measured quantities as people read them.
#include "services/quantities/measured.h"

#include <gtest/gtest.h>

namespace rowproof::quantities {
namespace {

TEST(Measured, HaveNoMoreDigitsThanTheUncertaintyAllows) {
  EXPECT_EQ(YarnLength(234600, Units::kMetric, 9000), "235 m (255 yd)");
  EXPECT_EQ(YarnLength(234600, Units::kImperial, 9000), "255 yd (235 m)");
  EXPECT_EQ(WidthAndHeight(712, 476, Units::kMetric, 12), "71 x 48 cm (28 x 18.5 in)");
  EXPECT_EQ(Rounded(1234.5, 60), "1250");
  EXPECT_EQ(Rounded(0.1234, 0.004), "0.124");
  EXPECT_EQ(Rounded(12.34, 0), "12.3");
  EXPECT_EQ(Rounded(0, 0), "0");
}

TEST(Measured, SayWorkingTimeInHalfHours) {
  EXPECT_EQ(WorkingTime(2), "5 min");
  EXPECT_EQ(WorkingTime(42), "40 min");
  EXPECT_EQ(WorkingTime(449), "7 1/2 h");
  EXPECT_EQ(WorkingTime(60), "1 h");
  EXPECT_EQ(WorkingTime(23 * 60 + 10), "23 h");
  EXPECT_EQ(StatedTime(105), "1 h 45 min");
  EXPECT_EQ(StatedTime(59.4), "59 min");
  EXPECT_EQ(StatedTime(59.6), "1 h");
}

TEST(Measured, PutTheReadersUnitsFirst) {
  EXPECT_EQ(Extent(450, Units::kMetric), "45 cm (17.7 in)");
  EXPECT_EQ(Extent(450, Units::kImperial), "17.7 in (45 cm)");
  EXPECT_EQ(Mass(50, Units::kImperial), "1.8 oz (50 g)");
  EXPECT_EQ(SmallLength(25.4, Units::kMetric), "25.4 mm (1.00 in)");
  EXPECT_EQ(YarnRange(210'000, 260'000, Units::kMetric, 9000), "210-260 m");
}

}  // namespace
}  // namespace rowproof::quantities
