// Symmetries, locks and limits on runs on charts drawn by hand.
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/repair/repair.h"
#include "services/domain/errors.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/repair/plain_repair.h"

namespace rowproof::chart {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using Kind = Alternative::Kind;

TEST(SymmetricRepair, LeavesAWorkableSymmetricChartAlone) {
  const Design design = Picture({"AAAAA", "BABAB", "AAAAA", "BABAB", "AAAAA"});
  const auto repair = FindRepair(design, {.left_right = true, .top_to_bottom = true});
  ASSERT_TRUE(repair.ok()) << repair.status();
  EXPECT_EQ(repair->edit_count, 0);
  EXPECT_TRUE(repair->optimal);
  EXPECT_EQ(repair->repaired, design.cells);
}

TEST(SymmetricRepair, AddsAMarkWhereThatChangesFewerCells) {
  // Three of four images are off-colour: the fourth joins them.
  const Design design = Picture({"AAAAA", "BABBB", "AAAAA", "BABAB", "AAAAA"});
  const auto repair = FindRepair(design, {.left_right = true, .top_to_bottom = true});
  ASSERT_TRUE(repair.ok()) << repair.status();
  EXPECT_THAT(repair->edits, ElementsAre(Edit{4, 2, false}));
  EXPECT_THAT(ToText(repair->repaired), ElementsAre(".....", "x.x.x", ".....", "x.x.x", "....."));
}

TEST(SymmetricRepair, PutsAWorkingChartsAxisOneRowHigher) {
  // The drop in row 3 shows in row 2 of five picture rows; its image shows in row 4, from row 5.
  const auto repair =
      FindRepair(Working({"...", ".x.", "...", "...", "..."}), {.top_to_bottom = true});
  ASSERT_TRUE(repair.ok());
  EXPECT_EQ(repair->edit_count, 0);
  const auto lower =
      FindRepair(Working({".x.", "...", "...", "...", "..."}),
                 {.top_to_bottom = true, .locked = FromText({".x.", "...", "...", "...", "..."})});
  ASSERT_TRUE(lower.ok());
  EXPECT_THAT(lower->edits, ElementsAre(Edit{3, 2, true}));
}

TEST(SymmetricRepair, TurnsAChartByHalf) {
  const auto repair =
      FindRepair(Picture({"AAA", "ABB", "AAA", "BBB", "AAA"}),
                 {.half_turn = true, .locked = FromText({"...", ".xx", "...", "...", "..."})});
  ASSERT_TRUE(repair.ok()) << repair.status();
  // Row 4 is off-colour at stitch 3; so is its image, stitch 1 of row 2.
  EXPECT_THAT(repair->edits, ElementsAre(Edit{4, 3, true}));
}

TEST(SymmetricRepair, RefusesAnEvenNumberOfRowsInTwoColoursWithTheReason) {
  const Design design = Picture({"BBB", "AAA", "BBB", "AAA"});
  EXPECT_TRUE(FindRepair(design, {.left_right = true}).ok());
  for (const RepairOptions& options :
       {RepairOptions{.top_to_bottom = true}, RepairOptions{.half_turn = true}}) {
    const auto repair = FindRepair(design, options);
    ASSERT_EQ(repair.status().code(), absl::StatusCode::kFailedPrecondition);
    const ErrorDetail detail = DetailOf(repair.status());
    EXPECT_EQ(detail.reason, "SYMMETRY_CANNOT_HOLD");
    EXPECT_EQ(detail.conditions.at(0).subject,
              options.top_to_bottom ? "top-to-bottom" : "half-turn");
    EXPECT_THAT(detail.conditions.at(0).description, HasSubstr("make the number of rows odd"));
  }
}

TEST(SymmetricRepair, RefusesAnExplicitOrderThatIsNotTheSameFromBothEnds) {
  Design design = Working({"...", "...", "...", "...", "..."});
  design.row_colours = {Colour::kA, Colour::kB, Colour::kA, Colour::kA, Colour::kA};
  const auto repair = FindRepair(design, {.top_to_bottom = true});
  EXPECT_EQ(repair.status().code(), absl::StatusCode::kFailedPrecondition);
  EXPECT_THAT(std::string(repair.status().message()), HasSubstr("row 2 is worked in B"));
  design.row_colours = {Colour::kA, Colour::kB, Colour::kA, Colour::kA, Colour::kB, Colour::kA};
  design.cells = Grid(6, 3);
  EXPECT_TRUE(FindRepair(design, {.top_to_bottom = true}).ok());
}

TEST(SymmetricRepair, HoldsInEverySizeOfAMultipleOfFourPlusOne) {
  // Stitches 1 to 4 are repeated and 5 is worked once: its image is stitch 1.
  Design design = Picture({"AAAAA", "BBBAB", "AAAAA"});
  design.stitch_band = Band{1, 4};
  design.sizes = {{"S", 1, 1}, {"M", 4, 1}};
  const RepairOptions options{.left_right = true};
  const auto repair = FindRepair(design, options);
  ASSERT_TRUE(repair.ok()) << repair.status();
  EXPECT_EQ(repair->edit_count, 1);
  design.cells = repair->repaired;
  EXPECT_TRUE(IsSymmetric(design, options));
}

TEST(SymmetricRepair, OffersAnotherWayOutOnlyWhereTheSymmetryCanHold) {
  const auto repair = FindRepair(Picture({"ABA", "BBB", "AAA"}), {.top_to_bottom = true});
  ASSERT_TRUE(repair.ok());
  EXPECT_THAT(repair->edits, ElementsAre(Edit{3, 2, false}));
  // A plain row more would make the number of rows even.
  for (const Alternative& alternative : repair->alternatives) {
    EXPECT_EQ(alternative.kind, Kind::kColoursExchanged);
  }
  EXPECT_EQ(repair->alternatives.size(), 1U);
}

TEST(LockedRepair, TakesTheOtherMarkOfAClash) {
  const Design design = Working({".x.", ".x.", "...", "..."});
  const auto lower = FindRepair(design, {.locked = FromText({"...", ".x.", "...", "..."})});
  ASSERT_TRUE(lower.ok());
  EXPECT_THAT(lower->edits, ElementsAre(Edit{4, 2, false}));
  const auto upper = FindRepair(design, {.locked = FromText({".x.", "...", "...", "..."})});
  ASSERT_TRUE(upper.ok());
  EXPECT_THAT(upper->edits, ElementsAre(Edit{3, 2, false}));
}

TEST(LockedRepair, NamesTheFindingsThatLocksMakeImpossible) {
  const Design design = Working({".x.", ".x.", "..x", "..."});
  const auto repair = FindRepair(design, {.locked = FromText({".x.", ".x.", "..x", "..."})});
  ASSERT_EQ(repair.status().code(), absl::StatusCode::kFailedPrecondition);
  const ErrorDetail detail = DetailOf(repair.status());
  EXPECT_EQ(detail.reason, "LOCKS_CLASH");
  ASSERT_EQ(detail.conditions.size(), 2U);
  EXPECT_EQ(detail.conditions[0].subject, "no-anchor");
  EXPECT_THAT(detail.conditions[0].description, HasSubstr("stitch 1"));
  EXPECT_EQ(detail.conditions[1].subject, "drop-over-drop");
}

TEST(LockedRepair, NamesALockedCellWhoseImageIsLockedOtherwise) {
  const auto repair =
      FindRepair(Working({".x.x.", ".....", "....."}),
                 {.left_right = true, .locked = FromText({".x...", ".....", "....."})});
  EXPECT_TRUE(repair.ok());
  const auto clash =
      FindRepair(Working({".x...", ".....", "....."}),
                 {.left_right = true, .locked = FromText({".x.x.", ".....", "....."})});
  const ErrorDetail detail = DetailOf(clash.status());
  ASSERT_EQ(detail.conditions.size(), 1U);
  EXPECT_EQ(detail.conditions[0].subject, "symmetry");
  EXPECT_EQ(detail.conditions[0].description,
            "The drop locked at row 3, stitch 4 clashes with its counterpart, row 3, stitch 2, "
            "which is locked as plain; unlock one of them.");
}

TEST(LockedRepair, NamesARunOfLockedMarksThatIsTooLong) {
  const auto repair =
      FindRepair(Working({"xxxx.", ".....", "....."}),
                 {.locked = FromText({"xxx..", ".....", "....."}), .longest_run = 2});
  const ErrorDetail detail = DetailOf(repair.status());
  ASSERT_EQ(detail.conditions.size(), 1U);
  EXPECT_EQ(detail.conditions[0].subject, "loose-strand");
  EXPECT_THAT(detail.conditions[0].description,
              HasSubstr("Row 3, stitches 3 to 5: more than 2 locked marks"));
}

TEST(LockedRepair, RefusesLocksOfAnotherSizeAndNumbersOutOfRange) {
  const Design design = Working({"...", "..."});
  EXPECT_EQ(FindRepair(design, {.locked = Grid(2, 4)}).status().code(),
            absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(FindRepair(design, {.longest_run = -1}).status().code(),
            absl::StatusCode::kInvalidArgument);
  RepairOptions options{.longest_run = 2};
  options.most_steps = -1;
  EXPECT_EQ(FindRepair(design, options).status().code(), absl::StatusCode::kInvalidArgument);
}

TEST(RepairWithLimitedRuns, BreaksARunWithOneCell) {
  const auto repair = FindRepair(Working({"xxxxxxx", ".......", "......."}), {.longest_run = 3});
  ASSERT_TRUE(repair.ok());
  EXPECT_EQ(repair->edit_count, 1);
  EXPECT_THAT(ToText(repair->repaired), ElementsAre("xxx.xxx", ".......", "......."));
  EXPECT_TRUE(repair->optimal);
  EXPECT_EQ(repair->lower_bound, 1);
}

TEST(RepairWithLimitedRuns, PutsTheBreakWhereAMarkHasToGoAnyway) {
  // Without a limit the drops of row 4 go or stay by columns; one break serves both rules.
  const auto repair =
      FindRepair(Working({"..x....", "xxxxxxx", ".......", "......."}), {.longest_run = 4});
  ASSERT_TRUE(repair.ok());
  EXPECT_THAT(repair->edits, ElementsAre(Edit{3, 5, false}));
}

TEST(RepairWithLimitedRuns, SaysHowFarItMayBeFromTheBestWhereTheStepsDoNotSuffice) {
  Design design = Working(std::vector<std::string>(60, std::string(60, 'x')));
  RepairOptions options{.longest_run = 4, .most_steps = 0};
  const auto hasty = FindRepair(design, options);
  ASSERT_TRUE(hasty.ok());
  EXPECT_FALSE(hasty->optimal);
  EXPECT_LT(hasty->lower_bound, hasty->edit_count);
  Design after = design;
  after.cells = hasty->repaired;
  EXPECT_TRUE(IsAcceptable(design, after, options));
  options.most_steps = 3'000'000;
  const auto patient = FindRepair(design, options);
  ASSERT_TRUE(patient.ok());
  EXPECT_LT(patient->edit_count, hasty->edit_count);
  EXPECT_GE(patient->lower_bound, hasty->lower_bound);
  EXPECT_LE(patient->lower_bound, patient->edit_count);
}

TEST(RepairOfTechniquesWithPlainEdges, TakesMarksOfTheEdgeColumnsAway) {
  for (const Technique technique : {Technique::kOverlay, Technique::kInset}) {
    Design design = Working({"xx.xx", ".....", "....."});
    design.technique = technique;
    design.ends = technique == Technique::kInset ? Ends::kWaiting : Ends::kCut;
    const auto repair = FindRepair(design);
    ASSERT_TRUE(repair.ok()) << repair.status();
    EXPECT_THAT(repair->edits, ElementsAre(Edit{3, 1, false}, Edit{3, 5, false}));
  }
  Design tube = Working({"xx.xx", ".....", "....."});
  tube.technique = Technique::kOverlay;
  tube.form = Form::kTube;
  const auto repair = FindRepair(tube);
  ASSERT_TRUE(repair.ok());
  EXPECT_THAT(repair->edits, IsEmpty());
}

// Rows A, B, C, A, B: a cell shows its own row's colour or the next one's.
Design ThreeColours() {
  Design design;
  design.cells = Grid(5, 3);
  for (int row = 1; row <= 5; ++row)
    design.row_colours.push_back(static_cast<Colour>((row - 1) % 3));
  for (int row = 1; row <= 5; ++row) {
    for (int stitch = 1; stitch <= 3; ++stitch) {
      design.picture_colours.push_back(RowColour(design, row));
    }
  }
  return design;
}

TEST(RepairOfNamedColours, GivesAForeignColourItsRowsOwn) {
  Design design = ThreeColours();
  Apply({2, 1, true, Colour::kC}, design);
  Apply({3, 3, true, Colour::kB}, design);  // neither C nor A
  ASSERT_TRUE(Validate(design).ok()) << Validate(design);
  const auto repair = FindRepair(design);
  ASSERT_TRUE(repair.ok()) << repair.status();
  EXPECT_THAT(repair->edits, ElementsAre(Edit{3, 3, false, Colour::kC}));
  EXPECT_EQ(repair->picture_colours[PictureCell(design, 3, 3)], Colour::kC);
  EXPECT_EQ(repair->picture_colours[PictureCell(design, 2, 1)], Colour::kC);
  for (const Alternative& alternative : repair->alternatives) {
    EXPECT_NE(alternative.kind, Kind::kColoursExchanged);
  }
}

TEST(RepairOfNamedColours, GivesAForeignColourThatOfItsImageWhereThatIsLocked) {
  Design design = ThreeColours();
  Apply({2, 1, true, Colour::kC}, design);
  Apply({2, 3, true, Colour::kA}, design);
  const auto repair = FindRepair(
      design, {.left_right = true, .locked = FromText({"...", "...", "...", "..x", "..."})});
  ASSERT_TRUE(repair.ok()) << repair.status();
  EXPECT_THAT(repair->edits, ElementsAre(Edit{2, 3, true, Colour::kC}));
}

TEST(RepairOfNamedColours, NamesALockedForeignColour) {
  Design design = ThreeColours();
  Apply({3, 3, true, Colour::kB}, design);
  const auto repair = FindRepair(design, {.locked = FromText({"...", "...", "x..", "...", "..."})});
  const ErrorDetail detail = DetailOf(repair.status());
  ASSERT_EQ(detail.conditions.size(), 1U);
  EXPECT_EQ(detail.conditions[0].subject, "foreign-colour");
}

}  // namespace
}  // namespace rowproof::chart
