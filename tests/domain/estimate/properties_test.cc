// What must hold of every estimate, on seeded random designs.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "services/domain/chart/expand.h"
#include "services/domain/estimate/estimate.h"
#include "tests/domain/estimate/plain_model.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

constexpr auto kAll = kYarnColoursAsListed;

double PartOf(const SizeEstimate& estimate, YarnColour colour, size_t part) {
  return LengthOf(estimate, colour, static_cast<PartKind>(part));
}

TEST(EstimateProperties, AddsUpOverRows) {
  const Materials materials = RoundMaking();
  for (unsigned seed = 1; seed <= 40; ++seed) {
    std::mt19937 random(seed);
    const chart::Design design = RandomDesign(random);
    const auto rows = PlainRows(design, 0);
    SizeEstimate before;
    for (size_t row = 1; row <= rows.size(); ++row) {
      const SizeEstimate up_to = EstimateRows(design, 0, materials, static_cast<int>(row)).value();
      // One row more adds its own stitches and takes nothing away.
      const PlainLengths own = PlainLengthsOf(design, materials, {rows[row - 1]}, false);
      for (const YarnColour colour : kAll) {
        for (size_t part = 0; part < kPartKinds; ++part) {
          EXPECT_GE(PartOf(up_to, colour, part), PartOf(before, colour, part));
        }
        EXPECT_NEAR(LengthOf(up_to, colour, PartKind::kStitches) -
                        LengthOf(before, colour, PartKind::kStitches),
                    own[static_cast<size_t>(colour)][0], 1e-6);
      }
      before = up_to;
    }
    EXPECT_EQ(before, EstimateSizes(design, materials).value().front());
  }
}

// One repetition more of an even band of rows always adds the same, so that nothing at the join is
// counted twice or left out.
TEST(EstimateProperties, CountsNothingTwiceAcrossTheJoinOfRepeats) {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    std::mt19937 random(seed);
    chart::Design design = RandomDesign(random);
    design.row_colours.clear();
    design.picture_colours.clear();
    design.cells = chart::Grid(12, 17);
    for (int row = 1; row <= 12; ++row) {
      for (int stitch = 1; stitch <= 17; ++stitch) design.cells.set(row, stitch, random() % 2 == 0);
    }
    design.row_band = chart::Band{3, 6 + 2 * static_cast<int>(random() % 3)};
    design.stitch_band = chart::Band{2, 9};
    design.sizes = {{"1", 3, 1}, {"2", 3, 2}, {"3", 3, 3}, {"4", 3, 4}};
    const auto sizes = EstimateSizes(design, RoundMaking()).value();
    for (const YarnColour colour : kAll) {
      for (size_t part = 0; part < kPartKinds; ++part) {
        const double step = PartOf(sizes[1], colour, part) - PartOf(sizes[0], colour, part);
        EXPECT_NEAR(PartOf(sizes[2], colour, part) - PartOf(sizes[1], colour, part), step, 1e-6);
        EXPECT_NEAR(PartOf(sizes[3], colour, part) - PartOf(sizes[2], colour, part), step, 1e-6);
      }
    }
    // A band written out by hand is the same piece.
    chart::Design once = design;
    once.row_band.reset();
    once.stitch_band.reset();
    once.sizes = {{"2", 1, 1}};
    const int rows = chart::ExpandedRows(design, 1);
    const chart::ExpandedSize expanded = chart::Expand(design, 1);
    once.convention = chart::Convention::kWorking;
    once.cells = chart::Grid(rows, chart::ExpandedStitches(design, 1));
    once.cells = expanded.drops;
    EXPECT_EQ(EstimateSizes(once, RoundMaking()).value().front(), sizes[1]);
  }
}

// Twice the gauge and twice the wraps halve every length but those that are given in millimetres.
TEST(EstimateProperties, ScalesWithGaugeAndYarnAsTheFormulaSays) {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    std::mt19937 random(seed);
    const chart::Design design = RandomDesign(random);
    Materials materials = RoundMaking();
    materials.tail_mm = 0;
    materials.border = {2, YarnColour::kA, true};
    Materials finer = materials;
    finer.gauge.stitches_per_decimetre *= 2;
    finer.gauge.rows_per_decimetre *= 2;
    finer.yarn_a.wraps_per_inch = 25.4;
    finer.yarn_b.wraps_per_inch = 25.4;
    for (Yarn& yarn : finer.more_yarns) yarn.wraps_per_inch = 25.4;
    const SizeEstimate coarse_size = EstimateSizes(design, materials).value().back();
    const SizeEstimate fine_size = EstimateSizes(design, finer).value().back();
    EXPECT_NEAR(fine_size.before_blocking.width_mm * 2, coarse_size.before_blocking.width_mm, 1e-6);
    EXPECT_NEAR(fine_size.before_blocking.height_mm * 2, coarse_size.before_blocking.height_mm,
                1e-6);
    for (const YarnColour colour : kAll) {
      for (size_t part = 0; part < kPartKinds; ++part) {
        const double coarse = PartOf(coarse_size, colour, part);
        EXPECT_NEAR(PartOf(fine_size, colour, part) * 2, coarse, 1e-9 * (1 + coarse));
      }
    }
  }
}

TEST(EstimateProperties, IsNeverNegativeAndTotalsAreTheSumOfParts) {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    std::mt19937 random(seed);
    const chart::Design design = RandomDesign(random);
    const auto sizes = EstimateSizes(design, RoundMaking()).value();
    for (const SizeEstimate& size : sizes) {
      EXPECT_GE(size.plain_stitches, 0);
      EXPECT_GE(size.drop_stitches, 0);
      EXPECT_GT(size.minutes, 0);
      EXPECT_GE(size.ends_to_weave_in, 0);
      for (const ColourEstimate& colour : size.colours) {
        double sum_mm = 0;
        double shares = 0;
        for (const Part& part : colour.parts) {
          EXPECT_GT(part.length_mm, 0);
          EXPECT_DOUBLE_EQ(part.share, part.length_mm / colour.length_mm);
          sum_mm += part.length_mm;
          shares += part.share;
        }
        EXPECT_NEAR(shares, 1, 1e-12);
        // A finer gauge takes less yarn.
        EXPECT_LT(colour.one_stitch_more_mm, 0);
        EXPECT_LE(colour.one_row_more_mm, 0);
        EXPECT_DOUBLE_EQ(colour.length_mm, sum_mm);
        EXPECT_LT(colour.length_interval_mm.low, colour.length_mm);
        EXPECT_GT(colour.length_interval_mm.high, colour.length_mm);
        EXPECT_GE(colour.published_length_m * 1000.0, colour.upper_length_mm);
        EXPECT_GE(colour.published_length_yd * 914.4, colour.upper_length_mm);
        EXPECT_LT((colour.published_length_m - 5) * 1000.0, colour.upper_length_mm);
        EXPECT_EQ(colour.published_length_m % 5, 0);
        EXPECT_EQ(colour.published_length_yd % 5, 0);
      }
    }
  }
}

TEST(EstimateProperties, ABorderNeverMakesAnythingShorter) {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    std::mt19937 random(seed);
    const chart::Design design = RandomDesign(random);
    Materials materials = RoundMaking();
    materials.border_yarn = materials.yarn_a;
    SizeEstimate before = EstimateSizes(design, materials).value().front();
    const double bare_mm = before.before_blocking.height_mm;
    for (int rounds = 1; rounds <= 3; ++rounds) {
      materials.border = {rounds, static_cast<YarnColour>(seed % 3), seed % 2 == 0};
      const SizeEstimate with = EstimateSizes(design, materials).value().front();
      double before_mm = 0;
      double with_mm = 0;
      for (const auto& colour : before.colours) before_mm += colour.length_mm;
      for (const auto& colour : with.colours) with_mm += colour.length_mm;
      EXPECT_GT(with_mm, before_mm);
      EXPECT_GE(with.before_blocking.width_mm, before.before_blocking.width_mm);
      EXPECT_GT(with.before_blocking.height_mm, bare_mm);
      EXPECT_GT(with.minutes, before.minutes);
      before = with;
    }
  }
}

// A border in a yarn of its own leaves A and B as they are.
TEST(EstimateProperties, ABorderYarnIsListedApart) {
  Materials materials = RoundMaking();
  const SizeEstimate bare = EstimateSizes(TwentyRows(), materials).value().front();
  materials.border_yarn = materials.yarn_a;
  materials.border_yarn->wraps_per_inch = 10;
  materials.border = {1, YarnColour::kBorder, false};
  const SizeEstimate with = EstimateSizes(TwentyRows(), materials).value().front();
  ASSERT_EQ(with.colours.size(), 3u);
  EXPECT_EQ(with.colours[0], bare.colours[0]);
  EXPECT_EQ(with.colours[1], bare.colours[1]);
  // 96 sc of 23 + 2 pi 2.54 mm and two tails.
  EXPECT_NEAR(with.colours[2].length_mm, 96 * (23 + 5.08 * 2 * std::acos(0.0)) + 300, 1e-9);
}

}  // namespace
}  // namespace rowproof::estimate
