// Pieces worked out on paper. w = 5, h = 4, d = 2 mm, so that
//   ch  = 3*5             + pi*2   = 15 + 2 pi
//   sc  = 3*5 + 2*4       + 2 pi*2 = 23 + 4 pi
//   ssc = 3*5 + 6*4       + 2 pi*2 = 39 + 4 pi
//   sl st = 2*5           + pi*2   = 10 + 2 pi
//   dc, two rows down (overlay)  = 4*5 + 6*4 + 3 pi*2 = 44 + 6 pi
//   dc, three rows down (inset)  = 4*5 + 9*4 + 3 pi*2 = 56 + 6 pi
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

SizeEstimate Estimated(const chart::Design& design, const Materials& materials) {
  return EstimateSizes(design, materials).value().front();
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
  Materials materials = RoundMaking();
  materials.tail_use = TailUse::kFringe;
  materials.fringe_length_mm = 100;
  materials.added_fringe = {{YarnColour::kA, 12, 80, FringeEdge::kFoundationAndTop}};
  const SizeEstimate estimate = Estimated(TwentyRows(), materials);
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
  Materials materials = RoundMaking();
  materials.border = {2, YarnColour::kB, true};
  const SizeEstimate estimate = Estimated(TwentyRows(), materials);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kB, PartKind::kBorder), 12376 + 2048 * kPi, kTight);
  EXPECT_NEAR(estimate.before_blocking.width_mm, 144, kTight);
  EXPECT_NEAR(estimate.before_blocking.height_mm, 104, kTight);
  EXPECT_EQ(estimate.ends_to_weave_in, 4);
}

// A worked foundation in B: 24 (ch + sc) = 24 * (38 + 6 pi) = 912 + 144 pi. It is row 0: B has 11
// rows, so 22 tails, 11 starts, and the piece is 21 rows high. Carried: B from row 0 to 20 lies in
// all ten A rows, A still in nine; B climbs ten times.
TEST(HandComputed, WorkedFoundationIsOneMoreRowOfItsColour) {
  Materials materials = RoundMaking();
  materials.foundation = {FoundationKind::kWorked, chart::Colour::kB};
  const SizeEstimate cut = Estimated(TwentyRows(), materials);
  EXPECT_NEAR(LengthOf(cut, YarnColour::kB, PartKind::kFoundation), 912 + 144 * kPi, kTight);
  EXPECT_NEAR(LengthOf(cut, YarnColour::kB, PartKind::kTails), 22 * 150, kTight);
  EXPECT_NEAR(LengthOf(cut, YarnColour::kA, PartKind::kTails), 20 * 150, kTight);
  EXPECT_NEAR(LengthOf(cut, YarnColour::kB, PartKind::kStarts), 11 * 15, kTight);
  EXPECT_NEAR(cut.before_blocking.height_mm, 84, kTight);
  materials.ends = chart::Ends::kCarried;
  const SizeEstimate carried = Estimated(TwentyRows(), materials);
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
  Materials materials = RoundMaking();
  materials.border = {2, YarnColour::kA, false};
  const SizeEstimate estimate = Estimated(design, materials);
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
  Materials materials = RoundMaking();
  materials.swatch = Swatch{12, 10};
  const SizeEstimate estimate = Estimated(TwentyRows(), materials);
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
  Materials materials = RoundMaking();
  materials.yarn_a.ball_length_m = 3;
  materials.yarn_a.ball_mass_g = 1.2;
  const SizeEstimate estimate = Estimated(design, materials);
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
  Materials materials = RoundMaking();
  materials.gauge = Gauge{20, 25, 0.0, 0.0};
  materials.assumptions.model_relative_uncertainty = 0;
  materials.assumptions.maker_relative_spread = 0;
  materials.yarn_a.ball_length_m = 3;
  materials.yarn_a.ball_mass_g = 1.2;
  SizeEstimate estimate = Estimated(design, materials);
  EXPECT_EQ(estimate.colours.front().published_length_m, 15);
  EXPECT_EQ(estimate.colours.front().published_length_yd, 15);
  EXPECT_EQ(estimate.colours.front().balls, 5);
  EXPECT_EQ(estimate.colours.front().published_mass_g, 6);
  materials.yarn_a.ball_length_m = 2.9;
  estimate = Estimated(design, materials);
  EXPECT_EQ(estimate.colours.front().published_length_m, 15);
  EXPECT_EQ(estimate.colours.front().balls, 6);
  EXPECT_EQ(estimate.colours.front().published_mass_g, 7);
}

// 480 chart stitches, 24 of the foundation; 20 row starts. At 12 stitches a minute and half a
// minute a start: 42 + 10 min.
TEST(HandComputed, TimeFollowsFromStitchesAndRowStarts) {
  Materials materials = RoundMaking();
  materials.stitches_per_minute = 12;
  materials.minutes_per_row_start = 0.5;
  const SizeEstimate estimate = Estimated(TwentyRows(), materials);
  EXPECT_NEAR(estimate.minutes, 52, kTight);
  EXPECT_NEAR(estimate.minutes_uncertainty, 26, kTight);
}

// Blocking changes the size only: gauge 16 and 20 make w = 6.25, h = 5.
TEST(HandComputed, BlockedSizeFollowsFromTheBlockedGauge) {
  Materials materials = RoundMaking();
  const SizeEstimate unblocked = Estimated(TwentyRows(), materials);
  materials.gauge_after_blocking = Gauge{16, 20, {}, {}};
  const SizeEstimate blocked = Estimated(TwentyRows(), materials);
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
  Materials materials = RoundMaking();
  materials.border = {3, YarnColour::kA, false};
  materials.added_fringe = {{YarnColour::kB, 10, 50, FringeEdge::kRowEnds}};
  const SizeEstimate stopped = EstimateRows(design, 0, materials, 7).value();
  EXPECT_NEAR(LengthOf(stopped, YarnColour::kA, PartKind::kStitches),
              84 * 23 + 12 * 39 + 96 * 4 * kPi, kTight);
  EXPECT_NEAR(LengthOf(stopped, YarnColour::kB, PartKind::kStitches),
              68 * 23 + 4 * 39 + 72 * 4 * kPi, kTight);
  EXPECT_NEAR(LengthOf(stopped, YarnColour::kA, PartKind::kCarried), 3 * 126, kTight);
  EXPECT_NEAR(LengthOf(stopped, YarnColour::kB, PartKind::kCarried), 2 * 126, kTight);
  EXPECT_EQ(LengthOf(stopped, YarnColour::kA, PartKind::kBorder), 0);
  EXPECT_EQ(LengthOf(stopped, YarnColour::kB, PartKind::kFringe), 0);
  EXPECT_NEAR(stopped.before_blocking.height_mm, 28, kTight);
  EXPECT_EQ(EstimateRows(design, 0, materials, 20).value(), Estimated(design, materials));
  SizeEstimate figures = EstimateFigures(design, 0, materials, 20).value();
  EXPECT_TRUE(figures.assumed.empty() && figures.notes.empty() && figures.cautions.empty());
  const SizeEstimate whole = Estimated(design, materials);
  EXPECT_FALSE(whole.assumed.empty());
  figures.assumed = whole.assumed;
  figures.notes = whole.notes;
  figures.cautions = whole.cautions;
  EXPECT_EQ(figures, whole);
}

// A declared tail length replaces the default of every cut tail.
TEST(HandComputed, DeclaredTailLengthReplacesTheDefault) {
  Materials materials = RoundMaking();
  materials.tail_mm = 90;
  EXPECT_NEAR(LengthOf(Estimated(TwentyRows(), materials), YarnColour::kA, PartKind::kTails), 1800,
              kTight);
  materials.ends = chart::Ends::kWaiting;
  EXPECT_NEAR(LengthOf(Estimated(TwentyRows(), materials), YarnColour::kA, PartKind::kTails), 180,
              kTight);
}

// The same chart as overlay, all ends cut and woven in. Its 36 drops of A are dc: 204 sc and 36 dc
// are 204*23 + 36*44 = 6276 and 204*4 + 36*6 = 1032 pi; B 222*23 + 18*44 = 5898 and 222*4 + 18*6 =
// 996 pi. 20 tails a colour of 150 mm; 40 ends.
TEST(HandComputed, OverlayDropsAreDoubleCrochets) {
  chart::Design design = TwentyRows();
  design.technique = chart::Technique::kOverlay;
  const SizeEstimate estimate = Estimated(design, RoundMaking());
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kStitches), 6276 + 1032 * kPi, kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kB, PartKind::kStitches), 5898 + 996 * kPi, kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kTails), 3000, kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kStarts), 150, kTight);
  EXPECT_EQ(LengthOf(estimate, YarnColour::kA, PartKind::kClimb), 0);
  EXPECT_EQ(estimate.ends_to_weave_in, 40);
}

// Three chart rows of six stitches; row 3 (A) has drops at stitches 3 and 4.
chart::Design SmallInset() {
  chart::Design design;
  design.technique = chart::Technique::kInset;
  design.ends = chart::Ends::kWaiting;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(3, 6);
  design.cells.set(3, 3, true);
  design.cells.set(3, 4, true);
  return design;
}

// Inset: six worked rows.
//   rows 1, 2 (A)  6 sc each
//   rows 3, 4 (B)  stitches 3 and 4 are skipped behind ch 3: 4 sc and 3 ch each
//   row 5 (A)      4 sc and 2 dc; row 6 (A) 6 sc
// A: 22 sc and 2 dc, 22*23 + 2*56 = 618 and 22*4 + 2*6 = 100 pi; B: 8 sc and 6 ch, 8*23 + 6*15 =
// 274 and 8*4 + 6*2 = 44 pi. Two tails a colour: 300. A climbs once past B's chart row: 5 + 2*4
// = 13. Starts 3*5 at each worked row: A 60, B 30. Foundation 7 ch: 105 + 14 pi. 30 mm by 6*4 = 24
// mm. Time at 12 a minute and half a minute a start: 24 + 8 + 6 ch + 6 of the foundation, 44/12 + 3
// min.
TEST(HandComputed, InsetHasTwoWorkedRowsAChartRowAndChainsOverSkippedStitches) {
  Materials materials = RoundMaking();
  materials.stitches_per_minute = 12;
  materials.minutes_per_row_start = 0.5;
  const SizeEstimate estimate = Estimated(SmallInset(), materials);
  EXPECT_EQ(estimate.rows, 6);
  EXPECT_EQ(estimate.plain_stitches, 30);
  EXPECT_EQ(estimate.drop_stitches, 2);
  EXPECT_EQ(estimate.chain_stitches, 6);
  EXPECT_EQ(FindColour(estimate, YarnColour::kA)->rows, 4);
  EXPECT_EQ(FindColour(estimate, YarnColour::kB)->chain_stitches, 6);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kStitches), 618 + 100 * kPi, kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kB, PartKind::kStitches), 274 + 44 * kPi, kTight);
  for (const YarnColour colour : {YarnColour::kA, YarnColour::kB}) {
    EXPECT_NEAR(LengthOf(estimate, colour, PartKind::kTails), 300, kTight);
    EXPECT_EQ(LengthOf(estimate, colour, PartKind::kCarried), 0);
  }
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kClimb), 13, kTight);
  EXPECT_EQ(LengthOf(estimate, YarnColour::kB, PartKind::kClimb), 0);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kStarts), 60, kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kB, PartKind::kStarts), 30, kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kA, PartKind::kFoundation), 105 + 14 * kPi, kTight);
  EXPECT_NEAR(Total(estimate, YarnColour::kA), 1096 + 114 * kPi, kTight);
  EXPECT_NEAR(estimate.before_blocking.width_mm, 30, kTight);
  EXPECT_NEAR(estimate.before_blocking.height_mm, 24, kTight);
  EXPECT_NEAR(estimate.minutes, 44.0 / 12 + 3, kTight);
  EXPECT_EQ(estimate.ends_to_weave_in, 4);
  // What is declared of its ends changes nothing: both yarns always wait.
  materials.ends = chart::Ends::kCut;
  EXPECT_EQ(Estimated(SmallInset(), materials).colours, estimate.colours);
}

// Stopped after worked row 3: A 12 sc; B 4 sc and 3 ch.
TEST(HandComputed, InsetStopsAtAWorkedRow) {
  const SizeEstimate stopped = EstimateRows(SmallInset(), 0, RoundMaking(), 3).value();
  EXPECT_NEAR(LengthOf(stopped, YarnColour::kA, PartKind::kStitches), 12 * (23 + 4 * kPi), kTight);
  EXPECT_NEAR(LengthOf(stopped, YarnColour::kB, PartKind::kStitches),
              4 * (23 + 4 * kPi) + 3 * (15 + 2 * kPi), kTight);
  EXPECT_NEAR(stopped.before_blocking.height_mm, 12, kTight);
}

// Stitches 3 and 4 repeated three times are one run of six skipped stitches: 7 chains. Stitches 4
// and 5 repeated three times are the runs 3-4, 4 and 4: 3 + 2 + 2 = 7 chains. Stitches 3 to 5 twice
// are 3-4 and 3-4: 6 chains. Each in two worked rows.
TEST(HandComputed, InsetRunsAcrossTheSeamsOfARepeatAreOne) {
  struct Case {
    chart::Band band;
    int repeats;
    int chains;
  };
  for (const Case& piece : {Case{{3, 4}, 3, 7}, Case{{4, 5}, 3, 7}, Case{{3, 5}, 2, 6}}) {
    chart::Design design = SmallInset();
    design.stitch_band = piece.band;
    design.sizes = {{"one", piece.repeats, 1}};
    EXPECT_EQ(Estimated(design, RoundMaking()).chain_stitches, 2 * piece.chains)
        << piece.band.first << " to " << piece.band.last;
  }
}

// Four rows of four sc, cut, in A, B, C, C: C has 8 sc, four tails and two starts. A border round
// in C of 2*4 + 2*4 + 8 sc, and two tails; a foundation chain of 5 in A.
TEST(HandComputed, ThirdColourIsListedAfterBAndBeforeTheBorders) {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(4, 4);
  using chart::Colour;
  design.row_colours = {Colour::kA, Colour::kB, Colour::kC, Colour::kC};
  Materials materials = RoundMaking();
  materials.border_yarn = materials.yarn_a;
  materials.border = {1, YarnColour::kC, false};
  materials.added_fringe = {{YarnColour::kBorder, 2, 30, FringeEdge::kRowEnds}};
  const SizeEstimate estimate = Estimated(design, materials);
  ASSERT_EQ(estimate.colours.size(), 4u);
  EXPECT_EQ(estimate.colours[2].colour, YarnColour::kC);
  EXPECT_EQ(estimate.colours[3].colour, YarnColour::kBorder);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kC, PartKind::kStitches), 8 * (23 + 4 * kPi), kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kC, PartKind::kTails), 600, kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kC, PartKind::kStarts), 30, kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kC, PartKind::kBorder), 24 * (23 + 4 * kPi) + 300,
              kTight);
  EXPECT_NEAR(LengthOf(estimate, YarnColour::kBorder, PartKind::kFringe), 2 * 110, kTight);
  materials.more_yarns.clear();
  EXPECT_EQ(DetailOf(EstimateSizes(design, materials).status()).fields.front().field, "yarns[C]");
}

// A foundation that the chart declares is worked, whatever the materials say: TwentyRows on 24
// foundation stitches of B.
TEST(HandComputed, FoundationThatTheChartDeclaresIsWorked) {
  chart::Design design = TwentyRows();
  Materials materials = RoundMaking();
  materials.foundation = {FoundationKind::kWorked, chart::Colour::kB};
  const SizeEstimate of_materials = Estimated(design, materials);
  design.foundation_colour = chart::Colour::kB;
  const SizeEstimate of_chart = Estimated(design, RoundMaking());
  EXPECT_EQ(of_chart.colours, of_materials.colours);
  EXPECT_EQ(of_chart.before_blocking, of_materials.before_blocking);
}

// Carried A in w: 240*3 of the stitches, 25*3 foundation, 9*24*1.05 carried, 9 climb, 30 starts =
// 1060.8; in h: 204*2 + 36*6 + 9*2 = 642. From 20 to 21 stitches w falls from 5 to 100/21, from 25
// to 26 rows h from 4 to 100/26. The width is 24 w, the height 20 h.
TEST(HandComputed, OneStitchOrRowMoreTakesThisMuch) {
  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  const SizeEstimate estimate = Estimated(design, RoundMaking());
  const ColourEstimate& a = *FindColour(estimate, YarnColour::kA);
  EXPECT_NEAR(a.one_stitch_more_mm, 1060.8 * (100.0 / 21 - 5), kTight);
  EXPECT_NEAR(a.one_row_more_mm, 642 * (100.0 / 26 - 4), kTight);
  EXPECT_NEAR(estimate.width_one_stitch_more_mm, 24 * (100.0 / 21 - 5), kTight);
  EXPECT_NEAR(estimate.height_one_row_more_mm, 20 * (100.0 / 26 - 4), kTight);
  // It is what another estimate says.
  Materials finer = RoundMaking();
  finer.gauge.stitches_per_decimetre = 21;
  EXPECT_NEAR(Total(Estimated(design, finer), YarnColour::kA), a.length_mm + a.one_stitch_more_mm,
              1e-6);
}

// The joins' example: 15 m published from balls of 3 m are five balls, 15 m; 12.545 m are used.
TEST(HandComputed, LeftOverIsWhatTheBallsHoldBeyondTheLength) {
  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  Materials materials = RoundMaking();
  materials.yarn_a.ball_length_m = 3;
  materials.yarn_a.ball_mass_g = 1.2;
  const SizeEstimate estimate = Estimated(design, materials);
  const ColourEstimate& a = *FindColour(estimate, YarnColour::kA);
  EXPECT_NEAR(a.left_over_m.value(), *a.balls * 3 - (9372 + 1010 * kPi) / 1000, kTight);
  EXPECT_EQ(FindColour(estimate, YarnColour::kB)->left_over_m, std::nullopt);
}

// Class 4 without a band: 120 to 200 m in 100 g are usual (common practice), 160 in the middle: 625
// tex, half-width 40 m, so u = 625 * 40 / sqrt 3 / 160. B declares 500 tex: grams without balls.
TEST(HandComputed, MassWithoutABandComesFromTheClassOrTheDeclaredTex) {
  Materials materials = RoundMaking();
  materials.yarn_a.weight_class = 4;
  materials.yarn_b.tex = 500;
  const SizeEstimate estimate = Estimated(TwentyRows(), materials);
  const ColourEstimate& a = *FindColour(estimate, YarnColour::kA);
  const ColourEstimate& b = *FindColour(estimate, YarnColour::kB);
  EXPECT_NEAR(a.mass_g.value(), a.length_mm * 625e-6, kTight);
  EXPECT_NEAR(a.mass_uncertainty_g.value(),
              std::hypot(a.length_uncertainty_mm * 625e-6,
                         a.length_mm * 625e-6 * 40 / std::sqrt(3.0) / 160),
              kTight);
  EXPECT_EQ(a.published_mass_g, std::nullopt);
  EXPECT_NEAR(b.mass_g.value(), b.length_mm * 500e-6, kTight);
  EXPECT_EQ(b.published_mass_g, static_cast<int>(std::ceil(b.published_length_m * 0.5)));
  EXPECT_EQ(b.balls, std::nullopt);
  const auto said = [&](const std::string& words) {
    for (const auto& line : estimate.assumed) {
      if (line.find(words) != std::string::npos) return true;
    }
    return false;
  };
  EXPECT_TRUE(said("Yarn A: without a ball band, 160 m in 100 g (the middle of weight class 4"));
  EXPECT_TRUE(said("Yarn B: without a ball band, balls and the tails at new balls are left out"));
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
