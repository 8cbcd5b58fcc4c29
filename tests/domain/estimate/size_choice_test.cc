#include "services/domain/estimate/size_choice.h"

#include <gtest/gtest.h>

#include <limits>

#include "services/domain/errors.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

// 24 stitches with a band of 6, 20 rows with a band of 4: 120 + 30 (n - 1) mm by 80 + 16 (m - 1).
chart::Design Banded() {
  chart::Design design = TwentyRows();
  design.stitch_band = chart::Band{3, 8};
  design.row_band = chart::Band{3, 6};
  design.sizes = {{"small", 1, 1}, {"wide", 4, 1}, {"large", 6, 6}};
  return design;
}

// 200 mm lie between n = 3 (180) and n = 4 (210), 100 mm between m = 2 (96) and m = 3 (112).
TEST(SizeChoice, GivesTheRepeatsOnBothSidesOfTheWishTheNearestFirst) {
  const SizeChoice choice = ChooseSize(Banded(), RoundMaking(), {200, 100, false}).value();
  ASSERT_EQ(choice.candidates.size(), 4u);
  const SizeCandidate& best = choice.candidates.front();
  EXPECT_EQ(best.stitch_repeats, 4);
  EXPECT_EQ(best.row_repeats, 2);
  EXPECT_EQ(best.stitches, 42);
  EXPECT_EQ(best.rows, 24);
  EXPECT_NEAR(best.extent.width_mm, 210, 1e-9);
  EXPECT_NEAR(best.width_off_mm, 10, 1e-9);
  EXPECT_NEAR(best.height_off_mm, -4, 1e-9);
  EXPECT_EQ(choice.candidates.back().stitch_repeats, 3);
  EXPECT_EQ(choice.candidates.back().row_repeats, 3);
  ASSERT_EQ(choice.of_design.size(), 3u);
  EXPECT_EQ(choice.of_design.front().size, "wide");
  EXPECT_EQ(choice.of_design.back().size, "large");
}

// The candidate is the size that an estimate gives for these repeats.
TEST(SizeChoice, AgreesWithTheEstimateOfTheSameRepeats) {
  for (const auto technique :
       {chart::Technique::kSpike, chart::Technique::kOverlay, chart::Technique::kInset}) {
    Materials materials = RoundMaking();
    materials.border = {2, YarnColour::kA, true};
    materials.added_fringe = {{YarnColour::kA, 12, 40, FringeEdge::kFoundationAndTop}};
    materials.gauge_after_blocking = Gauge{18, 22, {}, {}};
    chart::Design design = Banded();
    design.technique = technique;
    for (const bool after : {false, true}) {
      const SizeChoice choice = ChooseSize(design, materials, {330, 420, after}).value();
      for (const SizeCandidate& candidate : choice.candidates) {
        design.sizes = {{"one", candidate.stitch_repeats, candidate.row_repeats}};
        const SizeEstimate size = EstimateSizes(design, materials).value().front();
        EXPECT_EQ(candidate.extent, after ? *size.after_blocking : size.before_blocking);
        EXPECT_EQ(candidate.stitches, size.stitches);
        EXPECT_EQ(candidate.rows, size.rows);
      }
    }
  }
}

// No other repeats are nearer.
TEST(SizeChoice, MissesNoNearerRepeats) {
  const chart::Design design = Banded();
  for (double target_mm = 90; target_mm < 700; target_mm += 7.3) {
    const SizeChoice choice = ChooseSize(design, RoundMaking(), {target_mm, {}, false}).value();
    double nearest_mm = std::numeric_limits<double>::infinity();
    for (int repeats = 1; repeats <= 40; ++repeats) {
      nearest_mm = std::min(nearest_mm, std::abs(120 + 30 * (repeats - 1) - target_mm));
    }
    EXPECT_NEAR(std::abs(choice.candidates.front().width_off_mm), nearest_mm, 1e-9) << target_mm;
    EXPECT_EQ(choice.candidates.front().row_repeats, 1);  // as in the first size
  }
}

// An odd band of rows cannot be repeated while the colours alternate by row.
TEST(SizeChoice, WorksABandOnceWhereItsColoursForbidARepeat) {
  chart::Design design = Banded();
  design.row_band = chart::Band{3, 7};
  design.sizes = {{"small", 1, 1}};
  const SizeChoice choice = ChooseSize(design, RoundMaking(), {{}, 400, false}).value();
  ASSERT_EQ(choice.candidates.size(), 1u);
  EXPECT_EQ(choice.candidates.front().row_repeats, 1);
}

TEST(SizeChoice, StaysWithinWhatAChartMayHave) {
  const SizeChoice choice = ChooseSize(Banded(), RoundMaking(), {100'000, 100'000, false}).value();
  EXPECT_LE(choice.candidates.front().stitches, chart::kMostStitches);
  EXPECT_LE(choice.candidates.front().rows, chart::kMostRows);
  EXPECT_GT(choice.candidates.front().stitches, chart::kMostStitches - 6);
  chart::Design plain = TwentyRows();
  EXPECT_EQ(ChooseSize(plain, RoundMaking(), {500, 500, false})->candidates.size(), 1u);
}

TEST(SizeChoice, RefusesWhatIsNoTargetByItsField) {
  const auto field = [](const SizeTarget& target, const Materials& materials = RoundMaking()) {
    return DetailOf(ChooseSize(Banded(), materials, target).status()).fields.front().field;
  };
  EXPECT_EQ(field({}), "width_mm");
  EXPECT_EQ(field({0.5, {}, false}), "width_mm");
  EXPECT_EQ(field({std::numeric_limits<double>::quiet_NaN(), {}, false}), "width_mm");
  EXPECT_EQ(field({100, std::numeric_limits<double>::infinity(), false}), "height_mm");
  EXPECT_EQ(field({100, {}, true}), "materials.gauge_after_blocking");
  Materials materials = RoundMaking();
  materials.gauge.rows_per_decimetre = 0;
  EXPECT_EQ(field({100, {}, false}, materials), "materials.gauge.rows_per_decimetre");
}

}  // namespace
}  // namespace rowproof::estimate
