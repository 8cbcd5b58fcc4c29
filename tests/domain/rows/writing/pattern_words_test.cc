// What stands around the rows, in every technique.
#include <algorithm>
#include <string>

#include "gmock/gmock.h"
#include "services/domain/rows/writing/notes.h"
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
                          "RS - right side", "sc - single crochet", "sk - skip", "st - stitch",
                          "sts - stitches", "WS - wrong side"));
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
              HasSubstr("Mosaic treble (mtr): work a treble in FLO of the stitch two rows below"));
  EXPECT_THAT(WriteRows(Example(Technique::kInset), In(chart::Terms::kUk))->special_stitches,
              Contains(HasSubstr("under both loops of the missed stitch three rows below")));
}

TEST(PatternWords, SayWhichLoopsAPlainStitchTakes) {
  EXPECT_THAT(WriteRows(Example(Technique::kSpike))->special_stitches,
              Contains(HasSubstr("Plain sc: work in BLO")));
  EXPECT_THAT(WriteRows(Example(Technique::kOverlay))->special_stitches,
              Contains(HasSubstr("Work the first and last sc of every row under both loops.")));
  EXPECT_THAT(WriteRows(Example(Technique::kInset))->special_stitches,
              Contains(HasSubstr("Plain sc: work under both loops.")));
  // A tube has no edges.
  Design tube = Example(Technique::kOverlay);
  tube.form = Form::kTube;
  EXPECT_THAT(WriteRows(tube)->special_stitches,
              Each(Not(HasSubstr("Work the first and last sc"))));
}

TEST(PatternWords, ExplainChainSpacesOnlyWhereTheyAreUsed) {
  EXPECT_THAT(WriteRows(Example(Technique::kInset))->special_stitches,
              Contains(HasSubstr("Chain space: for ch 3, sk 2")));
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
             "Begin with a standing sc (or a standing ssc if the row begins with ssc)",
             "do not turn, and start every row at the same edge"},
        Case{Technique::kSpike, Facing::kTwoFace, Ends::kCarried, Form::kFlat,
             "Work over the resting colour in every stitch",
             "RS: the side on which colour A leads"},
        Case{Technique::kSpike, Facing::kPaired, Ends::kWaiting, Form::kFlat,
             "picking up the loop of its colour at the edge", "Turn after every second row"},
        Case{Technique::kSpike, Facing::kTwoFace, Ends::kWaiting, Form::kTube,
             "leave the yarn at the join for its next round", "RS: the outside of the tube"},
        Case{Technique::kOverlay, Facing::kTwoFace, Ends::kCut, Form::kFlat,
             "Begin with a standing sc as the first stitch", "do not turn"},
        Case{Technique::kInset, Facing::kOneFace, Ends::kWaiting, Form::kFlat,
             "begin each row with ch 1, turn",
             "RS: the side the chart shows. Turn after every row"}}) {
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
              Contains(HasSubstr("RS: the side the chart shows. Turn after every row")));
}

TEST(PatternWords, TellWhichWorkedRowsAChartRowOfInsetIs) {
  EXPECT_THAT(
      WriteRows(Example(Technique::kInset))->notes,
      Contains(HasSubstr("read RS rows from right to left and WS rows back from left to right. "
                         "Chart row 1 is rows 1 and 2.")));
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
