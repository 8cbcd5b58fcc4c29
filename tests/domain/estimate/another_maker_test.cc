#include "services/domain/estimate/another_maker.h"

#include <gtest/gtest.h>

#include "services/domain/errors.h"
#include "services/domain/estimate/estimate.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

TEST(AnotherMaker, WhoDoesNothingOtherwiseMakesTheSame) {
  Materials materials = RoundMaking();
  materials.hook_mm = 5;
  materials.gauge_after_blocking = Gauge{19, 24, {}, {}};
  materials.gauge_is_of_another_fabric = true;
  EXPECT_EQ(MadeBy({}, materials).value(), materials);
}

TEST(AnotherMaker, BringsGaugeYarnHookEndsAndPace) {
  Materials materials = RoundMaking();
  materials.gauge_after_blocking = Gauge{19, 24, {}, {}};
  materials.gauge_is_of_another_fabric = true;
  AnotherMaker maker;
  maker.gauge = Gauge{18, 22, 0.1, 0.2};
  Yarn thick;
  thick.weight_class = 5;
  maker.yarns = {{YarnColour::kB, thick}};
  maker.hook_mm = 6.5;
  maker.ends = chart::Ends::kCarried;
  maker.tail_mm = 120;
  maker.stitches_per_minute = 20;
  maker.minutes_per_row_start = 2;
  maker.assurance = 0.8;
  const Materials made = MadeBy(maker, materials).value();
  EXPECT_EQ(made.gauge, *maker.gauge);
  EXPECT_FALSE(made.gauge_is_of_another_fabric);
  EXPECT_EQ(made.gauge_after_blocking, std::nullopt);  // the designer's says nothing of this fabric
  EXPECT_EQ(made.yarn_a, materials.yarn_a);
  EXPECT_EQ(made.yarn_b, thick);
  EXPECT_EQ(made.hook_mm, 6.5);
  EXPECT_EQ(made.ends, chart::Ends::kCarried);
  EXPECT_EQ(made.tail_mm, 120);
  EXPECT_EQ(made.stitches_per_minute, 20);
  EXPECT_EQ(made.minutes_per_row_start, 2);
  EXPECT_EQ(made.assurance, 0.8);
  EXPECT_EQ(made.border, materials.border);
  const auto sizes = EstimateSizes(TwentyRows(), made);
  ASSERT_TRUE(sizes.ok());
  EXPECT_NEAR(sizes->front().before_blocking.width_mm, 24 * 100.0 / 18, 1e-9);
}

TEST(AnotherMaker, KeepsTheDesignersBlockedGaugeWithTheDesignersGauge) {
  Materials materials = RoundMaking();
  materials.gauge_after_blocking = Gauge{19, 24, {}, {}};
  AnotherMaker maker;
  maker.hook_mm = 4;
  EXPECT_EQ(MadeBy(maker, materials)->gauge_after_blocking, materials.gauge_after_blocking);
  maker.gauge_after_blocking = Gauge{17, 21, {}, {}};
  EXPECT_EQ(MadeBy(maker, materials)->gauge_after_blocking, maker.gauge_after_blocking);
}

TEST(AnotherMaker, IsRefusedAYarnThatTheVersionDoesNotHaveOrNamesTwice) {
  const Materials materials = RoundMaking();
  const auto field = [&materials](const AnotherMaker& maker) {
    return DetailOf(MadeBy(maker, materials).status()).fields.front().field;
  };
  AnotherMaker maker;
  maker.yarns = {{YarnColour::kA, materials.yarn_a}, {YarnColour::kBorder, materials.yarn_a}};
  EXPECT_EQ(field(maker), "yarns[1].role");
  maker.yarns = {{YarnColour::kA, materials.yarn_a}, {YarnColour::kA, materials.yarn_a}};
  EXPECT_EQ(field(maker), "yarns[1].role");
}

}  // namespace
}  // namespace rowproof::estimate
