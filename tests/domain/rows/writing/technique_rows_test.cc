// What each technique's rows read, in both systems of terms and both repeat styles.
#include <string>

#include "gmock/gmock.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/rows/instructions.h"
#include "services/domain/rows/writing/writer.h"
#include "tests/domain/rows/chart_rows.h"

namespace rowproof::rows {
namespace {

using chart::Band;
using chart::Design;
using chart::Hand;
using chart::Technique;
using chart::Terms;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

Design Of(Technique technique, const std::vector<std::string>& top_first) {
  Design design = Working(top_first);
  design.technique = technique;
  if (technique == Technique::kInset) design.ends = chart::Ends::kWaiting;
  return design;
}

WriterSettings Asterisk() {
  WriterSettings settings;
  settings.style = RepeatStyle::kAsterisk;
  return settings;
}

WriterSettings Uk() {
  WriterSettings settings;
  settings.terms = Terms::kUk;
  return settings;
}

TEST(OverlayRows, AreAllOfTheRightSideWithMosaicDoubles) {
  EXPECT_THAT(Texts(Of(Technique::kOverlay, {"...x..", ".xx...", "......", "......"})),
              ElementsAre("Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (6 sts)",
                          "Row 2 (RS, B): sc 6. (6 sts)", "Row 3 (RS, A): sc 3, mdc 2, sc. (6 sts)",
                          "Row 4 (RS, B): sc 2, mdc, sc 3. (6 sts)"));
}

// Worked by hand from the rules: chart row 2 is off-colour at stitches 3 and 4, chart row 3 at 7;
// both worked rows of a chart row skip them, and the RS row two chart rows on fills them.
TEST(InsetRows, SkipInBothRowsOfAChartRowAndFillInTheNextRowOfTheOtherColour) {
  const Design design = Of(Technique::kInset, {".x.....", "...xx..", ".......", "......."});
  EXPECT_THAT(Texts(design),
              ElementsAre("Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (7 sts)",
                          "Row 2 (WS, A): sc 7. (7 sts)",
                          "Row 3 (RS, B): sc 2, ch 3, sk 2, sc 3. (5 sts, 1 ch-sp)",
                          "Row 4 (WS, B): sc 3, ch 3, sk ch-sp, sc 2. (5 sts, 1 ch-sp)",
                          "Row 5 (RS, A): sc 2, mdc 2, sc, ch 2, sk 1, sc. (6 sts, 1 ch-sp)",
                          "Row 6 (WS, A): sc, ch 2, sk ch-sp, sc 5. (6 sts, 1 ch-sp)",
                          "Row 7 (RS, B): sc 5, mdc, sc. (7 sts)", "Row 8 (WS, B): sc 7. (7 sts)"));
}

TEST(InsetRows, TurnRoundForTheLeftHand) {
  WriterSettings settings;
  settings.hand = Hand::kLeft;
  const auto texts =
      Texts(Of(Technique::kInset, {".......", "...xx..", ".......", "......."}), settings);
  EXPECT_EQ(texts[2], "Row 3 (RS, B): sc 3, ch 3, sk 2, sc 2. (5 sts, 1 ch-sp)");
  EXPECT_EQ(texts[3], "Row 4 (WS, B): sc 2, ch 3, sk ch-sp, sc 3. (5 sts, 1 ch-sp)");
}

TEST(InsetRows, CallADropOverADropASkip) {
  // A draft: chart rows 2 and 3 are both off-colour at stitch 3.
  const auto texts = Texts(Of(Technique::kInset, {"..x..", "..x..", ".....", "....."}));
  EXPECT_EQ(texts[2], "Row 3 (RS, B): sc 2, ch 2, sk 1, sc 2. (4 sts, 1 ch-sp)");
  EXPECT_EQ(texts[4], "Row 5 (RS, A): sc 2, ch 2, sk 1, sc 2. (4 sts, 1 ch-sp)");
  EXPECT_EQ(texts[6], "Row 7 (RS, B): sc 2, mdc, sc 2. (5 sts)");
}

TEST(InsetRows, ListASpaceThatGrowsWithTheBand) {
  Design design = Of(Technique::kInset, {".....", "..xx.", ".....", "....."});
  design.stitch_band = Band{2, 3};
  design.sizes = {{"S", 1, 1}, {"M", 2, 1}, {"L", 4, 1}};
  const auto texts = Texts(design);
  EXPECT_EQ(texts[2], "Row 3 (RS, B): sc, ch 3 (5, 9), sk 2 (4, 8), sc 2. (3 sts, 1 ch-sp)");
  EXPECT_EQ(texts[3], "Row 4 (WS, B): sc 2, ch 3 (5, 9), sk ch-sp, sc. (3 sts, 1 ch-sp)");
  EXPECT_EQ(texts[4], "Row 5 (RS, A): sc, mdc 2 (4, 8), sc 2. (5 (7, 11) sts)");
}

// The band's first and last stitch are skipped: their space runs over the join.
TEST(InsetRows, TurnABandSoThatNoChainSpaceIsCut) {
  Design design = Of(Technique::kInset, {"......", ".x..x.", "......", "......"});
  design.stitch_band = Band{2, 5};
  design.sizes = {{"S", 1, 1}, {"M", 2, 1}, {"L", 3, 1}};
  EXPECT_EQ(
      Texts(design)[2],
      "Row 3 (RS, B): sc, ch 2, sk 1, [sc 2, ch 3, sk 2] 0 (1, 2) times, sc 2, ch 2, sk 1, sc. "
      "(4 (6, 8) sts, 2 (3, 4) ch-sps)");
  // A size that leaves the group out cannot work it once and then again.
  EXPECT_THAT(Texts(design, Asterisk())[2], HasSubstr("[sc 2, ch 3, sk 2] 0 (1, 2) times"));
  design.sizes = {{"M", 3, 1}, {"L", 5, 1}};
  EXPECT_THAT(Texts(design, Asterisk())[2],
              HasSubstr("*sc 2, ch 3, sk 2; rep from * 1 (3) more times, sc 2"));
}

TEST(InsetRows, RepeatARowBandWithBothItsRows) {
  Design design = Of(Technique::kInset, {".....", "..x..", ".....", "..x..", ".....", "....."});
  design.row_band = Band{3, 4};
  design.sizes = {{"S", 1, 1}, {"M", 1, 3}};
  const auto texts = Texts(design);
  EXPECT_THAT(texts, Contains("Rows - (8-15): rep Rows 4-7 0 (2) times."));
  EXPECT_EQ(texts.back(), "Row 12 (20) (WS, B): sc 5. (5 sts)");
}

TEST(UkRows, NameEveryStitchByItsUkName) {
  EXPECT_EQ(Texts(Of(Technique::kSpike, {"..x..", ".....", "....."}), Uk())[2],
            "Row 3 (RS, A): dc 2, sdc, dc 2. (5 sts)");
  EXPECT_EQ(Texts(Of(Technique::kOverlay, {"..x..", ".....", "....."}), Uk())[2],
            "Row 3 (RS, A): dc 2, mtr, dc 2. (5 sts)");
  const auto inset = Texts(Of(Technique::kInset, {"..x..", ".....", "....."}), Uk());
  EXPECT_EQ(inset[0], "Row 1 (RS, A): dc in 2nd ch from hook and in each ch across. (5 sts)");
  EXPECT_EQ(inset[2], "Row 3 (RS, B): dc 2, ch 2, miss 1, dc 2. (4 sts, 1 ch-sp)");
  EXPECT_EQ(inset[3], "Row 4 (WS, B): dc 2, ch 2, miss ch-sp, dc 2. (4 sts, 1 ch-sp)");
}

// The example row of the project: an edge of 3, twelve times "ssc, sc 3", an edge of 2.
Design ExampleWithBand() {
  Design design = Working({".....x...", ".........", "........."});
  design.stitch_band = Band{4, 7};
  design.sizes = {{"one size", 12, 1}};
  return design;
}

TEST(AsteriskRows, NameTheStitchesThatAreLeft) {
  Design design = ExampleWithBand();
  EXPECT_EQ(Texts(design, Asterisk())[2],
            "Row 3 (RS, A): sc 3, *ssc, sc 3; rep from * to last 2 sts, sc 2. (53 sts)");
  design.sizes = {{"S", 1, 1}, {"M", 16, 1}};
  EXPECT_EQ(Texts(design, Asterisk())[2],
            "Row 3 (RS, A): sc 3, *ssc, sc 3; rep from * to last 2 sts, sc 2. (9 (69) sts)");
}

TEST(AsteriskRows, GoAcrossARowAndAroundARound) {
  Design design = Working({".x.x.x", "......", "......"});
  EXPECT_EQ(Texts(design, Asterisk())[2], "Row 3 (RS, A): *ssc, sc; rep from * across. (6 sts)");
  design.form = chart::Form::kTube;
  EXPECT_EQ(Texts(design, Asterisk())[2], "Rnd 3 (RS, A): *ssc, sc; rep from * around. (6 sts)");
}

TEST(AsteriskRows, CountTheRepeatsWhereChainSpacesLieBelow) {
  const std::string plain = "...........";
  const auto texts = Texts(Of(Technique::kInset, {plain, "...x.x.x...", plain, plain}), Asterisk());
  EXPECT_EQ(texts[2],
            "Row 3 (RS, B): sc 2, *sc, ch 2, sk 1; rep from * 2 more times, sc 3. (8 sts, 3 "
            "ch-sps)");
}

TEST(AsteriskRows, HaveOneAsteriskAndBracketsForAllOtherGroups) {
  const Design design =
      Working({"x.x.x....xx.xx.xx.xx", "....................", "...................."});
  const std::string text = Texts(design, Asterisk())[2];
  EXPECT_EQ(std::count(text.begin(), text.end(), '*'), 2) << text;  // and "rep from *"
  EXPECT_THAT(text, HasSubstr("["));
  EXPECT_THAT(text, HasSubstr("*ssc 2, sc; rep from * "));
}

TEST(NamedColours, StandInTheHeads) {
  WriterSettings settings;
  settings.colour_names = {"cream", "dark blue"};
  EXPECT_THAT(
      Texts(Working({"...", "..."}), settings),
      ElementsAre("Row 1 (RS, cream): sc in 2nd ch from hook and in each ch across. (3 sts)",
                  "Row 2 (WS, dark blue): sc 3. (3 sts)"));
  EXPECT_THAT(WriteRows(Working({"...", "..."}), settings)->notes,
              Contains(HasSubstr("Colours: A cream, B dark blue.")));
}

TEST(NamedColours, AreRefusedWhereAHeadCouldNotBeRead) {
  const Design design = Working({"...", "..."});
  for (const std::vector<std::string>& names :
       {std::vector<std::string>{"cream"},
        {"cream", ""},
        {"cream", "cream"},
        {"B", "A"},
        {"cream", "blue)"},
        {"cream", "blue, dark"},
        {"cream", " blue"},
        {"cream", "\xff"},
        {"cream", "bl\x01ue"},
        {"cream", std::string(kLongestColourName + 1, 'x')}}) {
    WriterSettings settings;
    settings.colour_names = names;
    const auto refused = WriteRows(design, settings);
    EXPECT_EQ(refused.status().code(), absl::StatusCode::kInvalidArgument) << names.back();
    ASSERT_EQ(DetailOf(refused.status()).fields.size(), 1U);
    EXPECT_THAT(DetailOf(refused.status()).fields[0].field, HasSubstr("settings.colour_names"));
  }
  WriterSettings settings;
  settings.colour_names = {"cr\xc3\xa8me", "d'or"};
  EXPECT_TRUE(WriteRows(design, settings).ok());
}

TEST(ManyColours, AreCalledByTheirLetters) {
  Design design;
  design.cells = chart::Grid(4, 3);
  design.row_colours = {chart::Colour::kA, chart::Colour::kC, chart::Colour::kB, chart::Colour::kE};
  for (const chart::Colour own : design.row_colours) {
    design.picture_colours.insert(design.picture_colours.end(), 3, own);
  }
  // Row 2, which is C, shows B at stitch 2: row 3 covers it.
  design.cells.set(2, 2, true);
  design.picture_colours[4] = chart::Colour::kB;
  EXPECT_THAT(Texts(design),
              ElementsAre("Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (3 sts)",
                          "Row 2 (WS, C): sc 3. (3 sts)", "Row 3 (RS, B): sc, ssc, sc. (3 sts)",
                          "Row 4 (WS, E): sc 3. (3 sts)"));
  EXPECT_THAT(WriteRows(design)->notes, Contains(HasSubstr("Colours: A, B, C, E.")));
  // A mark in the last row is refused whatever colour it names.
  design.cells.set(4, 2, true);
  design.picture_colours[10] = chart::Colour::kA;
  EXPECT_EQ(WriteRows(design).status().code(), absl::StatusCode::kFailedPrecondition);
}

TEST(WorkedFoundation, IsRowZeroAndRowOneStandsOnIt) {
  Design design = Working({"..x..", ".....", "....."});
  design.foundation_colour = chart::Colour::kB;
  const auto pattern = WriteRows(design);
  EXPECT_EQ(pattern->rows[0].text, "Row 1 (RS, A): sc 5. (5 sts)");
  EXPECT_THAT(pattern->notes,
              Contains("Foundation: with colour B ch 6; then sc in 2nd ch from hook and in each ch "
                       "across (5 sts). This is row 0."));
  design.form = chart::Form::kTube;
  EXPECT_THAT(WriteRows(design)->notes,
              Contains("Foundation: with colour B ch 5 and join into a ring with a sl st; then sc "
                       "in each ch around (5 sts). This is round 0."));
}

}  // namespace
}  // namespace rowproof::rows
