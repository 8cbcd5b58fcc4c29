#include "services/domain/chart/conversion/conversion.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/conversion/maker_changes.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/random_designs.h"

namespace rowproof::chart {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// The drops of a size, cell by cell from the rules' wording: the size is expanded in the convention
// in which the chart was given, then converted. A picture's last row covers nothing.
std::vector<std::string> PlainDrops(const Design& design, size_t size) {
  const auto unfold = [](int length, const std::optional<Band>& band, int repeats) {
    std::vector<int> order;
    for (int i = 1; i <= length; ++i) {
      if (!band.has_value() || i < band->first || i > band->last) {
        order.push_back(i);
      } else if (i == band->first) {
        for (int n = 0; n < repeats; ++n) {
          for (int k = band->first; k <= band->last; ++k) order.push_back(k);
        }
      }
    }
    return order;
  };
  const std::vector<int> rows =
      unfold(design.cells.rows(), design.row_band, design.sizes[size].row_repeats);
  const std::vector<int> stitches =
      unfold(design.cells.stitches(), design.stitch_band, design.sizes[size].stitch_repeats);
  std::vector<std::string> lines;
  for (size_t r = 0; r < rows.size(); ++r) {
    std::string line;
    for (const int stitch : stitches) {
      bool drop = false;
      if (design.convention == Convention::kWorking) {
        drop = design.cells.at(rows[r], stitch);
      } else if (r > 0 && NamesColours(design)) {
        drop = design.picture_colours[PictureCell(design, rows[r - 1], stitch)] !=
               RowColour(design, rows[r - 1]);
      } else if (r > 0) {
        const Colour below =
            RowColour(design, design.row_colours.empty() ? static_cast<int>(r) : rows[r - 1]);
        drop = design.cells.at(rows[r - 1], stitch) != (below == Colour::kB);
      }
      line += drop ? 'x' : '.';
    }
    lines.push_back(line);
  }
  return lines;
}

Conversion Converted(const Design& design, const ConversionTarget& target) {
  EXPECT_TRUE(Validate(design).ok()) << Validate(design);
  auto conversion = Convert(design, target);
  EXPECT_TRUE(conversion.ok()) << conversion.status();
  if (!conversion.ok()) return {};
  EXPECT_TRUE(Validate(conversion->design).ok()) << Validate(conversion->design);
  return std::move(*conversion);
}

ConversionTarget To(Convention convention) {
  ConversionTarget target;
  target.convention = convention;
  return target;
}
ConversionTarget To(Technique technique) {
  ConversionTarget target;
  target.technique = technique;
  return target;
}

Convention Other(Convention convention) {
  return convention == Convention::kPicture ? Convention::kWorking : Convention::kPicture;
}

void ExpectConditionOn(const absl::Status& status, const std::string& subject) {
  EXPECT_EQ(status.code(), absl::StatusCode::kFailedPrecondition) << status;
  const auto conditions = DetailOf(status).conditions;
  ASSERT_EQ(conditions.size(), 1u);
  EXPECT_EQ(conditions[0].type, "CANNOT_BE_CONVERTED");
  EXPECT_EQ(conditions[0].subject, subject);
}

TEST(Conversion, PutsAWorkingChartsMarkOneRowAboveThePicturesCell) {
  const Design picture = Picture({
      "AAAAA",  //
      "BBBBB",  //
      "AABAA",  //
      "BABBB",  //
      "AAAAA",
  });
  const Conversion working = Converted(picture, To(Convention::kWorking));
  EXPECT_THAT(ToText(working.design.cells), ElementsAre(".....",  //
                                                        "..x..",  //
                                                        ".x...",  //
                                                        ".....",  //
                                                        "....."));
  EXPECT_THAT(working.edits, IsEmpty());
  EXPECT_EQ(Converted(working.design, To(Convention::kPicture)).design, picture);
}

TEST(Conversion, TakesAwayWhatTheOtherConventionCannotShow) {
  // The picture's last row is off-colour at stitch 2: no row is left to cover it.
  const Design picture = Picture({"ABA", "BBB", "AAA"});
  const Conversion working = Converted(picture, To(Convention::kWorking));
  EXPECT_THAT(working.edits, ElementsAre(Edit{3, 2, false}));
  EXPECT_THAT(ToText(working.design.cells), ElementsAre("...", "...", "..."));
  // A drop in row 1 covers nothing, nor does one over a row of its own colour.
  Design drops = Working({"..x", ".x.", "x.."});
  drops.row_colours = {Colour::kA, Colour::kB, Colour::kB};
  const Conversion shown = Converted(drops, To(Convention::kPicture));
  EXPECT_THAT(shown.edits, ElementsAre(Edit{1, 3, false}, Edit{3, 1, false}));
  EXPECT_THAT(ToText(shown.design.cells), ElementsAre("xxx", "xxx", ".x."));
}

TEST(Conversion, MovesARepeatedBandOfRowsOneUpAndBack) {
  Design picture = Picture({
      "AAAA",  // 5
      "BBBB",  // 4
      "AABA",  // 3
      "BBBB",  // 2
      "AAAA",  // 1
  });
  picture.row_band = Band{2, 3};
  picture.sizes = {{"S", 1, 1}, {"M", 1, 2}, {"L", 1, 5}};
  const Conversion working = Converted(picture, To(Convention::kWorking));
  EXPECT_EQ(working.design.row_band, (Band{3, 4}));
  for (size_t size = 0; size < 3; ++size) {
    EXPECT_EQ(PlainDrops(working.design, size), PlainDrops(picture, size)) << size;
  }
  EXPECT_EQ(Converted(working.design, To(Convention::kPicture)).design, picture);
}

TEST(Conversion, KeepsABandThatEndsInTheLastRowWhereItSaysTheSame) {
  Design picture = Picture({"BBBB", "ABAA", "BBBB", "AAAA"});
  picture.row_band = Band{3, 4};
  picture.sizes = {{"M", 1, 3}};
  const Conversion working = Converted(picture, To(Convention::kWorking));
  EXPECT_EQ(working.design.row_band, (Band{3, 4}));
  EXPECT_EQ(PlainDrops(working.design, 0), PlainDrops(picture, 0));
  // Row 2 covers another thing than the last row does: the first repetition differs.
  Design without = picture;
  without.cells.set(2, 1, false);
  ExpectConditionOn(Convert(without, To(Convention::kWorking)).status(), "row_band");
}

TEST(Conversion, OfRandomChartsIsWorkedAlikeInEverySizeAndComesBack) {
  RandomDesigns random(30701);
  int converted = 0;
  int unchanged = 0;
  for (int round = 0; round < 4000; ++round) {
    const Design design = random.Next(8, 9);
    const auto conversion = Convert(design, To(Other(design.convention)));
    if (!conversion.ok()) {
      ASSERT_TRUE(design.row_band.has_value()) << round;
      ExpectConditionOn(conversion.status(), "row_band");
      continue;
    }
    ++converted;
    Design mended = design;
    for (const Edit& edit : conversion->edits) Apply(edit, mended);
    ASSERT_TRUE(Validate(mended).ok()) << round;
    ASSERT_TRUE(Validate(conversion->design).ok()) << round;
    for (size_t size = 0; size < design.sizes.size(); ++size) {
      ASSERT_EQ(PlainDrops(conversion->design, size), PlainDrops(mended, size)) << round;
    }
    const auto back = Convert(conversion->design, To(design.convention));
    ASSERT_TRUE(back.ok()) << round << back.status();
    ASSERT_THAT(back->edits, IsEmpty()) << round;
    ASSERT_EQ(back->design.cells, mended.cells) << round;
    ASSERT_EQ(back->design.picture_colours, mended.picture_colours) << round;
    for (size_t size = 0; size < design.sizes.size(); ++size) {
      ASSERT_EQ(PlainDrops(back->design, size), PlainDrops(mended, size)) << round;
    }
    const bool band_stayed =
        design.row_band.has_value() && conversion->design.row_band == design.row_band;
    if (!band_stayed) {
      ASSERT_EQ(back->design, mended) << round;
      ++unchanged;
    }
  }
  EXPECT_GT(converted, 1500);
  EXPECT_GT(unchanged, 1000);
}

TEST(Conversion, NamesTheColoursOfAPictureWithMoreThanTwo) {
  Design drops = Working({"..x", ".x.", "...", "..."});
  drops.row_colours = {Colour::kA, Colour::kB, Colour::kC, Colour::kD};
  const Conversion picture = Converted(drops, To(Convention::kPicture));
  const std::vector<Colour> expected = {
      Colour::kA, Colour::kA, Colour::kA,  // row 1
      Colour::kB, Colour::kC, Colour::kB,  // row 2, covered by C at stitch 2
      Colour::kD, Colour::kC, Colour::kC,  // row 3, covered by D at stitch 1
      Colour::kD, Colour::kD, Colour::kD,
  };
  EXPECT_EQ(picture.design.picture_colours, expected);
  EXPECT_EQ(Converted(picture.design, To(Convention::kWorking)).design, drops);
  // A colour that neither the row nor the row above has cannot be worked, and is taken away.
  Design foreign = picture.design;
  foreign.picture_colours[PictureCell(foreign, 2, 2)] = Colour::kD;
  const Conversion working = Converted(foreign, To(Convention::kWorking));
  EXPECT_THAT(working.edits, ElementsAre(Edit{2, 2, false, Colour::kB}));
  EXPECT_THAT(ToText(working.design.cells), ElementsAre("..x", "...", "...", "..."));
}

TEST(Conversion, FromSpikeToOverlayTakesDropsOutOfTheEdgeStitches) {
  // Column 1 is a column of drops, as a flat spike chart may have it.
  Design spike = Working({"x.x.x", ".....", "....x", ".....", "....."});
  spike.facing = Facing::kTwoFace;
  spike.ends = Ends::kCarried;
  const Conversion overlay = Converted(spike, To(Technique::kOverlay));
  EXPECT_THAT(overlay.edits, ElementsAre(Edit{3, 1, false}, Edit{5, 1, false}, Edit{5, 5, false}));
  EXPECT_THAT(ToText(overlay.design.cells),
              ElementsAre("..x..", ".....", ".....", ".....", "....."));
  EXPECT_EQ(overlay.design.technique, Technique::kOverlay);
  EXPECT_EQ(overlay.design.facing, Facing::kOneFace);
  EXPECT_EQ(overlay.design.ends, Ends::kCut);
  EXPECT_TRUE(overlay.facing_changed);
  EXPECT_TRUE(overlay.ends_changed);
  EXPECT_TRUE(Check(overlay.design).workable());
}

TEST(Conversion, OfAPictureGivesAnEdgeCellItsRowsColour) {
  Design spike = Picture({"BBBB", "AAAB", "BBBB", "AAAA"});
  const Conversion inset = Converted(spike, To(Technique::kInset));
  EXPECT_THAT(inset.edits, ElementsAre(Edit{3, 1, false}));
  EXPECT_THAT(ToText(inset.design.cells), ElementsAre("xxxx", "....", "xxxx", "...."));
}

TEST(Conversion, KeepsEveryDropOfATube) {
  Design spike = Working({"x...x", ".....", "....."});
  spike.form = Form::kTube;
  spike.ends = Ends::kWaiting;
  const Conversion overlay = Converted(spike, To(Technique::kOverlay));
  EXPECT_THAT(overlay.edits, IsEmpty());
  EXPECT_EQ(overlay.design.cells, spike.cells);
  EXPECT_EQ(overlay.design.ends, Ends::kWaiting);
  EXPECT_FALSE(overlay.ends_changed);
  ExpectConditionOn(Convert(spike, To(Technique::kInset)).status(), "form");
}

// What goes together: the trade's rules (services/client/MANUAL.md, "How a chart is worked").
TEST(Conversion, ChoosesFacingAndEndsThatFitTheTechnique) {
  const struct {
    Technique from;
    Facing facing;
    Ends ends;
    Technique to;
    Facing then_facing;
    Ends then_ends;
  } cases[] = {
      {Technique::kSpike, Facing::kTwoFace, Ends::kCarried, Technique::kInset, Facing::kTwoFace,
       Ends::kWaiting},
      {Technique::kSpike, Facing::kPaired, Ends::kWaiting, Technique::kOverlay, Facing::kOneFace,
       Ends::kCut},
      {Technique::kOverlay, Facing::kOneFace, Ends::kCut, Technique::kSpike, Facing::kOneFace,
       Ends::kCut},
      {Technique::kOverlay, Facing::kOneFace, Ends::kCut, Technique::kInset, Facing::kTwoFace,
       Ends::kWaiting},
      {Technique::kInset, Facing::kTwoFace, Ends::kWaiting, Technique::kSpike, Facing::kTwoFace,
       Ends::kCut},
      {Technique::kInset, Facing::kTwoFace, Ends::kWaiting, Technique::kOverlay, Facing::kOneFace,
       Ends::kCut},
  };
  for (const auto& c : cases) {
    Design design = Picture({"AAA", "BBB", "AAA"});
    design.technique = c.from;
    design.facing = c.facing;
    design.ends = c.ends;
    ASSERT_EQ(WhyEndsDoNotFit(design), nullptr) << Name(c.from);
    const Conversion conversion = Converted(design, To(c.to));
    const std::string what = std::string(Name(c.from)) + " to " + Name(c.to);
    EXPECT_EQ(FacingOf(conversion.design), c.then_facing) << what;
    EXPECT_EQ(conversion.design.ends, c.then_ends) << what;
    EXPECT_EQ(WhyEndsDoNotFit(conversion.design), nullptr) << what;
    EXPECT_EQ(conversion.ends_changed, c.ends != c.then_ends) << what;
    EXPECT_EQ(conversion.facing_changed, c.facing != c.then_facing) << what;
  }
}

TEST(Conversion, TakesTheFacingAndEndsThatAreAskedForOrSaysWhyNot) {
  Design overlay = Picture({"AAA", "BBB", "AAA"});
  overlay.technique = Technique::kOverlay;
  overlay.facing = Facing::kOneFace;
  ConversionTarget target = To(Technique::kSpike);
  target.facing = Facing::kTwoFace;
  target.ends = Ends::kCarried;
  const Conversion spike = Converted(overlay, target);
  EXPECT_EQ(spike.design.facing, Facing::kTwoFace);
  EXPECT_EQ(spike.design.ends, Ends::kCarried);

  target.ends = Ends::kWaiting;
  auto status = Convert(overlay, target).status();
  EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
  ASSERT_EQ(DetailOf(status).fields.size(), 1u);
  EXPECT_EQ(DetailOf(status).fields[0].field, "ends");
  EXPECT_THAT(DetailOf(status).fields[0].description, HasSubstr("(got \"waiting\")"));

  target = To(Technique::kInset);
  target.facing = Facing::kPaired;
  status = Convert(overlay, target).status();
  ASSERT_EQ(DetailOf(status).fields.size(), 1u) << status;
  EXPECT_EQ(DetailOf(status).fields[0].field, "facing");

  // Carried strands need two colours that alternate strictly.
  Design stripes = overlay;
  stripes.row_colours = {Colour::kA, Colour::kB, Colour::kB};
  target = To(Technique::kSpike);
  target.facing = Facing::kTwoFace;
  target.ends = Ends::kCarried;
  status = Convert(stripes, target).status();
  ASSERT_EQ(DetailOf(status).fields.size(), 1u) << status;
  EXPECT_EQ(DetailOf(status).fields[0].field, "ends");
}

// Charts without a mark in an edge stitch, of every technique, through every other one and back.
TEST(Conversion, BetweenTechniquesGivesTheChartBackWhereNothingHadToChange) {
  RandomDesigns random(30702);
  const Technique techniques[] = {Technique::kSpike, Technique::kOverlay, Technique::kInset};
  int back = 0;
  for (int round = 0; round < 3000; ++round) {
    Design drawn = random.Next(8, 9);
    drawn.form = Form::kFlat;
    drawn.ends = UsualEnds(drawn);
    const Design design = Converted(drawn, To(techniques[round % 3])).design;
    const Technique other = techniques[(round / 3) % 3];
    const Conversion there = Converted(design, To(other));
    if (!there.edits.empty()) continue;
    ASSERT_EQ(there.design.cells, design.cells) << round;
    ConversionTarget home = To(design.technique);
    if (!FactsOf(design.technique).only_facing.has_value()) home.facing = design.facing;
    home.ends = design.ends;
    const Conversion again = Converted(there.design, home);
    ASSERT_THAT(again.edits, IsEmpty()) << round;
    ASSERT_EQ(again.design, design) << round;
    ++back;
  }
  EXPECT_GT(back, 500);
}

TEST(Conversion, FromOverlayToInsetAndBackNeedsNoWordAboutFacingOrEnds) {
  Design overlay = Picture({"AAAAA", "BBBBB", "AABAA", "BBBBB", "AAAAA"});
  overlay.technique = Technique::kOverlay;
  overlay.facing = Facing::kOneFace;
  const Conversion inset = Converted(overlay, To(Technique::kInset));
  EXPECT_EQ(WorkedRows(inset.design), 2);
  EXPECT_EQ(Converted(inset.design, To(Technique::kOverlay)).design, overlay);
}

TEST(MakerChanges, SayWhatOverlayAsksInPlaceOfSpike) {
  Design spike = Picture({"AAA", "BBB", "AAA"});
  spike.ends = Ends::kCarried;
  const Design overlay = Converted(spike, To(Technique::kOverlay)).design;
  std::vector<std::string> told;
  for (const MakerChange& change : ChangesForMaker(spike, overlay, Terms::kUs)) {
    told.push_back(std::string(Name(change.aspect)) + " | " + Sentence(change));
  }
  EXPECT_THAT(
      told,
      ElementsAre(
          "drop-stitch | Drops: mdc (mosaic double crochet) into the front loop of the stitch two "
          "rows down, in front of the work (before: ssc (spike single crochet) under both loops of "
          "the stitch two rows down, covering the row between on both faces).",
          "edges | Edges: the first and last stitch are always plain, through both loops (before: "
          "the first and last stitch are worked as charted).",
          "facing | Turning: every row is worked on the right side, without turning (before: turn "
          "after every row).",
          "ends | Ends: join a new strand for every row and fasten off at its end (before: work "
          "over the resting yarn in every row; cut nothing until the end).",
          "face-2 | Face 2: plain stripes of one row (before: the same picture, mirrored, with the "
          "other colour leading)."));
}

TEST(MakerChanges, SayTheStitchesInUkTermsWhereAsked) {
  Design overlay = Picture({"AAA", "BBB", "AAA"});
  overlay.technique = Technique::kOverlay;
  const Design inset = Converted(overlay, To(Technique::kInset)).design;
  std::vector<std::string> aspects;
  for (const MakerChange& change : ChangesForMaker(overlay, inset, Terms::kUk)) {
    aspects.push_back(Name(change.aspect));
    if (change.aspect == MakerAspect::kPlainStitch) {
      EXPECT_EQ(change.was, "dc in the back loop only");
      EXPECT_EQ(change.now, "dc under both loops");
    }
    if (change.aspect == MakerAspect::kDropStitch) {
      EXPECT_EQ(change.now,
                "mtr (mosaic treble) under both loops of the stitch three rows down, in front of "
                "the chains");
    }
  }
  EXPECT_THAT(aspects, ElementsAre("plain-stitch", "drop-stitch", "worked-rows", "edges", "facing",
                                   "ends", "face-2"));
}

TEST(MakerChanges, AreNoneBetweenDesignsThatAreWorkedAlike) {
  const Design design = Picture({"AAA", "BBB", "AAA"});
  EXPECT_THAT(ChangesForMaker(design, design, Terms::kUs), IsEmpty());
  const Design working = Converted(design, To(Convention::kWorking)).design;
  const auto changes = ChangesForMaker(design, working, Terms::kUs);
  ASSERT_EQ(changes.size(), 1u);
  EXPECT_EQ(changes[0].aspect, MakerAspect::kChart);
}

}  // namespace
}  // namespace rowproof::chart
