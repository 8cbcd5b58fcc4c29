#include "services/domain/rows/writing/writer.h"

#include <algorithm>
#include <string>

#include "fmt/format.h"
#include "gmock/gmock.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/rows/instructions.h"
#include "tests/domain/rows/chart_rows.h"

namespace rowproof::rows {
namespace {

using chart::Band;
using chart::Colour;
using chart::Convention;
using chart::Design;
using chart::Grid;
using chart::Hand;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

// The project's own example row: edge of 4, nine times "ssc, sc 2", edge of 3.
Design ExampleWithBand() {
  Design design;
  design.convention = Convention::kWorking;
  design.cells = Grid(7, 10);
  design.cells.set(7, 5, true);
  design.stitch_band = Band{5, 7};
  design.sizes = {{"one size", 9, 1}};
  return design;
}

TEST(Writer, WritesTheExampleRowFromItsDeclaredBand) {
  const auto texts = Texts(ExampleWithBand());
  EXPECT_EQ(texts.front(), "Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (34 sts)");
  EXPECT_EQ(texts.back(), "Row 7 (RS, A): sc 4, [ssc, sc 2] 9 times, sc 3. (34 sts)");
}

TEST(Writer, ListsCountsBySize) {
  Design design = ExampleWithBand();
  design.sizes = {{"S", 9, 1}, {"M", 13, 1}, {"L", 17, 1}};
  const auto texts = Texts(design);
  EXPECT_EQ(texts.back(),
            "Row 7 (RS, A): sc 4, [ssc, sc 2] 9 (13, 17) times, sc 3. (34 (46, 58) sts)");
  EXPECT_EQ(texts[1], "Row 2 (WS, B): sc 34 (46, 58). (34 (46, 58) sts)");
}

TEST(Writer, ListsASizeThatWorksTheBandOnce) {
  Design design = ExampleWithBand();
  design.sizes = {{"S", 1, 1}, {"M", 2, 1}, {"L", 3, 1}};
  EXPECT_EQ(Texts(design).back(),
            "Row 7 (RS, A): sc 4, [ssc, sc 2] 1 (2, 3) times, sc 3. (10 (13, 16) sts)");
  design.sizes = {{"S", 1, 1}};
  EXPECT_EQ(Texts(design).back(), "Row 7 (RS, A): sc 4, ssc, sc 5. (10 sts)");
}

TEST(Writer, CountsTheUnitsOfABandThatIsItselfARepeat) {
  Design design = Working({"..x..x..x..x", "............", "............"});
  design.sizes = {{"S", 1, 1}, {"M", 3, 1}};
  design.stitch_band = Band{1, 12};
  EXPECT_EQ(Texts(design).back(), "Row 3 (RS, A): [ssc, sc 2] 4 (12) times. (12 (36) sts)");
}

TEST(Writer, CountsARunAcrossTheBandAndItsEdges) {
  Design design = Working({"x........", ".........", "........."});
  design.stitch_band = Band{4, 6};
  design.sizes = {{"S", 1, 1}, {"M", 5, 1}};
  EXPECT_EQ(Texts(design).back(), "Row 3 (RS, A): sc 8 (20), ssc. (9 (21) sts)");
}

// The same chart for both hands: each row the other way round, sides and counts as they were.
TEST(Writer, ReversesEveryRowForTheLeftHand) {
  Design design = Working({"......x.", "....x...", ".x......", "........", "........"});
  EXPECT_THAT(Texts(design),
              ElementsAre("Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (8 sts)",
                          "Row 2 (WS, B): sc 8. (8 sts)", "Row 3 (RS, A): sc 6, ssc, sc. (8 sts)",
                          "Row 4 (WS, B): sc 4, ssc, sc 3. (8 sts)",
                          "Row 5 (RS, A): sc, ssc, sc 6. (8 sts)"));
  EXPECT_THAT(Texts(design, {.hand = Hand::kLeft}),
              ElementsAre("Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (8 sts)",
                          "Row 2 (WS, B): sc 8. (8 sts)", "Row 3 (RS, A): sc, ssc, sc 6. (8 sts)",
                          "Row 4 (WS, B): sc 3, ssc, sc 4. (8 sts)",
                          "Row 5 (RS, A): sc 6, ssc, sc. (8 sts)"));
}

// The picture of a letter F, which no mirror leaves as it is. Rows of A, marks of B.
Design LetterF(chart::Facing facing) {
  Design design;
  design.facing = facing;
  design.cells = Cells({".......", "xxxxxxx", ".xxxxx.", "xxxxxxx", ".x.....", "xxxxxxx", ".xxxx..",
                        "xxxxxxx", ".x.....", "xxxxxxx", ".x.....", "xxxxxxx", "......."});
  return design;
}

// Face 1 as it comes off a maker's hook: a maker of hand `maker` lays the stitches of a RS row from
// the working hand's edge, of a WS row from the other (face 1 turned away). A drop shows in the row
// below it, the tall double of inset over the stitch that was skipped.
Grid Worked(const Design& design, Hand written_for, Hand maker) {
  const chart::ExpandedSize expanded = chart::Expand(design, 0);
  Grid drops(expanded.drops.rows(), expanded.drops.stitches());
  for (const RowInstruction& row : Instructions(design, expanded, written_for)) {
    const bool from_right = (row.side == chart::Side::kRightSide) == (maker == Hand::kRight);
    int place = 0;
    for (const Element& element : row.elements) {
      for (int i = 0; i < element.width(); ++i, ++place) {
        const int stitch = from_right ? place + 1 : drops.stitches() - place;
        if (element.stitch == Stitch::kDrop) drops.set(row.expanded_row, stitch, true);
      }
    }
    EXPECT_EQ(place, drops.stitches());
  }
  return chart::PictureFromDrops(drops, expanded.row_colours);
}

Grid Mirrored(const Grid& grid) {
  Grid mirrored(grid.rows(), grid.stitches());
  for (int row = 1; row <= grid.rows(); ++row) {
    for (int s = 1; s <= grid.stitches(); ++s) {
      mirrored.set(row, grid.stitches() + 1 - s, grid.at(row, s));
    }
  }
  return mirrored;
}

TEST(Writer, KeepsALetterReadableForBothHandsAndMirrorsItForTheWrongOne) {
  for (int n = 0; n < 9; ++n) {
    Design design = LetterF(static_cast<chart::Facing>(n % 3));
    design.technique = static_cast<chart::Technique>(n / 3);
    ASSERT_NE(Mirrored(design.cells), design.cells);
    EXPECT_EQ(Worked(design, Hand::kRight, Hand::kRight), design.cells);
    EXPECT_EQ(Worked(design, Hand::kLeft, Hand::kLeft), design.cells);
    EXPECT_EQ(Worked(design, Hand::kRight, Hand::kLeft), Mirrored(design.cells));
  }
}

TEST(Writer, WritesALettersStemFromTheSideOnWhichTheRowStarts) {
  // The middle bar of the F spans stitches 3 to 6; its marks are covered by the next row, a B row.
  WriterSettings settings;
  settings.every_row = true;
  const Design design = LetterF(chart::Facing::kOneFace);
  EXPECT_EQ(Texts(design, settings)[7], "Row 8 (RS, B): sc 2, ssc 4, sc. (7 sts)");
  settings.hand = Hand::kLeft;
  EXPECT_EQ(Texts(design, settings)[7], "Row 8 (RS, B): sc, ssc 4, sc 2. (7 sts)");
}

// A band of eight rows, 3 to 10, worked 3, 4 and 5 times: what follows lists its numbers.
TEST(Writer, RepeatsARowBandAndListsTheNumbersAfterIt) {
  Design design = Working({"..x..", ".....", ".x...", ".....", "x....", ".....", "...x.", ".....",
                           "....x", ".....", "....."});
  design.row_band = Band{3, 10};
  design.sizes = {{"S", 1, 3}, {"M", 1, 4}, {"L", 1, 5}};
  const auto texts = Texts(design);
  ASSERT_EQ(texts.size(), 12U);
  EXPECT_EQ(texts[10], "Rows 11-26 (11-34, 11-42): rep Rows 3-10 2 (3, 4) times.");
  EXPECT_EQ(texts[11], "Row 27 (35, 43) (RS, A): sc 2, ssc, sc 2. (5 sts)");
}

TEST(Writer, SaysTwiceAndOnceWhereAllSizesAgree) {
  Design design = Working({"..x..", ".....", ".x...", ".....", "x....", ".....", "...x.", ".....",
                           "....x", ".....", "....."});
  design.row_band = Band{3, 10};
  design.sizes = {{"one size", 1, 3}};
  const auto texts = Texts(design);
  EXPECT_EQ(texts[10], "Rows 11-26: rep Rows 3-10 twice.");
  EXPECT_EQ(texts[11], "Row 27 (RS, A): sc 2, ssc, sc 2. (5 sts)");
  design.sizes = {{"one size", 1, 2}};
  EXPECT_EQ(Texts(design)[10], "Rows 11-18: rep Rows 3-10.");
}

// A picture's marks stand a row higher: its band 3..4 is worked as rows 4 and 5.
TEST(Writer, RepeatsThePicturesBandOneRowHigher) {
  Design design;
  // Row 3 (A) shows B at stitch 2; worked in row 4.
  design.cells = Cells({"xxxxx", ".....", "xxxxx", "...x.", "xxxxx", "....."});
  design.row_band = Band{3, 4};
  design.sizes = {{"S", 1, 1}, {"M", 1, 3}};
  EXPECT_THAT(
      Texts(design),
      ElementsAre("Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (5 sts)",
                  "Row 2 (WS, B): sc 5. (5 sts)", "Row 3 (RS, A): sc 5. (5 sts)",
                  "Row 4 (WS, B): sc 3, ssc, sc. (5 sts)", "Row 5 (RS, A): sc 5. (5 sts)",
                  "Rows - (6-9): rep Rows 4-5 0 (2) times.", "Row 6 (10) (WS, B): sc 5. (5 sts)"));
}

TEST(Writer, WritesSizesApartWhereSidesChangePlacesBetweenPasses) {
  Design design = Working({"....x", "...x.", ".....", "....."});
  design.facing = chart::Facing::kPaired;
  design.row_band = Band{3, 4};
  design.sizes = {{"S", 1, 1}, {"M", 1, 3}};
  EXPECT_THAT(Texts(design),
              ElementsAre("Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (5 sts)",
                          "Row 2 (RS, B): sc 5. (5 sts)", "Row 3 (WS, A): sc 3, ssc, sc. (5 sts)",
                          "Row 4 (WS, B): sc 4, ssc. (5 sts)",
                          "Size M:", "Row 5 (RS, A): sc, ssc, sc 3. (5 sts)",
                          "Row 6 (RS, B): ssc, sc 4. (5 sts)", "Rows 7-8: rep Rows 3-4."));
}

TEST(Writer, RepeatsEarlierRowsOnlyWhereColourAndSideAgree) {
  // In working order rows 3, 4, 6 and 7 read alike; 3 and 7 are RS rows of A, 4 and 6 WS rows of B.
  Design design = Working({"x.x.x.", ".x.x.x", "......", ".x.x.x", "x.x.x.", "......", "......"});
  EXPECT_THAT(
      Texts(design),
      ElementsAre("Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (6 sts)",
                  "Row 2 (WS, B): sc 6. (6 sts)", "Row 3 (RS, A): [sc, ssc] 3 times. (6 sts)",
                  "Row 4 (WS, B): [sc, ssc] 3 times. (6 sts)", "Row 5 (RS, A): sc 6. (6 sts)",
                  "Row 6: rep Row 4.", "Row 7: rep Row 3."));
}

TEST(Writer, WritesEveryRowOutWhenAsked) {
  Design design = Working({"..x..", ".....", "..x..", ".....", "....."});
  design.row_band = Band{3, 4};
  design.sizes = {{"S", 1, 1}, {"M", 1, 2}};
  WriterSettings settings;
  settings.every_row = true;
  EXPECT_THAT(
      Texts(design, settings),
      ElementsAre("Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (5 sts)",
                  "Row 2 (WS, B): sc 5. (5 sts)", "Row 3 (RS, A): sc 2, ssc, sc 2. (5 sts)",
                  "Row 4 (WS, B): sc 5. (5 sts)", "Row - (5) (RS, A): sc 2, ssc, sc 2. (5 sts)",
                  "Row - (6) (WS, B): sc 5. (5 sts)",
                  "Row 5 (7) (RS, A): sc 2, ssc, sc 2. (5 sts)"));
}

TEST(Writer, WritesATubeInRoundsOfTheRightSide) {
  Design design = Working({"..x..", ".....", "....."});
  design.form = chart::Form::kTube;
  EXPECT_THAT(Texts(design), ElementsAre("Rnd 1 (RS, A): sc in each ch around. (5 sts)",
                                         "Rnd 2 (RS, B): sc 5. (5 sts)",
                                         "Rnd 3 (RS, A): sc 2, ssc, sc 2. (5 sts)"));
  const auto pattern = WriteRows(design);
  EXPECT_THAT(pattern->notes,
              Contains("Foundation: with colour A ch 5 and join into a ring with a sl st."));
  EXPECT_THAT(pattern->abbreviations, Contains("Rnd - round"));
  EXPECT_THAT(pattern->abbreviations, Contains("sl st - slip stitch"));
}

TEST(Writer, StartsAtTheNumberOfTheFirstRow) {
  Design design = Working({"..x..", ".....", "....."});
  design.first_row_number = 2;
  const auto pattern = WriteRows(design);
  EXPECT_EQ(pattern->rows.back().text, "Row 4 (RS, A): sc 2, ssc, sc 2. (5 sts)");
  EXPECT_EQ(pattern->rows.back().number, 4);
  EXPECT_EQ(pattern->rows.back().chart_row, 3);
}

TEST(Writer, UsesTheChartsOwnColours) {
  Design design = Working({".....", ".....", "....."});
  design.row_colours = {Colour::kB, Colour::kB, Colour::kA};
  const auto pattern = WriteRows(design);
  EXPECT_THAT(pattern->rows[1].text, HasSubstr("(WS, B)"));
  EXPECT_THAT(pattern->rows[2].text, HasSubstr("(RS, A)"));
  EXPECT_THAT(pattern->notes, Contains(HasSubstr("with colour B ch 6")));
}

// 12 repeats of "8 plus 10" are 106, 9 of "12 plus 2" are 110 (the project's table of size
// arithmetic: two published multiples), and a chain has one more than the first row.
TEST(Writer, StatesTheMultipleAndTheFoundationChain) {
  struct Case {
    int unit, rest, repeats, stitches;
  };
  for (const Case& wanted : {Case{8, 10, 12, 106}, Case{12, 2, 9, 110}}) {
    Design design;
    design.convention = Convention::kWorking;
    design.cells = Grid(3, wanted.unit + wanted.rest);
    design.stitch_band = Band{2, 1 + wanted.unit};
    design.sizes = {{"one size", wanted.repeats, 1}};
    const auto pattern = WriteRows(design);
    ASSERT_TRUE(pattern.ok());
    EXPECT_THAT(pattern->rows[0].stitch_counts, ElementsAre(wanted.stitches));
    EXPECT_THAT(pattern->notes, Contains(fmt::format("Stitches: a multiple of {} plus {}.",
                                                     wanted.unit, wanted.rest)));
    EXPECT_THAT(
        pattern->notes,
        Contains(HasSubstr(fmt::format("colour A ch {} (1 more than", wanted.stitches + 1))));
  }
}

TEST(Writer, ListsTheAbbreviationsThatStandInTheTextAndNoOthers) {
  const auto plain = WriteRows(Working({".....", "....."}));
  EXPECT_THAT(plain->abbreviations,
              ElementsAre("BLO - back loop only", "ch - chain", "RS - right side",
                          "sc - single crochet", "sts - stitches", "WS - wrong side"));
  const auto spiked = WriteRows(Working({"..x..", ".....", "....."}));
  EXPECT_THAT(spiked->abbreviations, Contains("ssc - spike single crochet"));
  EXPECT_THAT(plain->special_stitches, Not(Contains(HasSubstr("ssc):"))));
  EXPECT_THAT(spiked->special_stitches, Contains(HasSubstr("ssc):")));
}

TEST(Writer, TellsHowARowStartsByTheTreatmentOfTheEnds) {
  Design design = Working({"..x..", ".....", "....."});
  EXPECT_THAT(WriteRows(design)->special_stitches, Contains(HasSubstr("standing sc")));
  design.ends = chart::Ends::kCarried;
  EXPECT_THAT(WriteRows(design)->special_stitches,
              Contains(HasSubstr("ch 1 (does not count as a st)")));
}

TEST(Writer, TellsTermsAndHand) {
  const Design design = Working({"..x..", ".....", "....."});
  EXPECT_THAT(WriteRows(design)->notes,
              Contains(HasSubstr("US single crochet (sc) is UK double crochet (dc)")));
  EXPECT_THAT(WriteRows(design)->notes,
              Contains(HasSubstr("If you are left-handed, the picture comes out mirrored")));
  EXPECT_THAT(WriteRows(design)->notes, Contains(HasSubstr("Read RS rows from right to left")));
  EXPECT_THAT(WriteRows(design, {.hand = Hand::kLeft})->notes,
              Contains(HasSubstr("Read RS rows from left to right")));
}

TEST(Writer, RefusesWhatItCannotWriteAndNamesIt) {
  Design design = Working({"..x..", ".....", "....."});
  EXPECT_EQ(WriteRows(design, {.nesting_depth = -1}).status().code(),
            absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(WriteRows(design, {.nesting_depth = kDeepestNesting + 1}).status().code(),
            absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(WriteRows(design, {.work_budget = 0}).status().code(),
            absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(WriteRows(Design{}).status().code(), absl::StatusCode::kInvalidArgument);
}

TEST(Writer, RefusesAPictureWhoseLastRowNoRowCovers) {
  Design design;
  design.cells = Cells({"..x..", "xxxxx", "....."});
  const auto refused = WriteRows(design);
  EXPECT_EQ(refused.status().code(), absl::StatusCode::kFailedPrecondition);
  ASSERT_EQ(DetailOf(refused.status()).conditions.size(), 1U);
  EXPECT_EQ(DetailOf(refused.status()).conditions[0].type, "UNCOVERED_TOP_ROW");
  EXPECT_EQ(DetailOf(refused.status()).conditions[0].subject, "cells, row 3, stitch 3");
  design.cells.set(3, 3, false);
  EXPECT_TRUE(WriteRows(design).ok());
}

TEST(Writer, RefusesADropInTheFirstRow) {
  const auto refused = WriteRows(Working({".....", ".x..."}));
  EXPECT_EQ(refused.status().code(), absl::StatusCode::kFailedPrecondition);
  ASSERT_EQ(DetailOf(refused.status()).conditions.size(), 1U);
  EXPECT_EQ(DetailOf(refused.status()).conditions[0].type, "DROP_IN_FIRST_ROW");
  EXPECT_EQ(DetailOf(refused.status()).conditions[0].subject, "cells, row 1, stitch 4");
}

TEST(Writer, WritesADraftThatCannotBeWorked) {
  // A drop over a drop: the findings are Check's to tell.
  EXPECT_EQ(Texts(Working({"..x..", "..x..", ".....", "....."})).back(),
            "Row 4 (WS, B): sc 2, ssc, sc 2. (5 sts)");
}

TEST(Writer, SaysWhenItsBudgetRanOut) {
  Design design = Working({"x.x.x.x.x.x.", "............", "............"});
  const auto enough = WriteRows(design);
  EXPECT_FALSE(enough->budget_ran_out);
  EXPECT_EQ(enough->rows[2].text, "Row 3 (RS, A): [sc, ssc] 6 times. (12 sts)");
  const auto cut = WriteRows(design, {.work_budget = 5});
  EXPECT_TRUE(cut->budget_ran_out);
  EXPECT_EQ(cut->rows[2].text,
            "Row 3 (RS, A): sc, ssc, sc, ssc, sc, ssc, sc, ssc, sc, ssc, sc, ssc. (12 sts)");
}

}  // namespace
}  // namespace rowproof::rows
