// Values worked out or printed elsewhere. Where a value was rounded in print, the comparison allows
// half a unit of its last digit and no more.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "services/domain/chart/expand.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/weight_class.h"
#include "services/quantities/units.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

double HalfDigit(int decimals) { return 0.5 * std::pow(10.0, -decimals) * (1 + 1e-9); }

// ISO 1144 (Tex System): tex is g per 1000 m. Yards by the international yard of 0.9144 m. The
// ball bands are invented.
TEST(LinearDensity, FollowsFromBallBandsAsTheTexSystemDefinesIt) {
  struct Row {
    double length_m;
    double mass_g;
    double metres_per_100g;
    double tex;
  };
  const Row rows[] = {
      {120, 50, 240, 416.667},
      {210 * quantities::kMetresPerYard, 100, 192.024, 520.768},
      {350 * quantities::kMetresPerYard, 200, 160.02, 624.922},
      {130 * quantities::kMetresPerYard, 100, 118.872, 841.241},
      {300 * quantities::kMetresPerYard, 300, 91.44, 1093.613},
  };
  for (const Row& row : rows) {
    Yarn yarn;
    yarn.ball_length_m = row.length_m;
    yarn.ball_mass_g = row.mass_g;
    EXPECT_NEAR(row.length_m * 100 / row.mass_g, row.metres_per_100g, HalfDigit(4));
    EXPECT_NEAR(TexOf(yarn).value(), row.tex, HalfDigit(3));
  }
}

TEST(LinearDensity, TurnsLengthIntoMassAndBack) {
  EXPECT_DOUBLE_EQ(quantities::LengthMm(quantities::MassG(123'456, 501.657), 501.657), 123'456);
  EXPECT_DOUBLE_EQ(quantities::MassG(125'000, 400), 50);
}

// An invented ball band: 1.6 oz left of a 3.5 oz skein of 280 yd are 128 yd.
TEST(LinearDensity, TurnsAWeighedRestIntoItsLength) {
  const double tex =
      quantities::TexFromBall(280 * quantities::kMetresPerYard, 3.5 * quantities::kGramsPerOunce);
  const double left_yd = quantities::LengthMm(1.6 * quantities::kGramsPerOunce, tex) / 1000 /
                         quantities::kMetresPerYard;
  EXPECT_NEAR(left_yd, 128, HalfDigit(3));
}

// Craft Yarn Council, Standard Yarn Weight System: single crochet in 4 in, hooks in mm, WPI.
TEST(WeightClasses, AreThoseOfTheStandardYarnWeightSystem) {
  ASSERT_EQ(WeightClasses().size(), 8u);
  const WeightClass& medium = *FindWeightClass(4);
  EXPECT_STREQ(medium.name, "Medium");
  EXPECT_EQ(medium.fewest_stitches_in_4_in, 11);
  EXPECT_EQ(medium.most_stitches_in_4_in, 14);
  EXPECT_EQ(medium.thinnest_hook_mm, 5.5);
  EXPECT_EQ(medium.thickest_hook_mm, 6.5);
  EXPECT_EQ(medium.fewest_wraps_per_inch, 9);
  EXPECT_EQ(medium.most_wraps_per_inch, 12);
  EXPECT_EQ(FindWeightClass(0)->most_wraps_per_inch, 40);
  EXPECT_EQ(FindWeightClass(1)->fewest_wraps_per_inch, 14);
  EXPECT_EQ(FindWeightClass(2)->thinnest_hook_mm, 3.5);
  EXPECT_EQ(FindWeightClass(3)->most_stitches_in_4_in, 17);
  EXPECT_EQ(FindWeightClass(5)->fewest_wraps_per_inch, 6);
  EXPECT_EQ(FindWeightClass(6)->most_wraps_per_inch, 6);
  EXPECT_EQ(FindWeightClass(7)->most_wraps_per_inch, 4);
  EXPECT_EQ(FindWeightClass(8), nullptr);
  EXPECT_EQ(FindWeightClass(-1), nullptr);
}

TEST(WeightClasses, TouchOrOverlapTheirNeighboursInWraps) {
  for (int heavier = 1; heavier <= 5; ++heavier) {
    EXPECT_GE(FindWeightClass(heavier)->most_wraps_per_inch,
              FindWeightClass(heavier - 1)->fewest_wraps_per_inch);
    EXPECT_LT(FindWeightClass(heavier)->middle_wraps_per_inch(),
              FindWeightClass(heavier - 1)->middle_wraps_per_inch());
  }
}

// 14 stitches and 16 rows in 4 in, 10 wraps per inch, as the project's model states its own check.
TEST(StitchPaths, GiveTheWorkedCheckToItsPrintedDigits) {
  const GaugeReading reading = {14, 16, quantities::kFourInchesMm, quantities::kFourInchesMm, 1};
  const auto gauge = GaugeFromReadings({&reading, 1});
  ASSERT_TRUE(gauge.ok());
  Yarn yarn;
  yarn.wraps_per_inch = 10;
  const double w_mm = gauge->stitch_pitch_mm();
  const double h_mm = gauge->row_pitch_mm();
  const double d_mm = DiameterOf(yarn).mm;
  EXPECT_NEAR(w_mm, 7.257, HalfDigit(3));
  EXPECT_NEAR(h_mm, 6.350, HalfDigit(3));
  EXPECT_NEAR(d_mm, 2.540, HalfDigit(3));
  const auto length = [&](StitchKind kind) {
    return PathLengthMm(PathOf(kPriorPaths, kind), w_mm, h_mm, d_mm);
  };
  EXPECT_NEAR(length(StitchKind::kSingleCrochet), 50.4, HalfDigit(1));
  EXPECT_NEAR(length(StitchKind::kSpikeSingleCrochet), 75.8, HalfDigit(1));
  EXPECT_NEAR(length(StitchKind::kDoubleTwoRowsDown), 91.1, HalfDigit(1));
  EXPECT_NEAR(length(StitchKind::kChain), 29.8, HalfDigit(1));
  // By the same formulas: 4w + 9h + 3 pi d and 2w + pi d.
  EXPECT_DOUBLE_EQ(length(StitchKind::kDoubleThreeRowsDown),
                   4 * w_mm + 9 * h_mm + 3 * std::numbers::pi * d_mm);
  EXPECT_DOUBLE_EQ(length(StitchKind::kSlipStitch), 2 * w_mm + std::numbers::pi * d_mm);
}

SizeEstimate PlainPiece(int rows, int stitches, double stitches_in_4_in, double rows_in_4_in) {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(rows, stitches);
  Materials materials = RoundMaking();
  const GaugeReading reading = {stitches_in_4_in, rows_in_4_in, quantities::kFourInchesMm,
                                quantities::kFourInchesMm, 1};
  materials.gauge = GaugeFromReadings({&reading, 1}).value();
  return EstimateSizes(design, materials).value().front();
}

// Arithmetic of gauge and size: 16 sts in 4 in are 15.748 sts in 10 cm; 209 sts at 16 in 4 in are
// 52.25 in; 170 rows at 14 in 4 in are 48.571 in; 17 sts at 14 in 4 in are 4.857 in = 123.37 mm.
TEST(SizeArithmetic, NeverTreatsFourInchesAsTenCentimetres) {
  const GaugeReading reading = {16, 14, quantities::kFourInchesMm, quantities::kFourInchesMm, 1};
  EXPECT_NEAR(GaugeFromReadings({&reading, 1})->stitches_per_decimetre, 15.748, HalfDigit(3));
  EXPECT_NEAR(PlainPiece(1, 209, 16, 14).before_blocking.width_mm / quantities::kMmPerInch, 52.25,
              1e-9);
  EXPECT_NEAR(PlainPiece(170, 1, 16, 14).before_blocking.height_mm / quantities::kMmPerInch, 48.571,
              HalfDigit(3));
  EXPECT_NEAR(PlainPiece(1, 17, 14, 14).before_blocking.width_mm / quantities::kMmPerInch, 4.857,
              HalfDigit(3));
  EXPECT_NEAR(PlainPiece(1, 17, 14, 14).before_blocking.width_mm, 123.37, HalfDigit(2));
}

// "8 plus 10" twelve times is 106; "12 plus 2" nine times 110; 173 is "4 plus 5" 42 times; 117 is
// "3 plus 6" 37 times.
TEST(SizeArithmetic, ReachesTheStitchCountsOfPublishedMultiples) {
  struct Multiple {
    int unit;
    int plus;
    int repeats;
    int stitches;
  };
  const Multiple multiples[] = {
      {8, 10, 12, 106}, {12, 2, 9, 110}, {4, 5, 42, 173}, {3, 6, 37, 117}};
  for (const Multiple& multiple : multiples) {
    chart::Design design;
    design.convention = chart::Convention::kWorking;
    design.cells = chart::Grid(1, multiple.unit + multiple.plus);
    design.stitch_band = chart::Band{2, 1 + multiple.unit};
    design.sizes = {{"one", multiple.repeats, 1}};
    EXPECT_EQ(chart::ExpandedStitches(design, 0), multiple.stitches);
    EXPECT_EQ(EstimateSizes(design, RoundMaking()).value().front().stitches, multiple.stitches);
  }
}

}  // namespace
}  // namespace rowproof::estimate
