// The rules of overlay, inset and tubes, of many colours and of a worked foundation, on charts
// drawn by hand.
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/chart/technique.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/told_findings.h"

namespace rowproof::chart {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

Design Overlay(const std::vector<std::string>& lines) {
  Design design = Working(lines);
  design.technique = Technique::kOverlay;
  design.ends = Ends::kCut;
  return design;
}
Design Inset(Design design) {
  design.technique = Technique::kInset;
  design.ends = Ends::kWaiting;
  return design;
}
Design Tube(Design design) {
  design.form = Form::kTube;
  design.ends = Ends::kWaiting;
  return design;
}

std::string FirstSentence(const Design& design) {
  return Sentence(Check(design).findings.front(), design);
}

TEST(Overlay, KnowsTheRulesOfAllTechniques) {
  EXPECT_THAT(Told(Overlay({"...", ".x.", "...", "..."})), IsEmpty());
  EXPECT_THAT(Told(Overlay({"...", ".x.", ".x.", "..."})),
              ElementsAre("error no-anchor 2,2", "error drop-over-drop 3,2"));
}

TEST(Overlay, RefusesEveryDropInAnEdgeStitch) {
  const Design design = Overlay({"x..", "...", "x.x", "...", "..."});
  EXPECT_THAT(Told(design),
              ElementsAre("error edge-drop 3,1", "error edge-drop 3,3", "error edge-drop 5,3"));
  EXPECT_EQ(FirstSentence(design),
            "Row 3, stitch 1: an edge stitch of overlay work is always plain; remove the drop.");
}

TEST(Overlay, NotesARunOfMoreThanEightDrops) {
  EXPECT_THAT(Told(Overlay({".xxxxxxxx.", "..........", ".........."})), IsEmpty());
  const Design design = Overlay({".xxxxxxxxx.", "...........", "..........."});
  EXPECT_THAT(Told(design), ElementsAre("note loose-flap 3,2-10"));
  EXPECT_THAT(FirstSentence(design), HasSubstr("leave a loose flap behind them"));
  EXPECT_THAT(Told(design, {.longest_flap = 9}), IsEmpty());
}

TEST(Inset, KnowsTheRulesOfAllTechniques) {
  EXPECT_THAT(Told(Inset(Working({"...", ".x.", "...", "..."}))), IsEmpty());
  EXPECT_THAT(Told(Inset(Picture({"BAB", "AAA", "BBB", "ABA"}))),
              ElementsAre("error no-anchor 1,2", "error uncovered-top-row 4,2"));
}

TEST(Inset, RefusesASkipInAnEdgeStitchAndNamesTheWorkedRows) {
  const Design design = Inset(Picture({"BBB", "AAA", "ABB", "AAA"}));
  EXPECT_THAT(Told(design), ElementsAre("error edge-skip 2,3"));
  EXPECT_EQ(FirstSentence(design),
            "Chart row 2 (rows 3 and 4), stitch 3: an edge stitch of inset work is never skipped; "
            "remove the drop.");
}

TEST(Inset, NamesTheWorkedRowsAsTheWrittenRowsCountThem) {
  Design design = Inset(Picture({"BBB", "AAA", "ABB", "AAA"}));
  design.first_row_number = 2;
  EXPECT_THAT(FirstSentence(design), HasSubstr("Chart row 2 (rows 4 and 5), stitch 3"));
}

TEST(Inset, WarnsOfMoreThanThreeSkippedStitchesInARun) {
  EXPECT_THAT(Told(Inset(Working({".xxx.", ".....", "....."}))), IsEmpty());
  const Design design = Inset(Working({".xxxx.", "......", "......"}));
  EXPECT_THAT(Told(design), ElementsAre("warning long-skip 3,2-5"));
  EXPECT_THAT(FirstSentence(design), HasSubstr("skipped stitches gape"));
  EXPECT_THAT(Told(design, {.longest_skip = 4}), IsEmpty());
}

TEST(Inset, CountsAnOddRepeatInChartRows) {
  Design design = Inset(Working({"...", "...", "...", "..."}));
  design.row_band = Band{1, 3};
  EXPECT_THAT(Told(design), ElementsAre("error odd-row-repeat 1,0"));
  EXPECT_THAT(FirstSentence(design), HasSubstr("has 3 chart rows; make the number even"));
  design.row_band = Band{2, 3};
  EXPECT_THAT(Told(design), IsEmpty());
}

TEST(Tube, HasNoEdges) {
  EXPECT_THAT(Told(Tube(Overlay({"...", "x.x", "...", "..."}))), IsEmpty());
  EXPECT_THAT(Told(Tube(Working({"...", "x..", "...", "..."}))), IsEmpty());
}

TEST(Tube, FollowsARunAcrossItsJoin) {
  const Design design = Tube(Overlay({"xxxxx..xxxx", "...........", "..........."}));
  EXPECT_THAT(Told(design), ElementsAre("note loose-flap 3,7-4 join"));
  EXPECT_THAT(FirstSentence(design), HasSubstr("(across the join)"));
}

TEST(Tube, FollowsARunThroughARepeatedBandToItsJoin) {
  Design design = Tube(Overlay({"xx.x", "....", "...."}));
  design.stitch_band = Band{3, 3};  // the run of stitches 3, 4 and 1 grows with the repeats
  design.sizes = {{"S", 1, 1}, {"L", 7, 1}};
  EXPECT_THAT(Told(design), ElementsAre("note loose-flap 3,3-1 join from size 1 in 1"));
}

TEST(Tube, HasNoSidesToChange) {
  Design design = Tube(Working({"...", "...", "...", "..."}));
  design.facing = Facing::kPaired;
  design.row_band = Band{1, 2};
  EXPECT_THAT(Told(design), IsEmpty());
}

// Rows in order of the colours' letters, bottom first.
Design WithOrder(Design design, const std::string& order) {
  design.row_colours.clear();
  for (const char letter : order) design.row_colours.push_back(static_cast<Colour>(letter - 'A'));
  return design;
}

// A picture that names its cells' colours, top row first.
Design Named(const std::vector<std::string>& lines, const std::string& order) {
  Design design = WithOrder(Picture(lines), order);
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const std::string& line = lines[lines.size() - static_cast<size_t>(row)];
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      const char letter = line[line.size() - static_cast<size_t>(stitch)];
      design.picture_colours.push_back(static_cast<Colour>(letter - 'A'));
      design.cells.set(row, stitch, design.picture_colours.back() != RowColour(design, row));
    }
  }
  EXPECT_TRUE(Validate(design).ok()) << Validate(design);
  return design;
}

TEST(ManyColours, MayStandInAnyOrderWithCutEnds) {
  EXPECT_THAT(Told(WithOrder(Working({"...", "...", "...", "..."}), "ABCC")), IsEmpty());
  EXPECT_THAT(Told(WithOrder(Working({"...", "...", "...", "..."}), "ABBA")),
              ElementsAre("warning colour-order 3,0"));
}

TEST(ManyColours, AreTooManyWhereTwoMustAlternate) {
  Design design = WithOrder(Working({"...", "...", "...", "..."}), "ABCC");
  design.ends = Ends::kCarried;
  EXPECT_THAT(Told(design), ElementsAre("error too-many-colours 3,0", "error colour-order 4,0"));
  EXPECT_EQ(FirstSentence(design),
            "Row 3: this row brings in a third colour; with carried ends, two colours must "
            "alternate row by row.");
  design.ends = Ends::kWaiting;
  design.facing = Facing::kPaired;
  EXPECT_EQ(Told(design).front(), "error too-many-colours 3,0");
}

TEST(ManyColours, ShowTheRowAboveOrTheirOwn) {
  EXPECT_THAT(Told(Named({"CCC", "ACA", "BAB", "AAA", "CCC"}, "CABAC")),
              ElementsAre("error drop-over-drop 4,2", "warning foreign-anchor 4,2"));
}

TEST(ManyColours, OfACellThatNeitherRowHasAreForeign) {
  const Design design = Named({"AAA", "CCC", "BAB", "AAA"}, "ABCA");
  EXPECT_THAT(Told(design), ElementsAre("error foreign-colour 2,2", "warning foreign-anchor 2,2"));
  EXPECT_THAT(FirstSentence(design),
              HasSubstr("only the colour of this row or of the row above can show here"));
}

TEST(ManyColours, AreLookedAtAcrossTheSeamInEverySize) {
  // Row 3 shows C of row 4, but stands under row 2 (B) where the band of rows 2 and 3 repeats.
  Design design = Named({"CCC", "ACA", "BBB", "AAA"}, "ABAC");
  design.row_band = Band{2, 3};
  design.sizes = {{"S", 1, 1}, {"M", 1, 2}, {"L", 1, 9}};
  EXPECT_THAT(Told(design), ElementsAre("error foreign-colour 3,2 row seam from size 1 in 2",
                                        "warning foreign-anchor 3,2"));
}

TEST(Foundation, OfWorkedStitchesInRowTwosColourIsAnAnchorForRowTwo) {
  Design design = Working({"...", ".x.", "..."});
  EXPECT_THAT(Told(design), ElementsAre("error no-anchor 2,2"));
  design.foundation_colour = Colour::kA;
  EXPECT_THAT(Told(design), ElementsAre("error no-anchor 2,2"));
  design.foundation_colour = Colour::kB;
  EXPECT_THAT(Told(design), IsEmpty());
  EXPECT_THAT(Told(WithOrder(design, "BAB")), ElementsAre("error no-anchor 2,2"));
  design.cells = FromText({"...", "...", ".x."});
  EXPECT_THAT(Told(design), ElementsAre("error no-anchor 1,2"));
}

TEST(Foundation, LetsAPictureBeOffColourInItsFirstRow) {
  Design design = Picture({"AAA", "BBB", "ABA"});
  design.foundation_colour = Colour::kB;
  EXPECT_THAT(Told(design), IsEmpty());
}

// A repeat whose last picture row is off-colour, in three sizes: row 5 is covered by row 2 of the
// next repetition, and by row 6 after the last one.
TEST(Repeat, WhoseLastPictureRowIsOffColourFitsInThreeSizesOfEveryTechnique) {
  for (const Technique technique : {Technique::kSpike, Technique::kOverlay, Technique::kInset}) {
    Design design = Picture({"BBB", "ABA", "BBB", "AAA", "BBB", "AAA"});
    design.technique = technique;
    design.ends = technique == Technique::kInset ? Ends::kWaiting : Ends::kCut;
    design.row_band = Band{2, 5};
    design.sizes = {{"S", 1, 1}, {"M", 1, 2}, {"L", 1, 40}};
    EXPECT_THAT(Told(design), IsEmpty());
    // With row 2 off-colour there too, it does not: only where the band is repeated.
    design.cells.set(2, 2, false);
    EXPECT_THAT(Told(design), ElementsAre("error drop-over-drop 2,2 row seam from size 1 in 2"));
  }
}

TEST(Techniques, SayWhatTheirStitchesAreCalledInBothTerms) {
  const auto words = [](Technique technique, Terms terms) {
    const TechniqueFacts& facts = FactsOf(technique);
    return std::string(Abbreviation(facts.plain, terms)) + " " + Abbreviation(facts.drop, terms);
  };
  EXPECT_EQ(words(Technique::kSpike, Terms::kUs), "sc ssc");
  EXPECT_EQ(words(Technique::kSpike, Terms::kUk), "dc sdc");
  EXPECT_EQ(words(Technique::kOverlay, Terms::kUs), "sc mdc");
  EXPECT_EQ(words(Technique::kOverlay, Terms::kUk), "dc mtr");
  EXPECT_EQ(words(Technique::kInset, Terms::kUs), "sc mdc");
  EXPECT_EQ(words(Technique::kInset, Terms::kUk), "dc mtr");
  EXPECT_EQ(FactsOf(FactsOf(Technique::kOverlay).drop).path.up, 6);
  EXPECT_EQ(FactsOf(FactsOf(Technique::kInset).drop).path.up, 9);
}

}  // namespace
}  // namespace rowproof::chart
