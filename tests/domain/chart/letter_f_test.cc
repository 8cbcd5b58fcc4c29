// An asymmetric letter in both hands, all facings and all three techniques: the direction of each
// worked row, where its stitches lie counted from the row's start, and where the yarn ends.
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/chart/expand.h"
#include "tests/domain/chart/chart_text.h"

namespace rowproof::chart {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

// A letter F in A on a ground of B seen on face 1; nothing in it is symmetric. Its upright is at
// stitch 7, counted from the right edge.
Design LetterF(Technique technique, Facing facing, Form form, Ends ends) {
  Design design = Picture({
      "AAAAAAAA",  // 9
      "BBBBBBBB",  // 8
      "AAAAAAAA",  // 7
      "BAAAAABB",  // 6
      "AAAAAAAA",  // 5
      "BAAABBBB",  // 4
      "AAAAAAAA",  // 3
      "BABBBBBB",  // 2
      "AAAAAAAA",  // 1
  });
  design.technique = technique;
  design.facing = facing;
  design.form = form;
  design.ends = ends;
  return design;
}

int WorkedRowsOf(const Design& design) { return design.cells.rows() * WorkedRows(design); }

// 'R' or 'W' a worked row, from the first.
std::string Sides(const Design& design) {
  std::string sides;
  for (int row = 1; row <= WorkedRowsOf(design); ++row) {
    sides += SideOfWorkedRow(design, row) == Side::kRightSide ? 'R' : 'W';
  }
  return sides;
}

// '<' where a row is worked from stitch 1, the right edge of face 1, to the left; '>' from the
// left.
std::string Directions(const Design& design, Hand hand) {
  std::string directions;
  for (int row = 1; row <= WorkedRowsOf(design); ++row) {
    directions += WorkedRowStartsAtStitchOne(design, row, hand) ? '<' : '>';
  }
  return directions;
}

// 'r' where the yarn lies at stitch 1 after a row, 'l' at the other edge.
std::string YarnEnds(const Design& design, Hand hand) {
  std::string ends;
  for (int row = 1; row <= WorkedRowsOf(design); ++row) {
    ends += YarnEndsAtStitchOne(design, row, hand) ? 'r' : 'l';
  }
  return ends;
}

// Where the drop over the F's upright in chart row 2 is met, counted from the start of the worked
// row that has it.
int UprightFromTheStart(const Design& design, Hand hand) {
  const ExpandedSize expanded = Expand(design, 0);
  const int worked_row = 2 * WorkedRows(design) + 1;  // the first of chart row 3
  EXPECT_EQ(ChartRowOfWorkedRow(design, worked_row), 3);
  const bool from_one = WorkedRowStartsAtStitchOne(design, worked_row, hand);
  const int stitches = expanded.drops.stitches();
  for (int place = 1; place <= stitches; ++place) {
    if (expanded.drops.at(3, from_one ? place : stitches + 1 - place)) return place;
  }
  return 0;
}

struct Worked {
  Design design;
  std::string sides;
  std::string right_handed;  // directions
  std::string left_handed;
  std::string right_ends;  // where the yarn lies
  std::string left_ends;
  int upright_right;
  int upright_left;
};

std::vector<Worked> AllWays() {
  return {
      {LetterF(Technique::kSpike, Facing::kOneFace, Form::kFlat, Ends::kCut), "RRRRRRRRR",
       "<<<<<<<<<", ">>>>>>>>>", "lllllllll", "rrrrrrrrr", 7, 2},
      {LetterF(Technique::kSpike, Facing::kTwoFace, Form::kFlat, Ends::kCarried), "RWRWRWRWR",
       "<><><><><", "><><><><>", "lrlrlrlrl", "rlrlrlrlr", 7, 2},
      {LetterF(Technique::kSpike, Facing::kPaired, Form::kFlat, Ends::kWaiting), "RRWWRRWWR",
       "<<>><<>><", ">><<>><<>", "llrrllrrl", "rrllrrllr", 2, 7},
      {LetterF(Technique::kSpike, Facing::kOneFace, Form::kTube, Ends::kWaiting), "RRRRRRRRR",
       "<<<<<<<<<", ">>>>>>>>>", "rrrrrrrrr", "lllllllll", 7, 2},
      {LetterF(Technique::kOverlay, Facing::kOneFace, Form::kFlat, Ends::kCut), "RRRRRRRRR",
       "<<<<<<<<<", ">>>>>>>>>", "lllllllll", "rrrrrrrrr", 7, 2},
      {LetterF(Technique::kOverlay, Facing::kOneFace, Form::kTube, Ends::kWaiting), "RRRRRRRRR",
       "<<<<<<<<<", ">>>>>>>>>", "rrrrrrrrr", "lllllllll", 7, 2},
      // Two worked rows a chart row: both yarns wait where the RS rows start.
      {LetterF(Technique::kInset, Facing::kOneFace, Form::kFlat, Ends::kWaiting),
       "RWRWRWRWRWRWRWRWRW", "<><><><><><><><><>", "><><><><><><><><><", "lrlrlrlrlrlrlrlrlr",
       "rlrlrlrlrlrlrlrlrl", 7, 2},
  };
}

TEST(LetterF, CanBeWorkedInEveryWay) {
  for (const Worked& way : AllWays()) {
    ASSERT_TRUE(Validate(way.design).ok());
    const CheckResult result = Check(way.design);
    EXPECT_TRUE(result.workable()) << Sentence(result.findings.front(), way.design);
  }
}

TEST(LetterF, HasTheSidesAndDirectionsOfItsFacingInBothHands) {
  for (const Worked& way : AllWays()) {
    EXPECT_EQ(Sides(way.design), way.sides);
    EXPECT_EQ(Directions(way.design, Hand::kRight), way.right_handed);
    EXPECT_EQ(Directions(way.design, Hand::kLeft), way.left_handed);
  }
}

TEST(LetterF, LeavesTheYarnWhereItsFacingAndFormSay) {
  for (const Worked& way : AllWays()) {
    EXPECT_EQ(YarnEnds(way.design, Hand::kRight), way.right_ends);
    EXPECT_EQ(YarnEnds(way.design, Hand::kLeft), way.left_ends);
  }
}

// What makes ends fit: the yarn of a colour lies where its next row starts (two chart rows on), or
// it is carried there, or cut.
TEST(LetterF, LetsAYarnWaitExactlyWhereItsNextRowStarts) {
  for (const Worked& way : AllWays()) {
    const int worked = WorkedRows(way.design);
    bool always = true;
    for (int last = worked; last + worked < WorkedRowsOf(way.design); last += worked) {
      const int next = last + worked + 1;  // the first worked row of the chart row after the next
      always &= YarnEndsAtStitchOne(way.design, last, Hand::kRight) ==
                WorkedRowStartsAtStitchOne(way.design, next, Hand::kRight);
    }
    EXPECT_EQ(always, way.design.ends == Ends::kWaiting) << Name(way.design.technique);
  }
}

TEST(LetterF, HasItsUprightWhereTheHandMeetsIt) {
  for (const Worked& way : AllWays()) {
    EXPECT_EQ(UprightFromTheStart(way.design, Hand::kRight), way.upright_right);
    EXPECT_EQ(UprightFromTheStart(way.design, Hand::kLeft), way.upright_left);
  }
}

TEST(LetterF, HasTheSameDropsInEveryTechnique) {
  for (const Worked& way : AllWays()) {
    const ExpandedSize expanded = Expand(way.design, 0);
    EXPECT_THAT(ToText(expanded.drops),
                ElementsAre("........", "........", ".xxxxx..", "........", ".xxx....", "........",
                            ".x......", "........", "........"));
    EXPECT_EQ(PictureFromDrops(expanded.drops, expanded.row_colours), way.design.cells);
  }
}

TEST(WorkedRows, AreTwoAChartRowInInsetAndOneElsewhere) {
  const auto ways = AllWays();
  EXPECT_EQ(WorkedRows(ways.front().design), 1);
  EXPECT_EQ(ChartRowOfWorkedRow(ways.front().design, 5), 5);
  const Design& inset = ways.back().design;
  EXPECT_EQ(WorkedRows(inset), 2);
  EXPECT_EQ(ChartRowOfWorkedRow(inset, 5), 3);
  EXPECT_EQ(ChartRowOfWorkedRow(inset, 6), 3);
  EXPECT_EQ(SideOfRow(inset, 3), Side::kRightSide);
  EXPECT_TRUE(StartsAtStitchOne(inset, 3, Hand::kRight));
}

}  // namespace
}  // namespace rowproof::chart
