#include "services/domain/patterns/difference.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>

#include "services/domain/patterns/canonical.h"
#include "services/domain/patterns/difference_sentences.h"
#include "services/domain/patterns/row_contents.h"
#include "tests/domain/patterns/sample_content.h"

namespace rowproof::patterns {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// The differences of fields after a change of SmallVersion, as "field: was -> now".
template <typename Change>
std::vector<std::string> FieldsAfter(const Change& change) {
  const VersionContent before = SmallVersion();
  VersionContent after = before;
  change(after);
  std::vector<std::string> fields;
  for (const FieldDifference& field : Compare(before, after).fields) {
    fields.push_back(field.field + ": " + field.was + " -> " + field.now);
  }
  return fields;
}

TEST(Difference, OfAVersionWithItselfIsEmpty) {
  std::mt19937_64 random(51);
  for (int round = 0; round < 100; ++round) {
    const VersionContent content = RandomVersion(random);
    const VersionDifference difference = Compare(content, content);
    EXPECT_TRUE(difference.empty());
    EXPECT_FALSE(difference.worked_otherwise);
    EXPECT_EQ(difference.same_row_count, content.design.cells.rows());
  }
}

TEST(Difference, IsEmptyOnlyForEqualContents) {
  std::mt19937_64 random(52);
  for (int round = 0; round < 200; ++round) {
    const VersionContent before = RandomVersion(random);
    VersionContent after = before;
    const VersionContent donor = RandomVersion(random);
    switch (round % 8) {
      case 0:
        after.materials.assumptions = donor.materials.assumptions;
        break;
      case 1:
        after.materials.border_yarn = donor.materials.border_yarn;
        break;
      case 2:
        after.materials.added_fringe = donor.materials.added_fringe;
        break;
      case 3:
        after.designer_text = donor.designer_text;
        break;
      case 4:
        after.design = donor.design;
        break;
      case 5:
        after.materials.gauge_after_blocking = donor.materials.gauge_after_blocking;
        break;
      case 6:
        // A picture's last row has no row above that could show it.
        after.design.cells.set(after.design.cells.rows(), 1,
                               !after.design.cells.at(after.design.cells.rows(), 1));
        break;
      default:
        after.materials = donor.materials;
    }
    EXPECT_EQ(Compare(before, after).empty(), before == after) << round;
  }
}

TEST(Difference, CountsRowsByWhatBecameOfThem) {
  VersionContent before = SmallVersion();
  VersionContent after = before;
  after.design.cells = GridOf({"...x.", "...x.", "x..x.", ".x...", "...x.", ".....", "....."});
  const VersionDifference difference = Compare(before, after);
  EXPECT_EQ(difference.same_row_count, 5);
  EXPECT_EQ(difference.added_row_count, 2);
  EXPECT_EQ(difference.changed_row_count, 0);
  EXPECT_EQ(difference.removed_row_count, 0);
  EXPECT_FALSE(difference.empty());
}

TEST(Difference, NamesTheFieldsOfTheDesign) {
  EXPECT_THAT(FieldsAfter([](auto& c) { c.design.ends = chart::Ends::kCarried; }),
              ElementsAre("design.ends: cut -> carried"));
  EXPECT_THAT(FieldsAfter([](auto& c) { c.design.stitch_band->last = 4; }),
              ElementsAre("design.stitch_band: stitches 2 to 3 -> stitches 2 to 4",
                          "design.sizes.M: 11 stitches by 5 rows, repeated stitches worked 4 times"
                          " -> 14 stitches by 5 rows, repeated stitches worked 4 times"));
  EXPECT_THAT(FieldsAfter([](auto& c) {
                c.design.sizes.push_back({"L", 9, 1});
              }),
              ElementsAre("design.sizes.L:  -> 21 stitches by 5 rows, repeated stitches worked 9 "
                          "times"));
  EXPECT_THAT(FieldsAfter([](auto& c) { std::swap(c.design.sizes[0], c.design.sizes[1]); }),
              ElementsAre("design.sizes: S, M -> M, S"));
  EXPECT_THAT(FieldsAfter([](auto& c) { c.design.first_row_number = 0; }),
              ElementsAre("design.first_row_number: 1 -> 0"));
}

TEST(Difference, GivesNumbersOfTheMaterialsWithBothUnits) {
  EXPECT_THAT(FieldsAfter([](auto& c) { c.materials.gauge.rows_per_decimetre = 17; }),
              ElementsAre("materials.gauge.rows_per_decimetre: 16 rows in 100 mm (16.3 in 4 in) -> "
                          "17 rows in 100 mm (17.3 in 4 in)"));
  EXPECT_THAT(FieldsAfter([](auto& c) { c.materials.tail_mm = 200; }),
              ElementsAre("materials.tail_length_mm:  -> 20 cm (7.87 in)"));
  EXPECT_THAT(
      FieldsAfter([](auto& c) { c.materials.yarn_a.ball_length_m = 160; }),
      ElementsAre("materials.yarns[A].ball_band.length_m: 170 m (186 yd) -> 160 m (175 yd)"));
  EXPECT_THAT(
      FieldsAfter([](auto& c) { c.materials.yarn_a.ball_mass_g = 50; }),
      ElementsAre("materials.yarns[A].ball_band.mass_g: 100 g (3.53 oz) -> 50 g (1.76 oz)"));
  EXPECT_THAT(FieldsAfter([](auto& c) { c.materials.yarn_a.weight_class.reset(); }),
              ElementsAre("materials.yarns[A].weight_class: 4 -> "));
}

TEST(Difference, FindsAChangeOfEachSingleFieldOfTheMaterials) {
  using estimate::Materials;
  using Change = std::function<void(Materials&)>;
  std::vector<std::pair<std::string, Change>> changes = {
      {"yarns[A].name", [](Materials& m) { m.yarn_a.name = "Reed (invented)"; }},
      {"yarns[A].fibre", [](Materials& m) { m.yarn_a.fibre = "cotton"; }},
      {"yarns[B].weight_class", [](Materials& m) { m.yarn_b.weight_class = 3; }},
      {"yarns[B].wraps_per_inch", [](Materials& m) { m.yarn_b.wraps_per_inch = 11; }},
      {"yarns[border]", [](Materials& m) { m.border_yarn = m.yarn_a; }},
      {"yarns[B].tex", [](Materials& m) { m.yarn_b.tex = 400; }},
      {"yarns[C]", [](Materials& m) { m.more_yarns = {m.yarn_a}; }},
      {"calibration", [](Materials& m) { m.calibration = "calibrations/1"; }},
      {"yarn_calibration.scope", [](Materials& m) { m.calibration_scope.emplace(); }},
      {"hook_mm", [](Materials& m) { m.hook_mm.reset(); }},
      {"gauge.stitches_per_decimetre", [](Materials& m) { m.gauge.stitches_per_decimetre = 13; }},
      {"gauge.stitches_uncertainty_per_decimetre",
       [](Materials& m) { m.gauge.stitches_uncertainty_per_decimetre.reset(); }},
      {"gauge.rows_uncertainty_per_decimetre",
       [](Materials& m) { m.gauge.rows_uncertainty_per_decimetre = 0.3; }},
      {"gauge_is_of_another_fabric", [](Materials& m) { m.gauge_is_of_another_fabric = true; }},
      {"ends", [](Materials& m) { m.ends = chart::Ends::kCarried; }},
      {"foundation", [](Materials& m) { m.foundation.kind = estimate::FoundationKind::kWorked; }},
      {"foundation_colour", [](Materials& m) { m.foundation.colour = chart::Colour::kB; }},
      {"tail_use", [](Materials& m) { m.tail_use = estimate::TailUse::kFringe; }},
      {"fringe_length_mm", [](Materials& m) { m.fringe_length_mm = 80; }},
      {"slack", [](Materials& m) { m.slack = 0.06; }},
      {"border.round_count", [](Materials& m) { m.border.rounds = 3; }},
      {"border.role", [](Materials& m) { m.border.colour = estimate::YarnColour::kA; }},
      {"border.enclosing_double", [](Materials& m) { m.border.enclosing_double = false; }},
      {"added_fringe[0]",
       [](Materials& m) {
         m.added_fringe = {{{}, 40, 120, {}}};
       }},
      {"swatch", [](Materials& m) { m.swatch->rows = 30; }},
      {"stitches_per_minute", [](Materials& m) { m.stitches_per_minute = 12; }},
      {"minutes_per_row_start", [](Materials& m) { m.minutes_per_row_start = 2; }},
      {"assurance", [](Materials& m) { m.assurance = 0.9; }},
      {"item", [](Materials& m) { m.item = estimate::ItemKind::kHotPad; }},
      {"intended_user",
       [](Materials& m) { m.intended_user = estimate::IntendedUser::kSmallChild; }},
      {"assumptions.paths.sc.across", [](Materials& m) { m.assumptions.paths[1].across = 3.1; }},
      {"assumptions.paths.ssc.up", [](Materials& m) { m.assumptions.paths[2].up = 5; }},
      {"assumptions.paths.ch.diameters",
       [](Materials& m) { m.assumptions.paths[0].diameters = 3; }},
      {"assumptions.model_relative_uncertainty",
       [](Materials& m) { m.assumptions.model_relative_uncertainty = 0.1; }},
      {"assumptions.size_relative_uncertainty",
       [](Materials& m) { m.assumptions.size_relative_uncertainty = 0.1; }},
      {"assumptions.time_relative_uncertainty",
       [](Materials& m) { m.assumptions.time_relative_uncertainty = 0.1; }},
      {"assumptions.maker_relative_spread",
       [](Materials& m) { m.assumptions.maker_relative_spread = 0.2; }},
      {"assumptions.fringe_allowance_mm",
       [](Materials& m) { m.assumptions.fringe_allowance_mm = 60; }},
      {"assumptions.enclosed_tail_mm", [](Materials& m) { m.assumptions.enclosed_tail_mm = 140; }},
      {"assumptions.stitches_per_minute",
       [](Materials& m) { m.assumptions.stitches_per_minute = 16; }},
      {"assumptions.minutes_per_row_start",
       [](Materials& m) { m.assumptions.minutes_per_row_start = 2; }},
  };
  const VersionContent before = SmallVersion();
  for (const auto& [field, change] : changes) {
    VersionContent after = before;
    change(after.materials);
    const auto fields = Compare(before, after).fields;
    ASSERT_EQ(fields.size(), 1u) << field;
    EXPECT_EQ(fields[0].field, "materials." + field);
    EXPECT_NE(fields[0].was, fields[0].now) << field;
    EXPECT_NE(Encode(before), Encode(after)) << field;
  }
}

TEST(Difference, ShowsMoreDigitsWhereSixDoNotTellTwoNumbersApart) {
  EXPECT_THAT(FieldsAfter([](auto& c) { c.materials.hook_mm = 5.5000001; }),
              ElementsAre("materials.hook_mm: 5.5 mm -> 5.5000001 mm"));
}

TEST(Difference, ListsTextsByLine) {
  EXPECT_THAT(
      FieldsAfter([](auto& c) { c.introduction = "A small piece.\nWork tightly.\nEnjoy."; }),
      ElementsAre("introduction: Work loosely. -> Work tightly.", "introduction:  -> Enjoy."));
  EXPECT_THAT(FieldsAfter([](auto& c) { c.finishing.clear(); }),
              ElementsAre("finishing: Weave in the ends. -> "));
  EXPECT_THAT(FieldsAfter([](auto& c) { c.introduction += "\n"; }),
              ElementsAre("introduction:  -> an empty line"));
}

TEST(Difference, CutsLongLinesRoundTheirFirstDifferenceBetweenCharacters) {
  VersionContent before = SmallVersion();
  before.notes = std::string(300, 'a');
  VersionContent after = before;
  for (int n = 0; n < 300; ++n) before.notes += "\xc3\xa9";
  for (int n = 0; n < 300; ++n) after.notes += "\xc3\xa8";
  const auto fields = Compare(before, after).fields;
  ASSERT_EQ(fields.size(), 1u);
  EXPECT_NE(fields[0].was, fields[0].now);
  EXPECT_LT(fields[0].was.size(), 180u);
  EXPECT_THAT(fields[0].was, testing::StartsWith("...aaa"));
  EXPECT_THAT(fields[0].was, testing::EndsWith("\xc3\xa9..."));
}

TEST(Difference, SaysWhatBecameOfTheDesignersOwnRows) {
  VersionContent before = SmallVersion();
  VersionContent after = before;
  after.designer_text = "Row 1: sc 5.";
  after.designer_text_terms.reset();
  auto fields = Compare(before, after).fields;
  ASSERT_EQ(fields.size(), 1u);  // of a new text the terms are no difference
  EXPECT_EQ(Sentence(fields[0]),
            "Designer's own rows, line 1: now Row 1: sc 5 (not stated before).");
  before = after;
  after.designer_text = "Row 1: dc 5.";
  after.designer_text_terms = chart::Terms::kUk;
  fields = Compare(before, after).fields;
  ASSERT_EQ(fields.size(), 2u);
  EXPECT_EQ(fields[0].field, "designer_text");
  EXPECT_EQ(fields[1].field, "designer_text_terms");
  EXPECT_EQ(fields[1].was, "");
  EXPECT_EQ(fields[1].now, "UK");
}

TEST(Difference, CountsTheLinesThatItDoesNotList) {
  VersionContent before = SmallVersion();
  VersionContent after = before;
  for (int n = 0; n < 250; ++n) after.designer_text += "Row " + std::to_string(n) + "\n";
  const auto fields = Compare(before, after).fields;
  ASSERT_EQ(fields.size(), kMostTextDifferences + 1);
  EXPECT_EQ(fields.back().now, "51 more lines changed");
}

TEST(Difference, SaysThatEveryRowIsWorkedOtherwise) {
  VersionContent before = SmallVersion();
  VersionContent after = before;
  after.design.technique = chart::Technique::kOverlay;
  after.design.facing = chart::Facing::kOneFace;
  EXPECT_TRUE(Compare(before, after).worked_otherwise);
}

TEST(FieldSentence, SaysWhatWasAndWhatIs) {
  EXPECT_EQ(Sentence(FieldDifference{"materials.hook_mm", "hook", "5.5 mm", "6 mm"}),
            "Hook: was 5.5 mm, now 6 mm.");
  EXPECT_EQ(Sentence(FieldDifference{"level", "level", "", "easy"}),
            "Level: now easy (not stated before).");
  EXPECT_EQ(Sentence(FieldDifference{"level", "level", "easy", ""}),
            "Level: no longer stated (was easy).");
}

TEST(RowSentence, NamesRowsAsThePatternCountsThem) {
  RowDifference row;
  row.change = RowChange::kChanged;
  row.old_row = 7;
  row.new_row = 7;
  row.old_stitches = row.new_stitches = {{5, 8}, {20, 20}};
  EXPECT_EQ(Sentence(row, {}), "Row 7: stitches 5 to 8 and 20 changed.");
  EXPECT_EQ(Sentence(row, {0, 0, 1}), "Row 6: stitches 5 to 8 and 20 changed.");
  EXPECT_EQ(Sentence(row, {1, 1, 2, 2}), "Rows 13 and 14: stitches 5 to 8 and 20 changed.");
  row.new_row = 9;
  row.colour_changed = true;
  EXPECT_EQ(Sentence(row, {}),
            "Row 9 (row 7 before): stitches 5 to 8 and 20 changed, colour changed.");
  row.old_stitches.clear();
  row.new_stitches = {{3, 3}};
  row.colour_changed = false;
  row.side_changed = true;
  EXPECT_EQ(Sentence(row, {}), "Row 9 (row 7 before): stitch 3 added, side changed.");
  row.old_stitches = {{3, 4}};
  row.new_stitches = {{3, 6}};
  row.side_changed = false;
  EXPECT_EQ(Sentence(row, {}),
            "Row 9 (row 7 before): stitches 3 to 4 replaced by stitches 3 to 6.");
}

TEST(RowSentence, SaysWhatWasAddedTakenAwayAndMoved) {
  RowDifference row;
  row.change = RowChange::kAdded;
  row.new_row = 4;
  EXPECT_EQ(Sentence(row, {}), "Row 4 added.");
  row = {};
  row.change = RowChange::kRemoved;
  row.old_row = 4;
  EXPECT_EQ(Sentence(row, {0, 1, 1, 1}), "Row 3 removed.");
  row.change = RowChange::kSame;
  row.new_row = 2;
  EXPECT_EQ(Sentence(row, {}), "Row 2 (row 4 before): unchanged.");
}

TEST(RowSentence, NamesBothWorkedRowsOfAChartRowOfInset) {
  chart::Design before = WorkingChart({".x..", "....", "..x.", "...."});
  before.technique = chart::Technique::kInset;
  chart::Design after = before;
  after.cells.set(4, 3, false);
  std::string sentences;
  for (const RowDifference& row : AlignRows(ChartRows(before), ChartRows(after))) {
    if (row.change != RowChange::kSame) sentences += Sentence(row, {1, 1, 2, 2}) + "\n";
  }
  // The stitch is no longer skipped in chart row 3, nor filled in chart row 4.
  EXPECT_EQ(sentences, "Rows 5 and 6: stitch 3 changed.\nRows 7 and 8: stitch 3 changed.\n");
  RowDifference moved;
  moved.change = RowChange::kChanged;
  moved.old_row = moved.new_row = 3;
  // Made over from spike: row 3 became rows 5 and 6.
  EXPECT_EQ(Sentence(moved, {1, 1, 1, 2}), "Rows 5 and 6 (row 3 before): worked differently.");
}

TEST(RowSentence, LeavesManyPlacesUnnamed) {
  RowDifference row;
  row.change = RowChange::kChanged;
  row.old_row = row.new_row = 1;
  for (int n = 1; n <= 40; n += 2) row.new_stitches.push_back({n, n});
  row.old_stitches = row.new_stitches;
  EXPECT_EQ(Sentence(row, {}),
            "Row 1: stitches 1, 3, 5, 7, 9, 11, 13, 15 and 12 more places changed.");
}

TEST(SizeDifference, MapsRowsOfARepeatWorkedOnceMore) {
  chart::Design before = WorkingChart({"..x..", "x....", ".x...", "x.x.x", ".....", "....."});
  before.row_band = chart::Band{3, 4};
  before.sizes = {{"S", 1, 2}};
  chart::Design after = before;
  after.sizes[0].row_repeats = 3;
  const SizeDifference difference = CompareSize(before, 0, after, 0);
  EXPECT_THAT(difference.new_row, ElementsAre(1, 2, 3, 4, 5, 6, 9, 10));
  EXPECT_THAT(difference.same_old_row, ElementsAre(1, 2, 3, 4, 5, 6, 0, 0, 7, 8));
}

TEST(SizeDifference, KeepsRowsOfARepeatThatWasDrawnOut) {
  chart::Design before = WorkingChart({"..x..", "x....", ".x...", "x.x.x", ".....", "....."});
  before.row_band = chart::Band{3, 4};
  before.sizes = {{"S", 1, 3}};
  chart::Design after = WorkingChart(
      {"..x..", "x....", ".x...", "x.x.x", ".x...", "x.x.x", ".x...", "x.x.x", ".....", "....."});
  after.sizes = {{"S", 1, 1}};
  const SizeDifference difference = CompareSize(before, 0, after, 0);
  for (const RowDifference& row : difference.rows) EXPECT_EQ(row.change, RowChange::kSame);
}

TEST(SizeDifference, ShowsAChangedRowInEveryRepetition) {
  chart::Design before = WorkingChart({"..x..", "x....", ".x...", "x.x.x", ".....", "....."});
  before.row_band = chart::Band{3, 4};
  before.sizes = {{"S", 1, 2}};
  chart::Design after = before;
  after.cells.set(4, 1, true);
  const SizeDifference difference = CompareSize(before, 0, after, 0);
  EXPECT_THAT(difference.same_old_row, ElementsAre(1, 2, 3, 0, 5, 0, 7, 8));
  EXPECT_THAT(difference.new_row, ElementsAre(1, 2, 3, 4, 5, 6, 7, 8));
}

TEST(SizeDifference, CountsTwoWorkedRowsOfInset) {
  chart::Design before = WorkingChart({".x..", "....", "..x.", "...."});
  before.technique = chart::Technique::kInset;
  chart::Design after = before;
  after.cells.set(4, 3, false);
  // The drop of chart row 4 is skipped in both rows of chart row 3 and filled in row 7.
  EXPECT_THAT(CompareSize(before, 0, after, 0).same_old_row, ElementsAre(1, 2, 3, 4, 0, 0, 0, 8));
}

TEST(SizeDifference, HasNoSameRowWhereTheTechniqueIsAnother) {
  chart::Design before = WorkingChart({".x..", "....", "...."});
  before.facing = chart::Facing::kOneFace;
  chart::Design after = before;
  after.technique = chart::Technique::kOverlay;
  const SizeDifference difference = CompareSize(before, 0, after, 0);
  EXPECT_THAT(difference.same_old_row, ElementsAre(0, 0, 0));
  EXPECT_THAT(difference.new_row, ElementsAre(1, 2, 3));
}

}  // namespace
}  // namespace rowproof::patterns
