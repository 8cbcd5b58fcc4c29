// ChartService as any client calls it, inside this process and without storage.
#include <algorithm>
#include <string>
#include <vector>

#include "tests/rpc/chart_service_fixture.h"

namespace rowproof::rpc {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

v1::Materials Materials() {
  v1::Materials materials;
  materials.mutable_gauge()->set_stitches_per_decimetre(14);
  materials.mutable_gauge()->set_rows_per_decimetre(16);
  for (const auto role : {v1::YARN_ROLE_A, v1::YARN_ROLE_B}) {
    materials.add_yarns()->set_role(role);
    materials.mutable_yarns(materials.yarns_size() - 1)->mutable_yarn()->set_wraps_per_inch(10);
  }
  return materials;
}

std::vector<v1::FindingCode> Codes(const v1::CheckResult& check) {
  std::vector<v1::FindingCode> codes;
  for (const auto& finding : check.findings()) codes.push_back(finding.code());
  return codes;
}

TEST_F(ChartServiceTest, ChecksEveryTechniqueFacingFormAndWayWithTheEnds) {
  const struct {
    v1::Technique technique;
    v1::Facing facing;
    v1::Ends ends;
    v1::Form form;
  } ways[] = {
      {v1::TECHNIQUE_SPIKE, v1::FACING_ONE_FACE, v1::ENDS_CUT, v1::FORM_FLAT},
      {v1::TECHNIQUE_SPIKE, v1::FACING_TWO_FACE, v1::ENDS_CARRIED, v1::FORM_FLAT},
      {v1::TECHNIQUE_SPIKE, v1::FACING_PAIRED, v1::ENDS_WAITING, v1::FORM_FLAT},
      {v1::TECHNIQUE_SPIKE, v1::FACING_ONE_FACE, v1::ENDS_WAITING, v1::FORM_TUBE},
      {v1::TECHNIQUE_OVERLAY, v1::FACING_ONE_FACE, v1::ENDS_CUT, v1::FORM_FLAT},
      {v1::TECHNIQUE_OVERLAY, v1::FACING_ONE_FACE, v1::ENDS_WAITING, v1::FORM_TUBE},
      {v1::TECHNIQUE_INSET, v1::FACING_TWO_FACE, v1::ENDS_WAITING, v1::FORM_FLAT},
  };
  for (const auto& way : ways) {
    v1::Design design = Picture(kMotif);
    design.set_technique(way.technique);
    design.set_facing(way.facing);
    design.set_ends(way.ends);
    design.set_form(way.form);
    const auto check = Check(design);
    EXPECT_TRUE(check.workable()) << design.ShortDebugString();
    EXPECT_THAT(Codes(check), IsEmpty()) << design.ShortDebugString();
    const v1::Design read = ReadBack(design);
    EXPECT_EQ(read.technique(), way.technique);
    EXPECT_EQ(read.facing(), way.facing);
    EXPECT_EQ(read.ends(), way.ends);
    EXPECT_EQ(read.form(), way.form);
    EXPECT_EQ(read.chart().cells(), design.chart().cells());
  }
}

TEST_F(ChartServiceTest, TakesFacingAndEndsAsUsualWhereNothingIsSaid) {
  const struct {
    v1::Technique technique;
    v1::Form form;
    v1::Facing facing;
    v1::Ends ends;
  } usual[] = {
      {v1::TECHNIQUE_UNSPECIFIED, v1::FORM_UNSPECIFIED, v1::FACING_TWO_FACE, v1::ENDS_CUT},
      {v1::TECHNIQUE_SPIKE, v1::FORM_TUBE, v1::FACING_ONE_FACE, v1::ENDS_WAITING},
      {v1::TECHNIQUE_OVERLAY, v1::FORM_FLAT, v1::FACING_ONE_FACE, v1::ENDS_CUT},
      {v1::TECHNIQUE_INSET, v1::FORM_FLAT, v1::FACING_TWO_FACE, v1::ENDS_WAITING},
  };
  for (const auto& way : usual) {
    v1::Design design = Picture(kMotif);
    design.set_technique(way.technique);
    design.set_form(way.form);
    const v1::Design read = ReadBack(design);
    EXPECT_EQ(read.facing(), way.facing) << way.technique;
    EXPECT_EQ(read.ends(), way.ends) << way.technique;
  }
  v1::Design paired = Picture(kMotif);
  paired.set_facing(v1::FACING_PAIRED);
  EXPECT_EQ(ReadBack(paired).ends(), v1::ENDS_WAITING);
}

TEST_F(ChartServiceTest, ReadsAPictureThatNamesItsColours) {
  v1::Design design;
  *design.mutable_chart() = NamedChart({"BBBB", "CCBC", "BCBB", "AAAA"}, "ABCB");
  // Row 3's drop in C goes down to row 1 in A: it can be worked, with a warning.
  EXPECT_THAT(Codes(Check(design)), ElementsAre(v1::FINDING_CODE_FOREIGN_ANCHOR));
  EXPECT_TRUE(Check(design).workable());
  const v1::Chart read = ReadBack(design).chart();
  EXPECT_EQ(read.picture_colours(), design.chart().picture_colours());
  // Marks: row 2 shows C at stitch 3, row 3 shows B at stitch 2.
  EXPECT_EQ(read.cells(), std::string("\0\x04\x02\0", 4));
  // D stands neither in row 2 nor in row 3.
  (*design.mutable_chart()->mutable_picture_colours())[6] = 4;
  const auto check = Check(design);
  EXPECT_FALSE(check.workable());
  EXPECT_EQ(check.error_count(), 1);
  ASSERT_GE(check.findings_size(), 1);
  EXPECT_EQ(check.findings(0).code(), v1::FINDING_CODE_FOREIGN_COLOUR);
  EXPECT_EQ(check.findings(0).edit().row(), 2);
  EXPECT_EQ(check.findings(0).edit().stitch(), 3);
}

TEST_F(ChartServiceTest, RefusesPictureColoursThatDoNotFit) {
  v1::CheckChartRequest request;
  const v1::Chart good = NamedChart({"CCCC", "BCBB", "AAAA"}, "ABC");
  *request.mutable_design()->mutable_chart() = good;
  auto& chart = *request.mutable_design()->mutable_chart();
  chart.mutable_picture_colours()->pop_back();
  ExpectWrongField(&Stub::CheckChart, request, "design.chart.picture_colours", "11 bytes",
                   "12 bytes");
  chart = good;
  (*chart.mutable_picture_colours())[3] = 9;
  ExpectWrongField(&Stub::CheckChart, request, "design.chart.picture_colours", "9 at byte 3",
                   "1 to 8");
  chart = good;
  *chart.mutable_cells() = std::string(3, '\0');  // says that no cell is off-colour
  ExpectWrongField(&Stub::CheckChart, request, "design.chart.picture_colours", "\"C\"",
                   "another if it is");
  chart = good;
  chart.clear_picture_colours();
  ExpectWrongField(&Stub::CheckChart, request, "design.chart.cells", "0 bytes", "3 bytes");
  chart = good;
  chart.set_row_colours(1, static_cast<v1::Colour>(11));
  ExpectWrongField(&Stub::CheckChart, request, "design.chart.row_colours[1]", "11", "A to H");
  chart = good;
  chart.mutable_row_colours()->RemoveLast();
  ExpectWrongField(&Stub::CheckChart, request, "design.chart.row_colours", "2 colours", "3 rows");
}

TEST_F(ChartServiceTest, SaysTheEditTheTotalsAndTheMultiples) {
  v1::Design design = Picture({"AAAA", "BBBB", "ABAA", "BABB", "AAAA"});
  design.mutable_stitch_band()->set_first(2);
  design.mutable_stitch_band()->set_last(3);
  auto* size = design.add_sizes();
  size->set_name("M");
  size->set_stitch_repeat_count(3);
  const auto check = Check(design);
  EXPECT_FALSE(check.workable());
  ASSERT_THAT(Codes(check), ElementsAre(v1::FINDING_CODE_DROP_OVER_DROP));
  const auto& finding = check.findings(0);
  EXPECT_EQ(finding.row(), 3);
  EXPECT_EQ(finding.stitch(), 3);
  ASSERT_TRUE(finding.has_edit());
  EXPECT_EQ(finding.edit().stitch(), 3);
  EXPECT_NE(finding.edit().colour(), v1::COLOUR_UNSPECIFIED);
  EXPECT_EQ(finding.first_worked_row(), 3);
  EXPECT_EQ(finding.last_worked_row(), 3);
  ASSERT_EQ(check.code_counts_size(), 1);
  EXPECT_EQ(check.code_counts(0).code(), v1::FINDING_CODE_DROP_OVER_DROP);
  EXPECT_EQ(check.code_counts(0).count(), check.error_count());
  EXPECT_EQ(check.stitch_multiple(), "multiple of 2 plus 2");
  EXPECT_EQ(check.row_multiple(), "");
}

TEST_F(ChartServiceTest, NamesBothWorkedRowsOfAnInsetChartRow) {
  v1::Design design = Picture({"AAAAA", "BBBBB", "AAAAB", "BBBBB", "AAAAA"});
  design.set_technique(v1::TECHNIQUE_INSET);
  const auto check = Check(design);
  ASSERT_THAT(Codes(check), ElementsAre(v1::FINDING_CODE_EDGE_SKIP));
  EXPECT_EQ(check.findings(0).row(), 3);
  EXPECT_EQ(check.findings(0).first_worked_row(), 5);
  EXPECT_EQ(check.findings(0).last_worked_row(), 6);
}

TEST_F(ChartServiceTest, OffersTheOtherReadingWhereThatIsCertain) {
  // The picture of the motif, given as a working chart: all of row 2 would be drops.
  v1::Design design = Working(kMotif);
  const auto check = Check(design);
  EXPECT_FALSE(check.workable());
  EXPECT_EQ(check.reading_offered(), v1::FINDING_CODE_OTHER_CONVENTION);
  EXPECT_EQ(check.convention_offered(), v1::CONVENTION_PICTURE);
  EXPECT_EQ(Check(Picture(kMotif)).reading_offered(), v1::FINDING_CODE_UNSPECIFIED);
  EXPECT_EQ(Check(Picture(kMotif)).convention_offered(), v1::CONVENTION_UNSPECIFIED);

  const auto drops = Check(Picture({".....", ".x.x.", ".....", ".xxx.", ".....", "....."}));
  EXPECT_EQ(drops.reading_offered(), v1::FINDING_CODE_OTHER_CONVENTION);
  EXPECT_EQ(drops.convention_offered(), v1::CONVENTION_WORKING);
  // The marks of a working chart one row too low: those of a picture.
  const auto marks = Check(Working({".....", ".....", ".xxx.", "....."}));
  EXPECT_EQ(marks.reading_offered(), v1::FINDING_CODE_MARKS_OF_OTHER_CONVENTION);
  EXPECT_EQ(marks.convention_offered(), v1::CONVENTION_PICTURE);
  // Exchanged colours are no other convention.
  const auto swapped = Check(Picture({"BBBBB", "AAAAA", "BBABB", "AAAAA", "BBBBB"}));
  EXPECT_EQ(swapped.reading_offered(), v1::FINDING_CODE_COLOURS_SWAPPED);
  EXPECT_EQ(swapped.convention_offered(), v1::CONVENTION_UNSPECIFIED);
}

TEST_F(ChartServiceTest, ChecksByTheSettingsOfTheRequest) {
  v1::CheckChartRequest request;
  *request.mutable_design() = Working({".......", ".xxxxx.", ".......", "......."});
  request.mutable_design()->set_technique(v1::TECHNIQUE_INSET);
  EXPECT_THAT(Codes(Ask(&Stub::CheckChart, request)), ElementsAre(v1::FINDING_CODE_LONG_SKIP));
  request.mutable_settings()->set_longest_skip(5);
  EXPECT_THAT(Codes(Ask(&Stub::CheckChart, request)), IsEmpty());
  request.mutable_settings()->set_longest_skip(-1);
  ExpectWrongField(&Stub::CheckChart, request, "settings.longest_skip", "\"-1\"", "0 or more");
}

TEST_F(ChartServiceTest, RepairsWithSymmetriesLocksAndALimitOnRuns) {
  v1::RepairChartRequest request;
  *request.mutable_design() = Working({".....", "..x..", "..x..", ".....", "....."});
  auto repair = Ask(&Stub::RepairChart, request);
  EXPECT_EQ(repair.edit_count(), 1);
  EXPECT_EQ(repair.lower_bound(), 1);
  EXPECT_TRUE(repair.optimal());
  EXPECT_EQ(repair.edits(0).colour(), v1::COLOUR_UNSPECIFIED);
  const int taken = repair.edits(0).row();
  auto* lock = request.mutable_options()->add_locked_areas();
  lock->set_first_row(taken);
  lock->set_first_stitch(3);
  repair = Ask(&Stub::RepairChart, request);
  ASSERT_EQ(repair.edit_count(), 1);
  EXPECT_NE(repair.edits(0).row(), taken);
  lock->clear_first_row();  // the whole column
  ExpectUnmet(&Stub::RepairChart, request, "LOCKS_CLASH", "drop-over-drop");

  *request.mutable_design() = Working({".....", ".xx..", ".....", ".....", "....."});
  request.mutable_options()->Clear();
  request.mutable_options()->set_longest_run(1);
  repair = Ask(&Stub::RepairChart, request);
  EXPECT_EQ(repair.edit_count(), 1);
  request.mutable_options()->Clear();
  request.mutable_options()->add_symmetries(v1::SYMMETRY_LEFT_RIGHT);
  repair = Ask(&Stub::RepairChart, request);
  EXPECT_EQ(repair.edit_count(), 1);
  EXPECT_EQ(repair.edits(0).stitch() == 2 || repair.edits(0).stitch() == 4, true);
}

TEST_F(ChartServiceTest, RefusesWrongOptionsOfARepairByTheirField) {
  v1::RepairChartRequest request;
  *request.mutable_design() = Working({"....", "....", "....", "...."});
  auto& options = *request.mutable_options();
  options.set_longest_run(-3);
  ExpectWrongField(&Stub::RepairChart, request, "options.longest_run", "\"-3\"", "1 to 4000");
  options.Clear();
  options.add_symmetries(static_cast<v1::Symmetry>(7));
  ExpectWrongField(&Stub::RepairChart, request, "options.symmetries[0]", "\"7\"", "half turn");
  options.Clear();
  options.add_locked_areas()->set_first_row(2);
  options.mutable_locked_areas(0)->set_last_row(5);
  ExpectWrongField(&Stub::RepairChart, request, "options.locked_areas[0].last_row", "\"5\"",
                   "from 2 to 4");
  options.Clear();
  options.add_locked_areas()->set_first_stitch(9);
  ExpectWrongField(&Stub::RepairChart, request, "options.locked_areas[0].first_stitch", "\"9\"",
                   "from 1 to 4");
  // Four rows in two colours: the first and the last are not of one colour.
  options.Clear();
  options.add_symmetries(v1::SYMMETRY_TOP_TO_BOTTOM);
  ExpectUnmet(&Stub::RepairChart, request, "SYMMETRY_CANNOT_HOLD", "top-to-bottom");
}

TEST_F(ChartServiceTest, ConvertsAndSaysWhatChanges) {
  v1::ConvertChartRequest request;
  *request.mutable_design() = Picture({"AAAAA", "BBABB", "AAAAB", "BBABB", "AAAAA"});
  request.set_technique(v1::TECHNIQUE_OVERLAY);
  const auto converted = Ask(&Stub::ConvertChart, request);
  EXPECT_EQ(converted.design().technique(), v1::TECHNIQUE_OVERLAY);
  ASSERT_EQ(converted.edit_count(), 1);
  EXPECT_EQ(converted.edits(0).row(), 3);
  EXPECT_EQ(converted.edits(0).stitch(), 1);
  EXPECT_EQ(converted.edits(0).colour(), v1::COLOUR_A);
  EXPECT_TRUE(converted.facing_changed());
  EXPECT_FALSE(converted.ends_changed());
  EXPECT_TRUE(converted.check().workable());
  std::vector<v1::MakerAspect> aspects;
  for (const auto& change : converted.changes()) aspects.push_back(change.aspect());
  EXPECT_THAT(aspects, ElementsAre(v1::MAKER_ASPECT_DROP_STITCH, v1::MAKER_ASPECT_EDGES,
                                   v1::MAKER_ASPECT_FACING, v1::MAKER_ASPECT_FACE_2));
  ASSERT_EQ(converted.sizes_size(), 1);
  EXPECT_EQ(converted.sizes(0).row_count_after(), 5);
  EXPECT_FALSE(converted.sizes(0).has_before());

  request.set_technique(v1::TECHNIQUE_UNSPECIFIED);
  request.set_convention(v1::CONVENTION_WORKING);
  const auto working = Ask(&Stub::ConvertChart, request).design();
  EXPECT_EQ(working.chart().cells(),
            ChartOf({"..x..", "....x", "..x..", ".....", "....."}, v1::CONVENTION_WORKING).cells());
}

// Inset works two rows a chart row: at one gauge the picture is twice as tall, and as wide.
TEST_F(ChartServiceTest, SaysYarnAndFinishedSizeBeforeAndAfterAConversion) {
  v1::ConvertChartRequest request;
  *request.mutable_design() = Picture(kMotif);
  request.mutable_design()->set_technique(v1::TECHNIQUE_OVERLAY);
  request.set_technique(v1::TECHNIQUE_INSET);
  *request.mutable_materials() = Materials();
  const auto converted = Ask(&Stub::ConvertChart, request);
  ASSERT_EQ(converted.sizes_size(), 1);
  const auto& size = converted.sizes(0);
  EXPECT_EQ(size.row_count_before(), 5);
  EXPECT_EQ(size.row_count_after(), 10);
  EXPECT_DOUBLE_EQ(size.after().before_blocking().height_mm(),
                   2 * size.before().before_blocking().height_mm());
  EXPECT_DOUBLE_EQ(size.after().before_blocking().width_mm(),
                   size.before().before_blocking().width_mm());
  ASSERT_EQ(size.before().yarns_size(), 2);
  ASSERT_EQ(size.after().yarns_size(), 2);
  EXPECT_GT(size.after().yarns(0).length_mm(), size.before().yarns(0).length_mm());
  const auto assumed = [](const v1::SizeEstimate& estimate) {
    return std::any_of(estimate.assumptions().begin(), estimate.assumptions().end(),
                       [](const auto& line) { return line.find("gauge") != std::string::npos; });
  };
  const auto notes = [](const v1::SizeEstimate& estimate) {
    return std::any_of(estimate.notes().begin(), estimate.notes().end(), [](const auto& note) {
      return note.code() == v1::ESTIMATE_NOTE_CODE_GAUGE_OF_ANOTHER_FABRIC;
    });
  };
  EXPECT_TRUE(assumed(size.after()) || notes(size.after()));
  EXPECT_FALSE(notes(size.before()));

  *request.mutable_materials_after() = Materials();
  request.mutable_materials_after()->mutable_gauge()->set_rows_per_decimetre(20);
  const auto measured = Ask(&Stub::ConvertChart, request);
  EXPECT_DOUBLE_EQ(measured.sizes(0).after().before_blocking().height_mm(),
                   size.after().before_blocking().height_mm() * 16 / 20);
  EXPECT_FALSE(notes(measured.sizes(0).after()));
}

TEST_F(ChartServiceTest, RefusesConversionsThatCannotBe) {
  v1::ConvertChartRequest request;
  *request.mutable_design() = Picture(kMotif);
  request.set_technique(v1::TECHNIQUE_OVERLAY);
  request.set_ends(v1::ENDS_CARRIED);
  ExpectWrongField(&Stub::ConvertChart, request, "ends", "\"carried\"", "cut");
  request.clear_ends();
  request.set_facing(v1::FACING_PAIRED);
  ExpectWrongField(&Stub::ConvertChart, request, "facing", "\"paired\"", "one-face");
  request.clear_facing();
  request.set_technique(static_cast<v1::Technique>(8));
  ExpectWrongField(&Stub::ConvertChart, request, "technique", "\"8\"", "spike, overlay or inset");
  request.set_technique(v1::TECHNIQUE_INSET);
  *request.mutable_materials_after() = Materials();
  ExpectWrongField(&Stub::ConvertChart, request, "materials", "", "given with materials_after");
  *request.mutable_materials() = Materials();
  request.mutable_materials_after()->mutable_gauge()->set_rows_per_decimetre(-1);
  ExpectWrongField(&Stub::ConvertChart, request, "materials_after.gauge.rows_per_decimetre",
                   "\"-1\"", "between 0.5 and 200");
  request.clear_materials();
  request.clear_materials_after();
  request.mutable_design()->set_form(v1::FORM_TUBE);
  ExpectUnmet(&Stub::ConvertChart, request, "CANNOT_BE_CONVERTED", "form");
}

TEST_F(ChartServiceTest, FindsTheRepeatsOfAFullSizeDrawing) {
  // Four stitches three times between one edge stitch at each side.
  v1::FindRepeatsRequest request;
  *request.mutable_design() = Working({"..............",  //
                                       "..x...x...x...",  //
                                       "..............",  //
                                       ".............."});
  const auto repeats = Ask(&Stub::FindRepeats, request);
  ASSERT_GE(repeats.answers_size(), 1);
  EXPECT_EQ(repeats.answers(0).stitch_band().last() - repeats.answers(0).stitch_band().first(), 3);
  EXPECT_EQ(repeats.answers(0).stitch_repeat_count(), 3);
  EXPECT_EQ(repeats.answers(0).reduced().chart().stitch_count(), 6);
  EXPECT_EQ(repeats.answers(0).stitch_multiple(), "multiple of 4 plus 2");
  EXPECT_GE(repeats.answer_count(), repeats.answers_size());
  request.set_max_answer_count(101);
  ExpectWrongField(&Stub::FindRepeats, request, "max_answer_count", "\"101\"", "100");
  request.clear_max_answer_count();
  request.mutable_design()->mutable_stitch_band()->set_first(2);
  request.mutable_design()->mutable_stitch_band()->set_last(5);
  const grpc::Status status = Refusal(&Stub::FindRepeats, request);
  EXPECT_EQ(status.error_code(), grpc::INVALID_ARGUMENT);
}

TEST_F(ChartServiceTest, TakesAFoundationOfWorkedStitchesAsAnAnchor) {
  v1::Design design = Working({".....", "..x..", "....."});
  EXPECT_THAT(Codes(Check(design)), ElementsAre(v1::FINDING_CODE_NO_ANCHOR));
  design.set_foundation_colour(v1::COLOUR_B);  // row 2's colour
  EXPECT_TRUE(Check(design).workable());
  EXPECT_EQ(ReadBack(design).foundation_colour(), v1::COLOUR_B);
  v1::CheckChartRequest request;
  design.set_foundation_colour(static_cast<v1::Colour>(9));
  *request.mutable_design() = design;
  ExpectWrongField(&Stub::CheckChart, request, "design.foundation_colour", "\"9\"", "A to H");
}

}  // namespace
}  // namespace rowproof::rpc
