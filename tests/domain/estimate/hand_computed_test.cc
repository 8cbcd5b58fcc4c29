// Pieces worked out on paper. w = 5, h = 4, d = 2 mm, so that
//   ch  = 3*5             + pi*2   = 15 + 2 pi
//   sc  = 3*5 + 2*4       + 2 pi*2 = 23 + 4 pi
//   ssc = 3*5 + 6*4       + 2 pi*2 = 39 + 4 pi
//   sl st = 2*5           + pi*2   = 10 + 2 pi
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "services/domain/errors.h"
#include "services/domain/estimate/estimate.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kTight = 1e-9;

SizeEstimate Estimated(const chart::Design& design, const Making& making) {
  return EstimateSizes(design, making).value().front();
}

double Total(const SizeEstimate& estimate, YarnColour colour) {
  return FindColour(estimate, colour)->length_mm;
}

// 24 stitches, 20 rows, ten of each colour. A: nine rows of four drops, 36 ssc and 240 - 36 = 204
// sc; B: nine rows of two drops, 18 ssc and 222 sc.
//   stitches A 204*23 + 36*39 + 240*4 pi = 6096 + 960 pi; B 222*23 + 18*39 + 960 pi = 5808 + 960 pi
//   tails    two for each colour: 300
//   carried  A lies in the nine B rows between rows 1 and 19, B in the nine A rows between 2 and
//   20:
//            9 * 24*5 * 1.05 = 1134
//   climb    nine times 5 + 2*4: 117
//   starts   ten times 3*5: 150
//   foundation (A) 25 ch: 375 + 50 pi
// A in all 8172 + 1010 pi, B 7509 + 960 pi.
TEST(HandComputed, CarriedTwoFacePieceHasTheseParts) {
  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  const SizeEstimate estimate = Estimated(design, RoundMaking());
  EXPECT_EQ(estimate.stitches, 24);
  EXPECT_EQ(estimate.rows, 20);
  EXPECT_EQ(estimate.plain_stitches, 426);
  EXPECT_EQ(estimate.drop_stitches, 54);
  ASSERT_EQ(estimate.colours.size(), 2u);
  const auto part = [&](YarnColour colour, PartKind kind) {
    return LengthOf(estimate, colour, kind);
  };
  EXPECT_NEAR(part(YarnColour::kA, PartKind::kStitches), 6096 + 960 * kPi, kTight);
  EXPECT_NEAR(part(YarnColour::kB, PartKind::kStitches), 5808 + 960 * kPi, kTight);
  EXPECT_NEAR(part(YarnColour::kA, PartKind::kFoundation), 375 + 50 * kPi, kTight);
  EXPECT_EQ(part(YarnColour::kB, PartKind::kFoundation), 0);
  for (const YarnColour colour : {YarnColour::kA, YarnColour::kB}) {
    EXPECT_NEAR(part(colour, PartKind::kTails), 300, kTight);
    EXPECT_NEAR(part(colour, PartKind::kCarried), 1134, kTight);
    EXPECT_NEAR(part(colour, PartKind::kClimb), 117, kTight);
    EXPECT_NEAR(part(colour, PartKind::kStarts), 150, kTight);
  }
  EXPECT_NEAR(Total(estimate, YarnColour::kA), 8172 + 1010 * kPi, kTight);
  EXPECT_NEAR(Total(estimate, YarnColour::kB), 7509 + 960 * kPi, kTight);
  EXPECT_EQ(estimate.ends_to_weave_in, 4);
  EXPECT_NEAR(estimate.before_blocking.width_mm, 120, kTight);
  EXPECT_NEAR(estimate.before_blocking.height_mm, 80, kTight);
}

// The same chart with cut ends left as 100 mm of fringe: 20 tails a colour of 100 + 50 mm; nothing
// carried, no climb. Twelve strands of A, 80 mm hanging, along foundation and top: 12 * 210 = 2520.
// A in all 6096 + 960 pi + 3000 + 150 + 375 + 50 pi + 2520; width 120 + 2*100, height 80 + 2*80.
TEST(HandComputed, CutPieceWithFringeHasTheseParts) {
  Making making = RoundMaking();
  making.tail_use = TailUse::kFringe;
  making.fringe_length_mm = 100;
  making.added_fringe = {{YarnColour::kA, 12, 80, FringeEdge::kFoundationAndTop}};
  const SizeEstimate estimate = Estimated(TwentyRows(), making);
  for (const YarnColour colour : {YarnColour::kA, YarnColour::kB}) {
    EXPECT_NEAR(LengthOf(estimate, colour, PartKind::kTails), 3000, kTight);
    EXPECT_EQ(LengthOf(estimate, colour, PartKind::kCarried), 0);
    EXPECT_EQ(LengthOf(estimate, colour, PartKind::kClimb), 0);
  }
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kFringe), 2520, kTight);
  EXPECT_NEAR(Total(estimate, YarnColour::kA), 12141 + 1010 * kPi, kTight);
  EXPECT_NEAR(Total(estimate, YarnColour::kB), 5808 + 960 * kPi + 3000 + 150, kTight);
  EXPECT_EQ(estimate.ends_to_weave_in, 0);
  EXPECT_NEAR(estimate.before_blocking.width_mm, 320, kTight);
  EXPECT_NEAR(estimate.before_blocking.height_mm, 240, kTight);
  EXPECT_NEAR(estimate.fringe_width_mm, 200, kTight);
  EXPECT_NEAR(estimate.fringe_height_mm, 160, kTight);
}

// Two rounds of an enclosing double border in B: rounds of 2*24 + 2*20 + 8i = 96 and 104, each
// twice, and one of 112 through both layers: 512 sc = 11776 + 2048 pi, and two tails for each of
// two layers, 600. It adds three rows of 4 mm at each edge. Tails of rows are shut in.
TEST(HandComputed, EnclosingDoubleBorderHasEveryRoundTwiceAndThenOne) {
  Making making = RoundMaking();
  making.border = {2, YarnColour::kB, true};
  const SizeEstimate estimate = Estimated(TwentyRows(), making);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kB, PartKind::kBorder), 12376 + 2048 * kPi, kTight);
  EXPECT_NEAR(estimate.before_blocking.width_mm, 144, kTight);
  EXPECT_NEAR(estimate.before_blocking.height_mm, 104, kTight);
  EXPECT_EQ(estimate.ends_to_weave_in, 4);
}

// A worked foundation in B: 24 (ch + sc) = 24 * (38 + 6 pi) = 912 + 144 pi. It is row 0: B has 11
// rows, so 22 tails, 11 starts, and the piece is 21 rows high. Carried: B from row 0 to 20 lies in
// all ten A rows, A still in nine; B climbs ten times.
TEST(HandComputed, WorkedFoundationIsOneMoreRowOfItsColour) {
  Making making = RoundMaking();
  making.foundation = {FoundationKind::kWorked, chart::Colour::kB};
  const SizeEstimate cut = Estimated(TwentyRows(), making);
  EXPECT_NEAR(LengthOf(cut, YarnColour::kB, PartKind::kFoundation), 912 + 144 * kPi, kTight);
  EXPECT_NEAR(LengthOf(cut, YarnColour::kB, PartKind::kTails), 22 * 150, kTight);
  EXPECT_NEAR(LengthOf(cut, YarnColour::kA, PartKind::kTails), 20 * 150, kTight);
  EXPECT_NEAR(LengthOf(cut, YarnColour::kB, PartKind::kStarts), 11 * 15, kTight);
  EXPECT_NEAR(cut.before_blocking.height_mm, 84, kTight);
  making.ends = chart::Ends::kCarried;
  const SizeEstimate carried = Estimated(TwentyRows(), making);
  EXPECT_NEAR(LengthOf(carried, YarnColour::kB, PartKind::kCarried), 1260, kTight);
  EXPECT_NEAR(LengthOf(carried, YarnColour::kA, PartKind::kCarried), 1134, kTight);
  EXPECT_NEAR(LengthOf(carried, YarnColour::kB, PartKind::kClimb), 130, kTight);
}

// A tube with waiting ends: 24 chains and a sl st, 360 + 48 pi + 10 + 2 pi; each round starts with
// 15 and is joined by 10 + 2 pi; two border rounds of 24 stitches at each of two ends: 96 sc.
TEST(HandComputed, TubeIsJoinedAtEveryRound) {
  chart::Design design = TwentyRows();
  design.form = chart::Form::kTube;
  design.ends = chart::Ends::kWaiting;
  Making making = RoundMaking();
  making.border = {2, YarnColour::kA, false};
  const SizeEstimate estimate = Estimated(design, making);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kFoundation), 370 + 50 * kPi, kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kB, PartKind::kStarts), 250 + 20 * kPi, kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kBorder), 96 * (23 + 4 * kPi) + 300,
              kTight);
  EXPECT_EQ(LengthOf(estimate, YarnColour::kA, PartKind::kCarried), 0);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kB, PartKind::kClimb), 117, kTight);
  EXPECT_NEAR(estimate.before_blocking.width_mm, 120, kTight);
  EXPECT_NEAR(estimate.before_blocking.height_mm, 96, kTight);
}

// A swatch of 12 by 10 is a quarter of the piece: a quarter of its stitches, and two tails a
// colour.
TEST(HandComputed, SwatchHasThePatternsProportions) {
  Making making = RoundMaking();
  making.swatch = Swatch{12, 10};
  const SizeEstimate estimate = Estimated(TwentyRows(), making);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kSwatch), 1524 + 240 * kPi + 300,
              kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kB, PartKind::kSwatch), 1452 + 240 * kPi + 300,
              kTight);
}

// Carried A is 8172 + 1010 pi = 11345.0 mm. From balls of 3 m with 150 mm tails: n balls hold
// 11345 + 300 (n - 1), so n = ceil((11345 - 300) / (3000 - 300)) = ceil(4.09) = 5 and four joins
// add 1200 mm: 12545.0 mm. 3 m of 1.2 g are 400 tex: 5.018 g.
TEST(HandComputed, JoinsAddTwoTailsForEachBallAfterTheFirst) {
  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  Making making = RoundMaking();
  making.yarn_a.ball_length_m = 3;
  making.yarn_a.ball_mass_g = 1.2;
  const SizeEstimate estimate = Estimated(design, making);
  const ColourEstimate& a = *FindColour(estimate, YarnColour::kA);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kJoins), 1200, kTight);
  EXPECT_NEAR(a.length_mm, 9372 + 1010 * kPi, kTight);
  EXPECT_NEAR(a.mass_g.value(), (9372 + 1010 * kPi) * 400e-6, kTight);
  EXPECT_NEAR(a.mass_uncertainty_g.value(), a.length_uncertainty_mm * 400e-6, kTight);
  EXPECT_EQ(estimate.ends_to_weave_in, 4 + 8);
  EXPECT_EQ(FindColour(estimate, YarnColour::kB)->balls, std::nullopt);
}

// With nothing but the wraps left open (half a wrap in 12.7), 12.545 m stay below 15 m and above 10
// m: 15 m and 15 yd, five balls of 3 m, and 15 m of 400 tex are 6 g. A ball of 2.9 m makes it six
// (and 15 m of 413.79 tex are 6.2 g, 7 g up).
TEST(HandComputed, PublishedAmountIsBoughtInWholeBallsAndGrams) {
  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  Making making = RoundMaking();
  making.gauge = Gauge{20, 25, 0.0, 0.0};
  making.assumptions.model_relative_uncertainty = 0;
  making.assumptions.maker_relative_spread = 0;
  making.yarn_a.ball_length_m = 3;
  making.yarn_a.ball_mass_g = 1.2;
  SizeEstimate estimate = Estimated(design, making);
  EXPECT_EQ(estimate.colours.front().published_length_m, 15);
  EXPECT_EQ(estimate.colours.front().published_length_yd, 15);
  EXPECT_EQ(estimate.colours.front().balls, 5);
  EXPECT_EQ(estimate.colours.front().published_mass_g, 6);
  making.yarn_a.ball_length_m = 2.9;
  estimate = Estimated(design, making);
  EXPECT_EQ(estimate.colours.front().published_length_m, 15);
  EXPECT_EQ(estimate.colours.front().balls, 6);
  EXPECT_EQ(estimate.colours.front().published_mass_g, 7);
}

// 480 chart stitches, 24 of the foundation; 20 row starts. At 12 stitches a minute and half a
// minute a start: 42 + 10 min.
TEST(HandComputed, TimeFollowsFromStitchesAndRowStarts) {
  Making making = RoundMaking();
  making.stitches_per_minute = 12;
  making.minutes_per_row_start = 0.5;
  const SizeEstimate estimate = Estimated(TwentyRows(), making);
  EXPECT_NEAR(estimate.minutes, 52, kTight);
  EXPECT_NEAR(estimate.minutes_uncertainty, 26, kTight);
}

// Blocking changes the size only: gauge 16 and 20 make w = 6.25, h = 5.
TEST(HandComputed, BlockedSizeFollowsFromTheBlockedGauge) {
  Making making = RoundMaking();
  const SizeEstimate unblocked = Estimated(TwentyRows(), making);
  making.gauge_after_blocking = Gauge{16, 20, {}, {}};
  const SizeEstimate blocked = Estimated(TwentyRows(), making);
  EXPECT_EQ(unblocked.after_blocking, std::nullopt);
  EXPECT_NEAR(blocked.after_blocking->width_mm, 150, kTight);
  EXPECT_NEAR(blocked.after_blocking->height_mm, 100, kTight);
  EXPECT_EQ(blocked.before_blocking, unblocked.before_blocking);
  EXPECT_EQ(blocked.colours, unblocked.colours);
}

// A maker who stopped after row 7 has A rows 1, 3, 5, 7 (three of them with four drops) and B rows
// 2, 4, 6 (two with two): no border, no fringe.
TEST(HandComputed, StoppedPieceEndsAtItsLastRow) {
  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  Making making = RoundMaking();
  making.border = {3, YarnColour::kA, false};
  making.added_fringe = {{YarnColour::kB, 10, 50, FringeEdge::kRowEnds}};
  const SizeEstimate stopped = EstimateRows(design, 0, making, 7).value();
  EXPECT_NEAR(LengthOf(stopped, YarnColour::kA, PartKind::kStitches),
              84 * 23 + 12 * 39 + 96 * 4 * kPi, kTight);
  EXPECT_NEAR(LengthOf(stopped, YarnColour::kB, PartKind::kStitches),
              68 * 23 + 4 * 39 + 72 * 4 * kPi, kTight);
  EXPECT_NEAR(LengthOf(stopped, YarnColour::kA, PartKind::kCarried), 3 * 126, kTight);
  EXPECT_NEAR(LengthOf(stopped, YarnColour::kB, PartKind::kCarried), 2 * 126, kTight);
  EXPECT_EQ(LengthOf(stopped, YarnColour::kA, PartKind::kBorder), 0);
  EXPECT_EQ(LengthOf(stopped, YarnColour::kB, PartKind::kFringe), 0);
  EXPECT_NEAR(stopped.before_blocking.height_mm, 28, kTight);
  EXPECT_EQ(EstimateRows(design, 0, making, 20).value(), Estimated(design, making));
}

// A declared tail length replaces the default of every cut tail.
TEST(HandComputed, DeclaredTailLengthReplacesTheDefault) {
  Making making = RoundMaking();
  making.tail_mm = 90;
  EXPECT_NEAR(LengthOf(Estimated(TwentyRows(), making), YarnColour::kA, PartKind::kTails), 1800,
              kTight);
  making.ends = chart::Ends::kWaiting;
  EXPECT_NEAR(LengthOf(Estimated(TwentyRows(), making), YarnColour::kA, PartKind::kTails), 180,
              kTight);
}

TEST(Estimate, RefusesASizeOrRowThatIsNotThere) {
  const auto field = [](int size, int row) {
    return DetailOf(EstimateRows(TwentyRows(), size, RoundMaking(), row).status())
        .fields.front()
        .field;
  };
  EXPECT_EQ(field(-1, 1), "size");
  EXPECT_EQ(field(1, 1), "size");
  EXPECT_EQ(field(0, 0), "last_row");
  EXPECT_EQ(field(0, 21), "last_row");
}

}  // namespace
}  // namespace rowproof::estimate
