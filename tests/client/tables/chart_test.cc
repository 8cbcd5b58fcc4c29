// What designers read of findings, repairs, conversions, repeats and imported files.
#include "services/client/tables/chart.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>
#include <string>

#include "services/client/tables/conversion.h"
#include "services/client/tables/table.h"
#include "services/text/utf8.h"

namespace rowproof::client {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr Style kShort{};
constexpr Style kDetails{Units::kMetric, true};

void ExpectFitsThePage(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    EXPECT_LE(text::CharacterCount(line), kPageColumns) << line;
  }
}

v1::Finding SomeFinding() {
  v1::Finding finding;
  finding.set_code(v1::FINDING_CODE_EDGE_SKIP);
  finding.set_severity(v1::SEVERITY_ERROR);
  finding.set_row(30);
  finding.set_stitch(1);
  finding.set_last_stitch(1);
  finding.set_first_worked_row(59);
  finding.set_last_worked_row(60);
  finding.set_seam(v1::SEAM_ROW_REPEAT);
  finding.set_size("a size with a rather long name");
  finding.set_sentence("Stitch 1 of row 30 is skipped, but an edge stitch has to be worked.");
  finding.mutable_edit()->set_row(30);
  finding.mutable_edit()->set_stitch(1);
  finding.mutable_edit()->set_colour(v1::COLOUR_C);
  return finding;
}

TEST(CheckText, NamesThePlaceTheWorkedRowsAndTheEdit) {
  v1::CheckResult check;
  *check.add_findings() = SomeFinding();
  check.set_error_count(1);
  check.set_stitch_multiple("multiple of 8 plus 10");
  const std::string text = TextOf(check, kShort);
  EXPECT_THAT(text, HasSubstr("The chart cannot be worked: 1 error, 0 warnings, 0 notes."));
  EXPECT_THAT(text, HasSubstr("59-60"));
  EXPECT_THAT(text, HasSubstr("stitch 1 C."));
  EXPECT_THAT(text, HasSubstr("Stitches: multiple of 8 plus 10."));
  ExpectFitsThePage(text);
}

TEST(CheckText, SumsUpMoreThanFortyFindingsByTheirKind) {
  v1::CheckResult check;
  *check.add_findings() = SomeFinding();
  check.set_error_count(4321);
  auto* count = check.add_code_counts();
  count->set_code(v1::FINDING_CODE_EDGE_SKIP);
  count->set_count(4321);
  check.set_swap_colours_offered(true);
  const std::string text = TextOf(check, kShort);
  EXPECT_THAT(text, HasSubstr("error      4321  row 30"));
  EXPECT_THAT(text, HasSubstr("--details lists them one by one."));
  EXPECT_THAT(text, HasSubstr("--swap-colours"));
  EXPECT_THAT(TextOf(check, kDetails), HasSubstr("The first 1 of 4321 are shown."));
  ExpectFitsThePage(text);
}

TEST(CheckText, ListsWhatFitsAScreenAndTheRestWithDetails) {
  v1::CheckResult check;
  for (int row = 1; row <= 12; ++row) {
    *check.add_findings() = SomeFinding();
    check.mutable_findings(row - 1)->set_row(row);
  }
  check.set_error_count(12);
  EXPECT_THAT(TextOf(check, kShort), HasSubstr("The first 8 of 12 are shown"));
  EXPECT_THAT(TextOf(check, kShort), Not(HasSubstr("row 9 ")));
  EXPECT_THAT(TextOf(check, kDetails), HasSubstr("row 12 "));
}

TEST(CheckText, NamesTheKindOfChartThatIsMeant) {
  v1::CheckResult check;
  EXPECT_THAT(TextOf(check, kShort), Not(HasSubstr("--chart")));
  check.set_reading_offered(v1::FINDING_CODE_OTHER_CONVENTION);
  check.set_convention_offered(v1::CONVENTION_PICTURE);
  EXPECT_THAT(TextOf(check, kShort),
              HasSubstr("seems to be a picture chart: use --chart picture.\n"));
  EXPECT_THAT(TextOf(check, kShort), Not(HasSubstr("working")));
  check.set_convention_offered(v1::CONVENTION_WORKING);
  EXPECT_THAT(TextOf(check, kShort),
              HasSubstr("seems to be a working chart: use --chart working.\n"));
  EXPECT_THAT(TextOf(check, kShort), Not(HasSubstr("picture")));
  // Marks that stand one row too high for a picture; the cells are not those of a working chart.
  check.set_reading_offered(v1::FINDING_CODE_MARKS_OF_OTHER_CONVENTION);
  EXPECT_THAT(TextOf(check, kShort),
              HasSubstr("those of a working chart: move each down by a row"));
  check.set_convention_offered(v1::CONVENTION_PICTURE);
  EXPECT_THAT(TextOf(check, kShort), HasSubstr("those of a picture chart: move each up by a row"));
  ExpectFitsThePage(TextOf(check, kShort));
}

TEST(RepairText, SaysWhetherItIsProved) {
  v1::RepairResult repair;
  repair.set_edit_count(3);
  repair.set_lower_bound(2);
  for (int i = 1; i <= 3; ++i) {
    auto* edit = repair.add_edits();
    edit->set_row(2 * i);
    edit->set_stitch(i);
  }
  repair.mutable_repaired()->set_row_count(7);
  repair.mutable_repaired()->set_stitch_count(5);
  repair.mutable_repaired()->set_convention(v1::CONVENTION_WORKING);
  repair.mutable_repaired()->set_cells(std::string(7, '\0'));
  auto* way = repair.add_alternatives();
  way->set_kind(v1::REPAIR_ALTERNATIVE_KIND_REPEAT_MOVED);
  way->set_row_shift(-1);
  way->set_remaining_edit_count(5);
  EXPECT_THAT(TextOf(repair, kDetails), HasSubstr("At least 2 are needed"));
  EXPECT_THAT(TextOf(repair, kDetails), HasSubstr("repeat moved down by a row    5 or fewer"));
  EXPECT_THAT(TextOf(repair, kDetails), HasSubstr("plain"));
  repair.set_lower_bound(3);
  repair.set_optimal(true);
  repair.mutable_alternatives(0)->set_optimal(true);
  EXPECT_THAT(TextOf(repair, kDetails),
              HasSubstr("3 changes make the chart workable. No smaller set of changes does."));
  EXPECT_THAT(TextOf(repair, kDetails), Not(HasSubstr("or fewer")));
  ExpectFitsThePage(TextOf(repair, kDetails));
}

v1::ConvertedChart SomeConversion() {
  v1::ConvertedChart converted;
  converted.mutable_design()->set_technique(v1::TECHNIQUE_INSET);
  converted.mutable_design()->set_facing(v1::FACING_TWO_FACE);
  converted.mutable_design()->set_ends(v1::ENDS_WAITING);
  converted.mutable_design()->set_form(v1::FORM_FLAT);
  converted.mutable_design()->mutable_chart()->set_convention(v1::CONVENTION_PICTURE);
  auto* change = converted.add_changes();
  change->set_aspect(v1::MAKER_ASPECT_ENDS);
  change->set_sentence("Ends: each yarn waits at the edge where its next row starts; before: cut.");
  auto* size = converted.add_sizes();
  size->set_size("one size");
  size->set_stitch_count(120);
  size->set_row_count_before(90);
  size->set_row_count_after(180);
  converted.mutable_check()->set_workable(true);
  return converted;
}

TEST(ConversionText, TellsSizesYarnAndWhatTheMakerDoesOtherwise) {
  v1::ConvertedChart converted = SomeConversion();
  EXPECT_THAT(TextOf(converted, kShort),
              HasSubstr("A picture chart for inset, flat, two-face, ends waiting."));
  EXPECT_THAT(TextOf(converted, kShort), HasSubstr("No cell had to change."));
  EXPECT_THAT(TextOf(converted, kShort), HasSubstr("worked rows  90      180"));
  EXPECT_THAT(TextOf(converted, kShort), HasSubstr("Give a gauge and a yarn"));
  EXPECT_THAT(TextOf(converted, kShort),
              HasSubstr("  --technique inset --facing two-face --ends waiting\n"));
  converted.mutable_design()->mutable_row_band()->set_first(4);
  converted.mutable_design()->mutable_row_band()->set_last(7);
  EXPECT_THAT(TextOf(converted, kShort), HasSubstr("--ends waiting --row-band 4-7\n"));
  auto& size = *converted.mutable_sizes(0);
  size.mutable_before()->mutable_before_blocking()->set_height_mm(500);
  size.mutable_after()->mutable_before_blocking()->set_height_mm(1000);
  for (auto* estimate : {size.mutable_before(), size.mutable_after()}) {
    auto* colour = estimate->add_yarns();
    colour->set_role(v1::YARN_ROLE_A);
    colour->set_length_mm(100000);
  }
  size.mutable_after()->mutable_yarns(0)->set_length_mm(150000);
  const std::string text = TextOf(converted, kShort);
  EXPECT_THAT(text, HasSubstr("50 cm (19.7 in)"));
  EXPECT_THAT(text, HasSubstr("100 cm (39.4 in)"));
  EXPECT_THAT(text, HasSubstr("150 m (164 yd)               150 %"));
  EXPECT_THAT(text, Not(HasSubstr("Give a gauge and a yarn")));
  ExpectFitsThePage(text);
}

TEST(RepeatsText, NamesTheBandsAndTheOptionsThatGoWithThem) {
  v1::Repeats repeats;
  EXPECT_EQ(TextOf(repeats), "Nothing is repeated, neither stitches nor rows.\n");
  auto* answer = repeats.add_answers();
  answer->mutable_stitch_band()->set_first(3);
  answer->mutable_stitch_band()->set_last(10);
  answer->set_stitch_repeat_count(12);
  answer->set_row_repeat_count(1);
  answer->set_stitch_multiple("multiple of 8 plus 10");
  answer->mutable_reduced()->mutable_chart()->set_row_count(40);
  answer->mutable_reduced()->mutable_chart()->set_stitch_count(18);
  repeats.set_answer_count(17);
  const std::string text = TextOf(repeats);
  EXPECT_THAT(text, HasSubstr("40 x 18"));
  EXPECT_THAT(text, HasSubstr("3-10, 12 times"));
  EXPECT_THAT(text, HasSubstr("The first 1 of 17 answers"));
  EXPECT_THAT(text, HasSubstr("--stitch-band 3-10 --size drawn:12x1"));
  ExpectFitsThePage(text);
}

TEST(ImportText, SaysWhatWasReadAndCutAway) {
  v1::ImportedChart imported;
  imported.mutable_chart()->set_row_count(60);
  imported.mutable_chart()->set_stitch_count(80);
  imported.mutable_report()->add_sentences("Cut away: 40 pixels at the left, with marks in them.");
  imported.set_swap_colours_offered(true);
  const std::string text = TextOf(imported);
  EXPECT_THAT(text, HasSubstr("40 pixels at the left"));
  EXPECT_THAT(text, HasSubstr("--swap-colours"));
}

// In words: a designer cannot act on a score.
TEST(ReadingLine, SaysTheSizeAndHowSureItIs) {
  v1::ImportedChart imported;
  imported.mutable_chart()->set_row_count(20);
  imported.mutable_chart()->set_stitch_count(24);
  v1::ImportReport& report = *imported.mutable_report();
  report.set_format(v1::CHART_FILE_FORMAT_PNG);
  report.set_cell_width_px(12);
  report.set_cell_height_px(15);
  report.set_cell_size_certain(true);
  EXPECT_EQ(ReadingLine(imported, "mat.png"),
            "Read 24 stitches x 20 rows from mat.png (cells of 12 x 15 pixels, sure).\n");
  report.set_cell_size_certain(false);
  EXPECT_THAT(ReadingLine(imported, "mat.png"), HasSubstr("not sure: compare the size"));
  ExpectFitsThePage(ReadingLine(imported, "mat.png"));
  report.mutable_grid()->set_pitch_x_px(12);
  report.mutable_grid()->set_pitch_y_px(10);
  EXPECT_EQ(ReadingLine(imported, "mat.png"),
            "Read 24 stitches x 20 rows from mat.png (grid lines found, sure).\n");
  report.mutable_grid()->set_pitch_y_px(10.5);
  EXPECT_THAT(ReadingLine(imported, "mat.png"), HasSubstr("unevenly spaced"));
  report.mutable_grid()->set_declared(true);
  report.mutable_grid()->set_line_width_x_px(1);
  EXPECT_THAT(ReadingLine(imported, "mat.png"), HasSubstr("(grid as you gave it)"));
  report.set_format(v1::CHART_FILE_FORMAT_CSV);
  imported.mutable_chart()->set_row_count(1);
  EXPECT_THAT(ReadingLine(imported, "-"),
              HasSubstr("Read 24 stitches x 1 row from standard input"));
}

}  // namespace
}  // namespace rowproof::client
