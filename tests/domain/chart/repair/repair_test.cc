// Repair and its alternatives on charts drawn by hand.
#include "services/domain/chart/repair/repair.h"

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/errors.h"
#include "tests/domain/chart/chart_text.h"

namespace rowproof::chart {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using Kind = Alternative::Kind;

TEST(Repair, LeavesAWorkableChartAlone) {
  const Design design = Picture({"AAA", "BAB", "AAA"});
  const auto repair = FindRepair(design);
  ASSERT_TRUE(repair.ok());
  EXPECT_EQ(repair->edit_count, 0);
  EXPECT_THAT(repair->edits, IsEmpty());
  EXPECT_THAT(repair->alternatives, IsEmpty());
  EXPECT_EQ(repair->repaired, design.cells);
}

TEST(Repair, TakesTheMiddleOfThreeDropsInALine) {
  const auto repair = FindRepair(Working({".x.", ".x.", ".x.", "...", "..."}));
  ASSERT_TRUE(repair.ok());
  EXPECT_THAT(repair->edits, ElementsAre(Edit{4, 2, false}));
}

TEST(Repair, SaysTheColourThatAPicturesCellShouldHave) {
  // The first row's cell of B becomes A; the last row's cell of A becomes B.
  const auto repair = FindRepair(Picture({"BAB", "AAA", "BBB", "ABA"}));
  ASSERT_TRUE(repair.ok());
  EXPECT_THAT(repair->edits, ElementsAre(Edit{1, 2, false}, Edit{4, 2, true}));
}

TEST(Repair, MendsASeamOfARepeatOnceForAllSizes) {
  Design design = Picture({"BBB", "ABA", "BBB", "AAA", "BAB", "AAA"});
  design.row_band = Band{2, 5};
  design.sizes = {{"S", 1, 1}, {"M", 1, 2}, {"L", 1, 9}};
  const auto repair = FindRepair(design);
  ASSERT_TRUE(repair.ok());
  EXPECT_THAT(repair->edits, ElementsAre(Edit{5, 2, false}));
  // With a plain row below, rows 2 to 7 of stitches 1 and 3 are off-colour (three to change in
  // each: 7, and two of 2 to 6), and rows 2, 4, 5 and 7 of stitch 2 (7, and one of 4 and 5).
  // Exchanged, all rows of stitches 1 and 3 are (1, 6 and two of 2 to 5), and rows 1, 3, 4 and 6 of
  // stitch 2.
  EXPECT_THAT(
      repair->alternatives,
      ElementsAre(Alternative{Kind::kPlainRowBelow, 0, 8}, Alternative{Kind::kPlainRowAbove, 0, 1},
                  Alternative{Kind::kColoursExchanged, 0, 11},
                  Alternative{Kind::kRepeatMoved, -1, 0}, Alternative{Kind::kRepeatMoved, 1, 0}));
}

TEST(Repair, OffersExchangedColoursOrAPlainRowWhereAPictureStartsWithTheWrongColour) {
  const auto repair = FindRepair(Picture({"AAA", "BBB", "AAA", "BBB"}));
  ASSERT_TRUE(repair.ok());
  EXPECT_EQ(repair->edit_count, 9);  // rows 1 and 4, and one of 2 and 3
  EXPECT_THAT(repair->alternatives, ElementsAre(Alternative{Kind::kPlainRowBelow, 0, 0},
                                                Alternative{Kind::kPlainRowAbove, 0, 6},
                                                Alternative{Kind::kColoursExchanged, 0, 0}));
}

TEST(Repair, OffersAPlainRowAboveWhereOnlyTheLastRowIsWrong) {
  const Design design = Picture({"BAB", "AAA", "BBB", "AAA"});
  const auto repair = FindRepair(design);
  ASSERT_TRUE(repair.ok());
  const Alternative above = repair->alternatives.at(1);
  EXPECT_EQ(above, (Alternative{Kind::kPlainRowAbove, 0, 0}));
  EXPECT_THAT(ToText(WithAlternative(design, above).cells),
              ElementsAre("...", "x.x", "...", "xxx", "..."));
}

TEST(Repair, MovesAnExplicitOrderAndTheBandAlongWithAPlainRowBelow) {
  Design design = Picture({"BBB", "AAA", "BBB", "ABA"});
  design.row_colours = {Colour::kA, Colour::kB, Colour::kA, Colour::kB};
  design.row_band = Band{2, 3};
  design.sizes = {{"M", 1, 2}};
  const Design moved = WithAlternative(design, {Kind::kPlainRowBelow, 0, 0});
  EXPECT_THAT(moved.row_colours,
              ElementsAre(Colour::kB, Colour::kA, Colour::kB, Colour::kA, Colour::kB));
  EXPECT_EQ(moved.row_band, (Band{3, 4}));
  EXPECT_THAT(ToText(moved.cells), ElementsAre("xxx", "...", "xxx", ".x.", "xxx"));
  EXPECT_TRUE(Check(moved).workable());
}

TEST(Repair, RefusesWhatNoCellCauses) {
  Design design = Picture({"BBB", "AAA", "BBB", "AAA"});
  design.row_band = Band{1, 3};
  design.sizes = {{"M", 1, 2}};
  design.facing = Facing::kOneFace;
  design.ends = Ends::kCarried;
  const auto repair = FindRepair(design);
  ASSERT_EQ(repair.status().code(), absl::StatusCode::kFailedPrecondition);
  const ErrorDetail detail = DetailOf(repair.status());
  ASSERT_EQ(detail.conditions.size(), 2U);
  EXPECT_EQ(detail.conditions[0].subject, "ends-do-not-fit");
  EXPECT_EQ(detail.conditions[1].subject, "odd-row-repeat");
  EXPECT_THAT(detail.conditions[1].description, HasSubstr("make the number even"));
  EXPECT_EQ(detail.reason, "CELLS_CANNOT_MEND");
}

}  // namespace
}  // namespace rowproof::chart
