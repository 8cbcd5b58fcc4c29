#include "services/domain/testcalls/report.h"

#include <cmath>
#include <functional>
#include <limits>
#include <string>
#include <vector>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/domain/testcalls/report_validation.h"
#include "services/quantities/units.h"
#include "tests/domain/testcalls/sample_reports.h"

namespace rowproof::testcalls {
namespace {

using testing::ElementsAre;

std::vector<std::string> FieldsOf(const Report& report) {
  std::vector<std::string> fields;
  for (const auto& violation : DetailOf(Validate(report, SampleDesign(), {})).fields) {
    fields.push_back(violation.field);
  }
  return fields;
}

std::vector<std::string> FieldsAfter(const std::function<void(Report&)>& change) {
  Report report = SampleReport();
  change(report);
  return FieldsOf(report);
}

TEST(ValidateReport, AcceptsAWholeReportAndAnEmptyFirstOne) {
  EXPECT_THAT(FieldsOf(SampleReport()), ElementsAre());
  Report first;
  first.size = "S";
  first.version = 1;
  EXPECT_THAT(FieldsOf(first), ElementsAre());
}

TEST(ValidateReport, RefusesEveryNumberThatIsNoMeasurement) {
  const std::vector<std::pair<std::string, std::function<void(Report&, double)>>> numbers = {
      {"yarn[0].mass_before_g", [](Report& r, double v) { r.yarn[0].mass_before_g = v; }},
      {"yarn[0].mass_after_g", [](Report& r, double v) { r.yarn[0].mass_after_g = v; }},
      {"yarn[0].scale_step_g", [](Report& r, double v) { r.yarn[0].scale_step_g = v; }},
      {"yarn[0].yarn.wraps_per_inch",
       [](Report& r, double v) { r.yarn[0].yarn->wraps_per_inch = v; }},
      {"yarn[1].length_m", [](Report& r, double v) { r.yarn[1].length_m = v; }},
      {"yarn[1].length_step_m", [](Report& r, double v) { r.yarn[1].length_step_m = v; }},
      {"hook_mm", [](Report& r, double v) { r.hook_mm = v; }},
      {"gauge_before[0].stitches", [](Report& r, double v) { r.gauge_before[0].stitches = v; }},
      {"gauge_before[0].rows", [](Report& r, double v) { r.gauge_before[0].rows = v; }},
      {"gauge_before[0].stitch_span_mm",
       [](Report& r, double v) { r.gauge_before[0].stitch_span_mm = v; }},
      {"gauge_after[0].row_span_mm", [](Report& r, double v) { r.gauge_after[0].row_span_mm = v; }},
      {"gauge_after[0].scale_step_mm",
       [](Report& r, double v) { r.gauge_after[0].scale_step_mm = v; }},
      {"width_before_mm", [](Report& r, double v) { r.width_before_mm = v; }},
      {"height_before_mm", [](Report& r, double v) { r.height_before_mm = v; }},
      {"width_after_mm", [](Report& r, double v) { r.width_after_mm = v; }},
      {"height_after_mm", [](Report& r, double v) { r.height_after_mm = v; }},
      {"tape_step_mm", [](Report& r, double v) { r.tape_step_mm = v; }},
      {"minutes", [](Report& r, double v) { r.minutes = v; }},
  };
  const double infinite = std::numeric_limits<double>::infinity();
  for (const auto& number : numbers) {
    const auto& field = number.first;
    for (const double value : {std::nan(""), infinite, -infinite, -1.0, 1e300}) {
      const auto fields = FieldsAfter([&](Report& report) { number.second(report, value); });
      EXPECT_THAT(fields, testing::Contains(field)) << value;
    }
    const bool zero_fits =
        field == "yarn[0].mass_after_g" || field == "gauge_after[0].scale_step_mm";
    const auto zero = FieldsAfter([&](Report& report) { number.second(report, 0); });
    EXPECT_EQ(zero.empty(), zero_fits) << field;
  }
}

TEST(ValidateReport, RefusesAnswersThatContradictEachOther) {
  EXPECT_THAT(FieldsAfter([](Report& r) { r.yarn[0].mass_after_g = 100; }),
              ElementsAre("yarn[0].mass_after_g"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.yarn[0].mass_after_g.reset(); }),
              ElementsAre("yarn[0].mass_after_g"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.yarn[0].mass_before_g.reset(); }),
              ElementsAre("yarn[0].mass_before_g"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.yarn[0].length_m = 10; }),
              ElementsAre("yarn[0].length_m"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.yarn[1].length_m.reset(); }),
              ElementsAre("yarn[1].length_m"));
  EXPECT_THAT(FieldsAfter([](Report& r) { std::swap(r.yarn[0], r.yarn[1]); }),
              ElementsAre("yarn[1].role"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.yarn[1].colour = estimate::YarnColour::kA; }),
              ElementsAre("yarn[1].role"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.last_row = 23; }), ElementsAre("last_row"));
  EXPECT_THAT(FieldsAfter([](Report& r) {
                r.gauge_before.push_back({2, 24, 100, 100, 1});
              }),
              ElementsAre("gauge_before"));
}

TEST(ValidateReport, RefusesPlacesPastTheSize) {
  EXPECT_THAT(FieldsAfter([](Report& r) { r.size = "XL"; }), ElementsAre("size"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.version = 0; }), ElementsAre("version"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.last_row = 25; }), ElementsAre("last_row"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.last_row = -1; }), ElementsAre("last_row"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.size = "S"; }), ElementsAre("last_row"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.errata[0].row = 25; }), ElementsAre("errata[0].row"));
}

TEST(ValidateReport, RefusesTextsAndListsOverTheirLimits) {
  EXPECT_THAT(FieldsAfter([](Report& r) { r.remarks = std::string(kLongestRemarks + 1, 'x'); }),
              ElementsAre("remarks"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.remarks = "bell\a"; }), ElementsAre("remarks"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.how_blocked = "a\nb"; }), ElementsAre("how_blocked"));
  EXPECT_THAT(FieldsAfter([](Report& r) { r.errata.assign(kMostErrata + 1, r.errata[0]); }),
              ElementsAre("errata"));
  EXPECT_THAT(FieldsAfter([](Report& r) {
                r.gauge_before.assign(kMostReportedReadings + 1, r.gauge_before[0]);
              }),
              ElementsAre("gauge_before"));
}

TEST(ValidateReport, NamesAllThatIsWrongAtOnce) {
  EXPECT_THAT(FieldsAfter([](Report& r) {
                r.hook_mm = 0;
                r.minutes = -5;
                r.errata[0].last_stitch = 99;
              }),
              ElementsAre("hook_mm", "minutes", "errata[0].last_stitch"));
}

TEST(WorkedRows, AreTwoAChartRowForInset) {
  chart::Design design = SampleDesign();
  EXPECT_EQ(WorkedRowCount(design, 1), 24);
  design.technique = chart::Technique::kInset;
  EXPECT_EQ(WorkedRowCount(design, 1), 48);
}

TEST(YarnUsed, ConvertsWeightsByTheBallBand) {
  // Common practice's arithmetic: 1.6 oz left of a skein of 3.5 oz and 306 yd are
  // 306 * 1.6 / 3.5 = 139.8857 yd left, so 166.1143 yd are used.
  Report report;
  YarnUse use;
  use.yarn = estimate::Yarn{
      "", "", 4, std::nullopt, 306 * quantities::kMetresPerYard, 3.5 * quantities::kGramsPerOunce};
  use.mass_before_g = 3.5 * quantities::kGramsPerOunce;
  use.mass_after_g = 1.6 * quantities::kGramsPerOunce;
  report.yarn = {use};
  const auto used = YarnUsed(report, {});
  ASSERT_EQ(used.size(), 1u);
  EXPECT_NEAR(306 - *used[0].length_m / quantities::kMetresPerYard, 139.886, 0.0005);
}

TEST(YarnUsed, CarriesTheUncertaintyOfReading) {
  const auto used = YarnUsed(SampleReport(), {});
  ASSERT_EQ(used.size(), 2u);
  // 62 g of 125 m in 50 g (400 tex): 155 m. Two readings to 1 g, each 0.5 / sqrt(3) g (JCGM
  // 100:2008 4.3.7): 0.4082 g, so 1.0206 m.
  EXPECT_DOUBLE_EQ(*used[0].mass_g, 62);
  EXPECT_NEAR(*used[0].mass_uncertainty_g, 0.408248, 1e-6);
  EXPECT_DOUBLE_EQ(*used[0].length_m, 155);
  EXPECT_NEAR(*used[0].length_uncertainty_m, 1.020621, 1e-6);
  EXPECT_TRUE(used[0].with_border);
  // A length to 1 m: 0.2887 m.
  EXPECT_DOUBLE_EQ(*used[1].length_m, 120.5);
  EXPECT_NEAR(*used[1].length_uncertainty_m, 0.288675, 1e-6);
  EXPECT_FALSE(used[1].mass_g.has_value());
}

TEST(YarnUsed, TakesTheDesignsBallBandWhereNoYarnIsNamed) {
  Report report = SampleReport();
  report.yarn[0].yarn.reset();
  EXPECT_FALSE(YarnUsed(report, {})[0].length_m.has_value());
  estimate::Materials materials;
  materials.yarn_a = {"", "", 4, std::nullopt, 100, 50};
  EXPECT_DOUBLE_EQ(*YarnUsed(report, materials)[0].length_m, 124);
  report.yarn[0].yarn = estimate::Yarn{"", "", 4, std::nullopt, std::nullopt, std::nullopt};
  // Another yarn without a band is not of the design's band.
  EXPECT_FALSE(YarnUsed(report, materials)[0].length_m.has_value());
}

TEST(YarnUsed, KnowsEveryYarnOfTheVersionAndTex) {
  Report report;
  estimate::Materials materials;
  materials.more_yarns.resize(2);
  materials.more_yarns[1] = {"", "", 4, std::nullopt, std::nullopt, std::nullopt, 500.0};  // D
  YarnUse d;
  d.colour = estimate::YarnColour::kD;
  d.mass_before_g = 100;
  d.mass_after_g = 40;
  report.yarn = {d};
  EXPECT_DOUBLE_EQ(*YarnUsed(report, materials)[0].length_m, 120);  // 60 g at 500 g/km
  report.yarn[0].colour = estimate::YarnColour::kC;  // whose yarn says nothing of its density
  EXPECT_FALSE(YarnUsed(report, materials)[0].length_m.has_value());
  report.yarn[0].yarn = estimate::Yarn{"", "", 4, std::nullopt, std::nullopt, std::nullopt, 250.0};
  EXPECT_DOUBLE_EQ(*YarnUsed(report, materials)[0].length_m, 240);
}

TEST(ValidateReport, TakesTheYarnsOfThePatternInTheirOrder) {
  chart::Design design = SampleDesign();
  design.row_colours.assign(20, chart::Colour::kA);
  design.row_colours[4] = chart::Colour::kC;
  estimate::Materials materials = {};
  materials.border = {1, estimate::YarnColour::kBorder, false};
  Report report = SampleReport();
  const auto of = [](estimate::YarnColour colour) {
    YarnUse use;
    use.colour = colour;
    use.length_m = 10;
    return use;
  };
  using enum estimate::YarnColour;
  report.yarn = {of(kA), of(kC), of(kBorder)};
  EXPECT_TRUE(Validate(report, design, materials).ok()) << Validate(report, design, materials);
  report.yarn = {of(kA), of(kBorder), of(kC)};
  EXPECT_EQ(DetailOf(Validate(report, design, materials)).fields.at(0).field, "yarn[2].role");
  report.yarn = {of(kA), of(kD)};
  const auto fields = DetailOf(Validate(report, design, materials)).fields;
  ASSERT_EQ(fields.size(), 1u);
  EXPECT_EQ(fields[0].field, "yarn[1].role");
  EXPECT_NE(fields[0].description.find("A, C and border"), std::string::npos);
}

TEST(MaterialsOfReport, TakesTheTestersOwnYarnHookEndsAndGauge) {
  estimate::Materials version;
  version.yarn_a.weight_class = 3;
  version.yarn_b.weight_class = 3;
  version.gauge = {18, 20, std::nullopt, std::nullopt};
  version.gauge_after_blocking = estimate::Gauge{17, 19, std::nullopt, std::nullopt};
  version.border = {2, estimate::YarnColour::kA, false};
  version.swatch = estimate::Swatch{20, 20};
  version.hook_mm = 4;
  const Report report = SampleReport();

  const TesterMaterials whole = MaterialsOf(report, version, std::nullopt);
  EXPECT_TRUE(estimate::Validate(whole.materials).ok()) << estimate::Validate(whole.materials);
  EXPECT_EQ(whole.materials.yarn_a.name, "Invented Wool");
  EXPECT_EQ(whole.materials.yarn_b.weight_class, 3);
  EXPECT_EQ(whole.materials.hook_mm, 4.5);
  EXPECT_EQ(whole.materials.ends, chart::Ends::kCarried);
  EXPECT_DOUBLE_EQ(whole.materials.gauge.stitches_per_decimetre, 21);
  EXPECT_DOUBLE_EQ(whole.materials.gauge_after_blocking->rows_per_decimetre, 23.5 / 1.016);
  EXPECT_FALSE(whole.gauge_assumed);
  EXPECT_EQ(whole.materials.border.rounds, 2);
  EXPECT_FALSE(whole.materials.swatch.has_value());

  EXPECT_EQ(MaterialsOf(report, version, estimate::YarnColour::kA).materials.border.rounds, 2);
  EXPECT_EQ(MaterialsOf(report, version, estimate::YarnColour::kB).materials.border.rounds, 0);
}

TEST(MaterialsOfReport, SaysWhereGaugeOrSwatchAreNotKnown) {
  estimate::Materials version;
  version.gauge = {18, 20, std::nullopt, std::nullopt};
  version.gauge_after_blocking = version.gauge;
  Report report = SampleReport();
  report.gauge_before.clear();
  report.gauge_after.clear();
  report.yarn[0].with_swatch = true;
  const TesterMaterials made = MaterialsOf(report, version, estimate::YarnColour::kA);
  EXPECT_TRUE(made.gauge_assumed);
  EXPECT_EQ(made.materials.gauge, version.gauge);
  EXPECT_EQ(made.materials.gauge_after_blocking, version.gauge_after_blocking);
  EXPECT_TRUE(made.swatch_unknown);
  // Without a reading after blocking, the tester's fabric after blocking is not known.
  report = SampleReport();
  report.gauge_after.clear();
  EXPECT_FALSE(
      MaterialsOf(report, version, std::nullopt).materials.gauge_after_blocking.has_value());
}

}  // namespace
}  // namespace rowproof::testcalls
