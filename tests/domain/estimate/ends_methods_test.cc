#include "services/domain/estimate/ends_methods.h"

#include <gtest/gtest.h>

#include <limits>
#include <numbers>

#include "services/domain/errors.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

constexpr double kPi = std::numbers::pi;

// The hand-computed piece (hand_computed_test.cc): cut A 6096 + 3000 + 150 + 375 and 1010 pi, B
// 5808 + 3000 + 150 and 960 pi, 40 ends; carried A 8172 + 1010 pi, B 7509 + 960 pi, 4 ends.
// Two-face spikes cannot wait.
TEST(EndsMethods, CompareYarnEndsAndTimeWhereTheyFit) {
  const auto methods = CompareEndsMethods(TwentyRows(), 0, RoundMaking()).value();
  ASSERT_EQ(methods.size(), 3u);
  EXPECT_EQ(methods[0].ends, chart::Ends::kCut);
  EXPECT_TRUE(methods[0].fits);
  EXPECT_NEAR(methods[0].yarns[0].length_mm, 9621 + 1010 * kPi, 1e-9);
  EXPECT_NEAR(methods[0].length_mm, 9621 + 8958 + 1970 * kPi, 1e-9);
  EXPECT_EQ(methods[0].ends_to_weave_in, 40);
  EXPECT_NEAR(methods[0].weaving_minutes, 60, 1e-9);
  EXPECT_EQ(methods[1].ends, chart::Ends::kCarried);
  EXPECT_NEAR(methods[1].length_mm, 15681 + 1970 * kPi, 1e-9);
  EXPECT_EQ(methods[1].ends_to_weave_in, 4);
  EXPECT_NEAR(methods[1].weaving_minutes, 6, 1e-9);
  EXPECT_EQ(methods[1].minutes, methods[0].minutes);
  EXPECT_EQ(methods[2].ends, chart::Ends::kWaiting);
  EXPECT_FALSE(methods[2].fits);
  EXPECT_FALSE(methods[2].remark.empty());
  EXPECT_TRUE(methods[2].yarns.empty());
}

TEST(EndsMethods, FitAsTheTechniqueSays) {
  const auto fitting = [](chart::Technique technique, chart::Facing facing, chart::Form form) {
    chart::Design design = TwentyRows();
    design.technique = technique;
    design.facing = facing;
    design.form = form;
    std::string letters;
    const auto methods = CompareEndsMethods(design, 0, RoundMaking()).value();
    for (const EndsMethod& method : methods) {
      letters += method.fits ? 'y' : 'n';
    }
    return letters;
  };
  using chart::Facing;
  using chart::Form;
  using chart::Technique;
  EXPECT_EQ(fitting(Technique::kSpike, Facing::kOneFace, Form::kFlat), "ynn");
  EXPECT_EQ(fitting(Technique::kSpike, Facing::kTwoFace, Form::kFlat), "yyn");
  EXPECT_EQ(fitting(Technique::kSpike, Facing::kPaired, Form::kFlat), "yny");
  EXPECT_EQ(fitting(Technique::kSpike, Facing::kOneFace, Form::kTube), "yny");
  EXPECT_EQ(fitting(Technique::kOverlay, Facing::kOneFace, Form::kFlat), "ynn");
  EXPECT_EQ(fitting(Technique::kInset, Facing::kTwoFace, Form::kFlat), "nny");
}

TEST(EndsMethods, RefuseATimeOfAnEndThatIsNotFiniteOrPastItsRange) {
  for (const double bad : {-1.0, 61.0, std::numeric_limits<double>::quiet_NaN()}) {
    const auto methods = CompareEndsMethods(TwentyRows(), 0, RoundMaking(), bad);
    EXPECT_EQ(DetailOf(methods.status()).fields.front().field, "minutes_per_end");
  }
  EXPECT_EQ(
      DetailOf(CompareEndsMethods(TwentyRows(), 1, RoundMaking()).status()).fields.front().field,
      "size");
}

}  // namespace
}  // namespace rowproof::estimate
