// A length typed in yards and a mass typed in ounces were once printed as metres and grams to six
// digits. The balls here are invented.
#include <gtest/gtest.h>

#include "services/domain/patterns/difference.h"
#include "services/quantities/printing.h"
#include "services/quantities/units.h"
#include "tests/domain/patterns/sample_content.h"

namespace rowproof::patterns {
namespace {

using quantities::kGramsPerOunce;
using quantities::kMetresPerYard;
using quantities::kMmPerInch;

TEST(ANumberWithItsUnit, IsPrintedInTheSystemInWhichItWasTyped) {
  EXPECT_EQ(quantities::BothLengths(188 * quantities::kMetresPerYard * 1000), "188 yd (172 m)");
  EXPECT_EQ(quantities::BothMasses(3.5 * quantities::kGramsPerOunce), "3.5 oz (99.2 g)");
  EXPECT_EQ(quantities::BothLengths(6.5 * quantities::kMmPerInch), "6.5 in (16.5 cm)");
  EXPECT_EQ(quantities::BothGauges(14 * 100 / quantities::kFourInchesMm, "sts"),
            "14 sts in 4 in (13.8 in 100 mm)");
  EXPECT_EQ(quantities::BothLengths(170'000), "170 m (186 yd)");
  EXPECT_EQ(quantities::BothMasses(50), "50 g (1.76 oz)");
  EXPECT_EQ(quantities::BothLengths(203), "20.3 cm (7.99 in)");
  EXPECT_EQ(quantities::BothGauges(15.5, "sts"), "15.5 sts in 100 mm (15.7 in 4 in)");
}

TEST(ANumberWithItsUnit, IsMetricWhereItIsRoundInBothOrInNeither) {
  EXPECT_EQ(quantities::BothLengths(254'000), "254 m (278 yd)");
  EXPECT_EQ(quantities::BothLengths(914'400), "1000 yd (914 m)");
  EXPECT_EQ(quantities::BothLengths(0), "0 mm (0 in)");
  EXPECT_EQ(quantities::BothLengths(123'456.7), "123.457 m (135 yd)");
}

TEST(ADifference, OfBallsNamesThemAsTyped) {
  VersionContent before = SmallVersion();
  before.materials.yarn_a.ball_length_m = 188 * quantities::kMetresPerYard;
  before.materials.yarn_a.ball_mass_g = 3.5 * quantities::kGramsPerOunce;
  VersionContent after = before;
  after.materials.yarn_a.ball_length_m = 190 * quantities::kMetresPerYard;
  const auto fields = Compare(before, after).fields;
  ASSERT_EQ(fields.size(), 1U);
  EXPECT_EQ(fields[0].was, "188 yd (172 m)");
  EXPECT_EQ(fields[0].now, "190 yd (174 m)");
  // Two values that would read alike are told apart.
  after.materials.yarn_a.ball_length_m = 188 * quantities::kMetresPerYard + 1e-12;
  const auto close = Compare(before, after).fields;
  ASSERT_EQ(close.size(), 1U);
  EXPECT_NE(close[0].was, close[0].now);
}

}  // namespace
}  // namespace rowproof::patterns
