// Each workability rule on charts drawn by hand.
#include "services/domain/chart/check/findings.h"

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/sentences.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/told_findings.h"

namespace rowproof::chart {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

Design Sized(Design design, std::optional<Band> row_band, std::vector<Size> sizes) {
  design.row_band = row_band;
  design.sizes = std::move(sizes);
  return design;
}

TEST(Spike, FindsNothingInPlainStripes) {
  EXPECT_THAT(Told(Picture({"BBB", "AAA", "BBB", "AAA"})), IsEmpty());
  EXPECT_THAT(Told(Working({"...", "...", "...", "..."})), IsEmpty());
}

TEST(Spike, AllowsAVerticalLineOfDropsInEverySecondRow) {
  // Off-colour in rows 2 and 4 of stitch 2: a line of A.
  EXPECT_THAT(Told(Picture({"AAA", "BAB", "AAA", "BAB", "AAA"})), IsEmpty());
  EXPECT_THAT(Told(Working({".x.", "...", ".x.", "...", "..."})), IsEmpty());
}

TEST(Spike, RefusesADropInTheFirstTwoRows) {
  EXPECT_THAT(Told(Working({"...", ".x.", "..."})), ElementsAre("error no-anchor 2,2"));
  EXPECT_THAT(Told(Working({"...", "...", ".x."})), ElementsAre("error no-anchor 1,2"));
}

TEST(Spike, RefusesAnOffColourCellInAPicturesFirstRow) {
  EXPECT_THAT(Told(Picture({"BBB", "AAA", "BBB", "ABA"})), ElementsAre("error no-anchor 1,2"));
}

TEST(Spike, RefusesADropDirectlyAboveADrop) {
  EXPECT_THAT(Told(Working({".x.", ".x.", "...", "..."})), ElementsAre("error drop-over-drop 4,2"));
  EXPECT_THAT(Told(Picture({"BBB", "ABA", "BAB", "AAA"})), ElementsAre("error drop-over-drop 3,2"));
}

TEST(Spike, RefusesAnOffColourCellInAPicturesLastRow) {
  EXPECT_THAT(Told(Picture({"BAB", "AAA", "BBB", "AAA"})),
              ElementsAre("error uncovered-top-row 4,2"));
}

TEST(Spike, AllowsDropsInAWorkingChartsLastRow) {
  EXPECT_THAT(Told(Working({".x.", "...", "...", "..."})), IsEmpty());
}

TEST(Seams, RefuseARepeatWhoseLastPictureRowIsOffColourInThreeSizes) {
  // Rows 2 to 5 repeat; rows 2 and 5 are both off-colour at stitch 2, and row 2 stands on row 5
  // wherever the band is worked more than once.
  const Design design = Sized(Picture({"BBB", "ABA", "BBB", "AAA", "BAB", "AAA"}), Band{2, 5},
                              {{"S", 1, 1}, {"M", 1, 2}, {"L", 1, 40}});
  EXPECT_THAT(Told(design), ElementsAre("error drop-over-drop 2,2 row seam from size 1 in 2"));
  const Finding finding = Check(design).findings.front();
  EXPECT_THAT(Sentence(finding, design),
              HasSubstr("rows 2 to 5 meets itself: row 2 follows row 5"));
  EXPECT_THAT(Sentence(finding, design), HasSubstr("in 2 of 3 sizes, first in size M"));
}

TEST(Seams, AllowARepeatWhoseLastPictureRowAloneIsOffColour) {
  EXPECT_THAT(Told(Sized(Picture({"BBB", "ABA", "BBB", "AAA", "BBB", "AAA"}), Band{2, 5},
                         {{"S", 1, 1}, {"M", 1, 2}, {"L", 1, 40}})),
              IsEmpty());
}

TEST(Seams, RefuseALastRowOffColourAlsoWhereEarlierRepetitionsCoverIt) {
  EXPECT_THAT(Told(Sized(Picture({"BAB", "AAA", "BBB", "AAA"}), Band{3, 4}, {{"L", 1, 3}})),
              ElementsAre("error uncovered-top-row 4,2"));
}

TEST(Seams, AreOneRowApartInTheTwoConventions) {
  // The drop of row 3 is the off-colour cell of row 2: the working band stands one row higher.
  const Design working =
      Sized(Working({"...", ".x.", "...", "...", ".x.", "...", "..."}), Band{3, 6}, {{"L", 1, 2}});
  EXPECT_THAT(Told(working), ElementsAre("error drop-over-drop 3,2 row seam"));
}

TEST(ColourOrder, WarnsOfAForeignAnchorAndOfAPointlessDrop) {
  Design design = Working({".x.", "...", "...", "..."});
  design.row_colours = {Colour::kA, Colour::kA, Colour::kB, Colour::kB};
  EXPECT_THAT(Told(design),
              ElementsAre("warning colour-order 2,0", "warning colour-order 4,0",
                          "warning foreign-anchor 4,2", "warning pointless-drop 4,2"));
}

TEST(ColourOrder, IsAnErrorForCarriedEnds) {
  Design design = Working({"...", "...", "..."});
  design.ends = Ends::kCarried;
  design.row_colours = {Colour::kB, Colour::kA, Colour::kA};
  EXPECT_THAT(Told(design), ElementsAre("error colour-order 3,0"));
  design.row_colours = {Colour::kB, Colour::kA, Colour::kB};
  EXPECT_THAT(Told(design), IsEmpty());
}

TEST(ColourOrder, IsLookedAtAcrossTheSeamOfAnExplicitOrder) {
  Design design =
      Sized(Working({"...", "...", "...", "..."}), Band{2, 4}, {{"S", 1, 1}, {"M", 1, 2}});
  design.row_colours = {Colour::kA, Colour::kB, Colour::kA, Colour::kB};
  EXPECT_THAT(Told(design), ElementsAre("warning colour-order 2,0 row seam from size 1 in 1",
                                        "warning facing-repeat 2,0"));
}

TEST(Edges, MayHoldAColumnOfDropsInOneColoursRows) {
  EXPECT_THAT(Told(Working({"...", "x..", "...", "x..", "...", "..."})), IsEmpty());
  EXPECT_THAT(Told(Working({"x.x", "...", "x.x", "...", "..."})), IsEmpty());
}

TEST(Edges, WarnOfALoneDropAndOfAMissingOne) {
  EXPECT_THAT(Told(Working({"...", "...", "...", "..x", "...", "..."})),
              ElementsAre("warning edge-drop 3,1"));
  EXPECT_THAT(Told(Working({"x..", "...", "...", "...", "x..", "...", "x..", "...", "..."})),
              ElementsAre("warning edge-drop 7,3"));
}

TEST(Edges, DoNotExistInATube) {
  Design design = Working({"...", "...", "...", "..x", "...", "..."});
  design.form = Form::kTube;
  design.ends = Ends::kWaiting;
  EXPECT_THAT(Told(design), IsEmpty());
}

TEST(CarriedStrand, IsLooseUnderMoreThanFiveDropsInARow) {
  Design design = Working({".xxxxx.", ".......", "......."});
  design.ends = Ends::kCarried;
  EXPECT_THAT(Told(design), IsEmpty());
  design.cells = FromText({".xxxxxx.", "........", "........"});
  EXPECT_THAT(Told(design), ElementsAre("warning loose-strand 3,2-7"));
  design.ends = Ends::kCut;
  EXPECT_THAT(Told(design), IsEmpty());
}

TEST(CarriedStrand, IsFollowedAcrossTheStitchSeam) {
  Design design = Working({".xxx..xxx.", "..........", ".........."});
  design.ends = Ends::kCarried;
  design.stitch_band = Band{2, 9};
  design.sizes = {{"S", 1, 1}, {"M", 2, 1}, {"L", 300, 1}};
  EXPECT_THAT(Told(design), ElementsAre("warning loose-strand 3,7-4 stitch seam from size 1 in 2"));
}

TEST(CarriedStrand, GrowsWithTheRepeatsWhereDropsFillTheBand) {
  Design design = Working({".xxx.", ".....", "....."});
  design.ends = Ends::kCarried;
  design.stitch_band = Band{3, 3};
  design.sizes = {{"S", 1, 1}, {"M", 3, 1}, {"L", 4, 1}, {"XL", 900, 1}};
  EXPECT_THAT(Told(design), ElementsAre("warning loose-strand 3,2-4 stitch seam from size 2 in 2"));
}

TEST(RowRepeat, OfAnOddNumberOfRowsIsRefusedOnce) {
  const Design design = Sized(Picture({"BBB", "AAA", "BBB", "AAA"}), Band{1, 3}, {{"M", 1, 2}});
  EXPECT_THAT(Told(design), ElementsAre("error odd-row-repeat 1,0"));
}

TEST(RowRepeat, OfTwoRowsInPairedFacingChangesTheSides) {
  Design design = Sized(Picture({"BBB", "AAA", "BBB", "AAA"}), Band{1, 2}, {{"M", 1, 2}});
  design.facing = Facing::kPaired;
  design.ends = Ends::kWaiting;
  EXPECT_THAT(Told(design), ElementsAre("warning facing-repeat 1,0"));
  design.row_band = Band{1, 4};
  EXPECT_THAT(Told(design), IsEmpty());
}

TEST(Findings, AreCountedInFullAndReturnedUpToTheLimit) {
  Design design;
  design.convention = Convention::kWorking;
  design.form = Form::kTube;
  design.cells = Grid(30, 100);
  for (int row = 1; row <= 30; ++row) {
    for (int stitch = 1; stitch <= 100; ++stitch) design.cells.set(row, stitch, true);
  }
  const CheckResult result = Check(design);
  EXPECT_EQ(result.error_count, 200 + 29 * 100);
  EXPECT_EQ(result.count(FindingCode::kNoAnchor), 200);
  EXPECT_EQ(result.count(FindingCode::kDropOverDrop), 29 * 100);
  EXPECT_EQ(result.count(FindingCode::kEndsCouldWait), 1);
  EXPECT_EQ(result.count(FindingCode::kEdgeDrop), 0);
  EXPECT_EQ(result.findings.size(), static_cast<size_t>(kMostFindings));
  EXPECT_EQ(result.findings.back().row, 9);  // 100 in row 1, 200 in row 2, then 100 a row
}

TEST(Sentences, NameRowStitchAndWhatIsWrong) {
  const Design picture = Picture({"BBB", "ABA", "BAB", "AAA"});
  EXPECT_EQ(
      Sentence(Check(picture).findings.front(), picture),
      "Row 3, stitch 2: this cell and the one below both need a drop, but a drop cannot be worked "
      "above a drop; give one of them its row's colour.");
  Design one_face = Picture({"BBB", "AAA"});
  one_face.facing = Facing::kOneFace;
  one_face.ends = Ends::kCarried;
  EXPECT_EQ(
      Sentence(Check(one_face).findings.front(), one_face),
      "Carried ends do not suit flat one-face work: every row ends at the far edge from where its "
      "colour is needed next; cut the ends.");
}

TEST(Codes, HaveNamesThatAreReadBack) {
  for (int i = 0; i < static_cast<int>(kFindingCodes); ++i) {
    const auto code = static_cast<FindingCode>(i);
    ASSERT_NE(CodeName(code), nullptr);
    FindingCode read =
        code == FindingCode::kNoAnchor ? FindingCode::kEdgeDrop : FindingCode::kNoAnchor;
    EXPECT_TRUE(ParseCode(CodeName(code), &read));
    EXPECT_EQ(read, code);
  }
  FindingCode untouched = FindingCode::kEdgeDrop;
  EXPECT_FALSE(ParseCode("no-such-code", &untouched));
  EXPECT_EQ(untouched, FindingCode::kEdgeDrop);
  EXPECT_EQ(CodeName(static_cast<FindingCode>(200)), nullptr);
}

}  // namespace
}  // namespace rowproof::chart
