#include "services/quantities/printing.h"

#include <gtest/gtest.h>

namespace rowproof::quantities {
namespace {

// 1 in = 25.4 mm, 1 yd = 0.9144 m, 1 oz = 28.349523125 g, exact; 16 sts in 4 in are 15.748 sts in
// 10 cm.
TEST(BothUnits, GiveTheRounderNumberFirst) {
  EXPECT_EQ(BothLengths(25.4), "1 in (25.4 mm)");
  EXPECT_EQ(BothLengths(620), "62 cm (24.4 in)");
  EXPECT_EQ(BothLengths(91'440), "100 yd (91.4 m)");
  EXPECT_EQ(BothLengths(123'456.789), "123.457 m (135 yd)");
  EXPECT_EQ(BothMasses(28.349523125, 4), "1 oz (28.3 g)");
  EXPECT_EQ(BothGauges(1600 / 101.6, "stitches", 5), "16 stitches in 4 in (15.7 in 100 mm)");
}

}  // namespace
}  // namespace rowproof::quantities
