// What stands around the rows, in every technique.
#include "services/domain/rows/writing/pattern_words.h"

#include <algorithm>
#include <string>

#include "gmock/gmock.h"
#include "tests/domain/rows/chart_rows.h"

namespace rowproof::rows {
namespace {

using chart::Design;
using chart::Ends;
using chart::Facing;
using chart::Form;
using chart::Technique;
using testing::Contains;
using testing::Each;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

Design Example(Technique technique) {
  Design design = Working({".....", "..x..", ".....", "....."});
  design.technique = technique;
  if (technique == Technique::kInset) design.ends = Ends::kWaiting;
  return design;
}

WriterSettings In(chart::Terms terms) {
  WriterSettings settings;
  settings.terms = terms;
  return settings;
}

TEST(PatternWords, ListExactlyTheAbbreviationsOfEachTechniqueInUsTerms) {
  EXPECT_THAT(
      WriteRows(Example(Technique::kSpike))->abbreviations,
      ElementsAre("BLO - back loop only", "ch - chain", "RS - right side", "sc - single crochet",
                  "ssc - spike single crochet", "sts - stitches", "WS - wrong side"));
  EXPECT_THAT(WriteRows(Example(Technique::kOverlay))->abbreviations,
              ElementsAre("BLO - back loop only", "ch - chain", "FLO - front loop only",
                          "mdc - mosaic double crochet", "RS - right side", "sc - single crochet",
                          "sts - stitches"));
  EXPECT_THAT(WriteRows(Example(Technique::kInset))->abbreviations,
              ElementsAre("ch - chain", "ch-sp - chain space", "mdc - mosaic double crochet",
                          "RS - right side", "sc - single crochet", "sk - skip", "sts - stitches",
                          "WS - wrong side"));
}

// Craft Yarn Council, US and UK terms: sc -> dc, dc -> tr, sl st -> ss, sk -> miss, gauge ->
// tension.
TEST(PatternWords, UseNoUsWordInUkTerms) {
  for (const auto technique : {Technique::kSpike, Technique::kOverlay, Technique::kInset}) {
    for (const auto form : {Form::kFlat, Form::kTube}) {
      Design design = Example(technique);
      if (technique == Technique::kInset && form == Form::kTube) continue;
      design.form = form;
      const auto pattern = WriteRows(design, In(chart::Terms::kUk));
      ASSERT_TRUE(pattern.ok());
      std::vector<std::string> texts = pattern->special_stitches;
      texts.insert(texts.end(), pattern->notes.begin() + 1, pattern->notes.end());
      texts.insert(texts.end(), pattern->abbreviations.begin(), pattern->abbreviations.end());
      for (const char* word :
           {"single crochet", "sc ", "ssc", "mdc", "sl st", " sk", "skip", "gauge", "Gauge"}) {
        EXPECT_THAT(texts, Each(Not(HasSubstr(word))));
      }
      EXPECT_THAT(pattern->abbreviations, Contains("dc - double crochet"));
      EXPECT_THAT(texts, Contains(HasSubstr("Tension: ")));
      EXPECT_THAT(pattern->notes[0], HasSubstr("Terms: UK."));
      EXPECT_EQ(std::count(texts.begin(), texts.end(), "ss - slip stitch"),
                form == Form::kTube ? 1 : 0);
    }
  }
  EXPECT_THAT(WriteRows(Example(Technique::kOverlay), In(chart::Terms::kUk))->special_stitches[0],
              HasSubstr("Mosaic treble (mtr): work a treble in FLO of the stitch straight below"));
  EXPECT_THAT(WriteRows(Example(Technique::kInset), In(chart::Terms::kUk))->special_stitches,
              Contains(HasSubstr("into the missed stitch straight below, three rows down")));
}

TEST(PatternWords, SayWhichLoopsAPlainStitchTakes) {
  EXPECT_THAT(WriteRows(Example(Technique::kSpike))->special_stitches,
              Contains(HasSubstr("Plain sc: in BLO")));
  EXPECT_THAT(WriteRows(Example(Technique::kOverlay))->special_stitches,
              Contains(HasSubstr("The first and the last sc of every row go under both loops.")));
  EXPECT_THAT(WriteRows(Example(Technique::kInset))->special_stitches,
              Contains(HasSubstr("Plain sc: under both loops.")));
  // A tube has no edges.
  Design tube = Example(Technique::kOverlay);
  tube.form = Form::kTube;
  EXPECT_THAT(WriteRows(tube)->special_stitches, Each(Not(HasSubstr("The first and the last sc"))));
}

TEST(PatternWords, ExplainChainSpacesOnlyWhereTheyAreUsed) {
  EXPECT_THAT(WriteRows(Example(Technique::kInset))->special_stitches,
              Contains(HasSubstr("Chain space: ch 3, sk 2")));
  Design plain = Example(Technique::kInset);
  plain.cells = chart::Grid(4, 5);
  const auto pattern = WriteRows(plain);
  EXPECT_THAT(pattern->special_stitches, Each(Not(HasSubstr("Chain space:"))));
  EXPECT_THAT(pattern->special_stitches, Each(Not(HasSubstr("mdc"))));
  EXPECT_THAT(pattern->abbreviations, Each(Not(HasSubstr("mdc"))));
}

TEST(PatternWords, TellHowRowsStartAndWhatRsMeans) {
  struct Case {
    Technique technique;
    Facing facing;
    Ends ends;
    Form form;
    const char* start;
    const char* sides;
  };
  for (const Case& wanted :
       {Case{Technique::kSpike, Facing::kOneFace, Ends::kCut, Form::kFlat,
             "work a standing sc, or a standing ssc where the row begins with ssc",
             "the work is not turned, and every row starts at the same edge"},
        Case{Technique::kSpike, Facing::kTwoFace, Ends::kCarried, Form::kFlat,
             "Lay the resting colour along the row", "RS: the side on which colour A leads"},
        Case{Technique::kSpike, Facing::kPaired, Ends::kWaiting, Form::kFlat,
             "take up the loop of the row's colour", "Turn after every second row"},
        Case{Technique::kSpike, Facing::kTwoFace, Ends::kWaiting, Form::kTube,
             "the resting yarn waits at the join", "RS: the outside of the tube"},
        Case{Technique::kOverlay, Facing::kTwoFace, Ends::kCut, Form::kFlat,
             "work a standing sc; it is the row's first stitch", "the work is not turned"},
        Case{Technique::kInset, Facing::kOneFace, Ends::kWaiting, Form::kFlat,
             "each row begins with ch 1, turn",
             "RS: the face of the chart. Turn after every row"}}) {
    Design design = Example(wanted.technique);
    design.facing = wanted.facing;
    design.ends = wanted.ends;
    design.form = wanted.form;
    const auto pattern = WriteRows(design);
    EXPECT_THAT(pattern->special_stitches, Contains(HasSubstr(wanted.start)));
    EXPECT_THAT(pattern->special_stitches, Contains(HasSubstr(wanted.sides)));
  }
}

TEST(PatternWords, NameTheColourThatLeadsOnTheRightSide) {
  Design design = Example(Technique::kSpike);
  design.row_colours = {chart::Colour::kB, chart::Colour::kA, chart::Colour::kB, chart::Colour::kA};
  EXPECT_THAT(WriteRows(design)->special_stitches,
              Contains(HasSubstr("the side on which colour B leads")));
  // No colour has all the rows of a side to itself.
  design.row_colours = {chart::Colour::kA, chart::Colour::kA, chart::Colour::kB, chart::Colour::kA};
  EXPECT_THAT(WriteRows(design)->special_stitches,
              Contains(HasSubstr("RS: the face of the chart. Turn after every row")));
}

TEST(PatternWords, TellWhichWorkedRowsAChartRowOfInsetIs) {
  EXPECT_THAT(WriteRows(Example(Technique::kInset))->notes,
              Contains(HasSubstr("read from right to left it is a RS row, and the WS row goes back "
                                 "over it from left to right. So chart row 1 is rows 1 and 2.")));
}

TEST(PatternWords, ExplainTheMarksThatTheRowsUse) {
  Design design = Working({"x.x.x.", "......", "......"});
  WriterSettings settings;
  EXPECT_THAT(WriteRows(design)->notes, Contains(HasSubstr("[ ]: ")));
  EXPECT_THAT(WriteRows(design)->notes, Each(Not(HasSubstr("*"))));
  settings.style = RepeatStyle::kAsterisk;
  EXPECT_THAT(WriteRows(design, settings)->notes, Contains(HasSubstr("*: ")));
  EXPECT_THAT(WriteRows(design, settings)->notes, Each(Not(HasSubstr("["))));
}

}  // namespace
}  // namespace rowproof::rows
