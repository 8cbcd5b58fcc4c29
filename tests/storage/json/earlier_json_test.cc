// What earlier builds stored is read as it was meant, and written again byte for byte. The texts
// were written by the build of the commit "Give the demonstration a server of its own"; all is
// invented.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "storage/json/call_settings_json.h"
#include "storage/json/comparison_json.h"
#include "storage/json/reconciliation_json.h"
#include "storage/json/version_json.h"
#include "storage/unreadable_value.h"

namespace rowproof::storage {
namespace {

chart::CheckResult Findings() {
  chart::CheckResult check;
  chart::Finding drop{chart::FindingCode::kDropOverDrop,
                      chart::Severity::kError,
                      3,
                      4,
                      5,
                      chart::Seam::kJoin,
                      1,
                      2};
  drop.edit = chart::Edit{3, 4, true, chart::Colour::kH};
  check.findings = {drop, {chart::FindingCode::kNoAnchor, chart::Severity::kNote, 1, 2, 2}};
  check.findings[1].edit = chart::Edit{1, 2, false, std::nullopt};
  check.code_counts[static_cast<size_t>(chart::FindingCode::kDropOverDrop)] = 4'000'000'000;
  check.code_counts[static_cast<size_t>(chart::FindingCode::kNoAnchor)] = 1;
  return check;
}

std::vector<estimate::SizeEstimate> Estimates() {
  estimate::SizeEstimate size;
  size.size =
      "Gr\xc3\xb6\xc3\x9f"
      "e \"2\" \\ \n";
  size.stitches = 71;
  size.rows = 84;
  size.plain_stitches = 5000;
  size.drop_stitches = 964;
  size.chain_stitches = 72;
  estimate::ColourEstimate colour;
  colour.colour = estimate::YarnColour::kBorder;
  colour.plain_stitches = 12;
  colour.rows = 42;
  colour.parts = {{estimate::PartKind::kStitches, 1.0 / 3, 0.5}, {estimate::PartKind::kJoins, 200}};
  colour.length_mm = 123456.75;
  colour.length_uncertainty_mm = 1e-7;
  colour.length_contributions = {{estimate::UncertaintySource::kStitchGauge, 0.1}};
  colour.length_interval_mm = {1, 2e300, 0.95};
  colour.one_stitch_more_mm = 0.1 + 0.2;
  colour.upper_length_mm = 235;
  colour.published_length_m = 235;
  colour.published_length_yd = 260;
  colour.mass_g = 93.5;
  colour.balls = 3;
  colour.mass_interval_g = estimate::Interval{0.05, 0.2, 0.95};
  size.colours = {colour};
  size.before_blocking.width_mm = 710;
  size.before_blocking.height_contributions = {{estimate::UncertaintySource::kCalibration, 2}};
  size.after_blocking = estimate::Extent{};
  size.minutes = 450;
  size.minutes_interval = {400, 500, 0.9};
  size.minutes_contributions = {{estimate::UncertaintySource::kRate, 25}};
  size.ends_to_weave_in = 168;
  size.hook_mm = 4.5;
  size.hook_us_label = "7";
  size.calibration = "calibrations/c1";
  size.assumed = {"slack", "tail"};
  size.notes = {{estimate::NoteCode::kHookOutsideClass, "A note."}};
  size.cautions = {{estimate::CautionCode::kHeat, "A caution."}};
  return {size};
}

rows::Comparison Comparison() {
  rows::Comparison comparison;
  comparison.terms = chart::Terms::kUk;
  comparison.reading = {
      {rows::TextFindingCode::kUnreadable, chart::Severity::kWarning, {3, 9}, 7, "met\t", "fits"}};
  rows::ComparisonFinding finding;
  finding.code = rows::ComparisonCode::kWrongCount;
  finding.sizes = {0, 2};
  finding.row = 7;
  finding.rows = {7, 9};
  finding.chart_row = 8;
  finding.stitch = 3;
  finding.last_stitch = 5;
  finding.off_by = {-1, 2};
  finding.other_row = 11;
  finding.line = 6;
  finding.at = {12, 1};
  finding.text_says = "sc 3";
  finding.chart_says = "sc 4";
  comparison.findings = {finding};
  return comparison;
}

testcalls::CallSettings Settings() {
  testcalls::CallSettings settings;
  settings.title = "Spring \"call\"";
  settings.sizes = {{"S", 3, 2}, {"L", 2, 1}};
  settings.deadline = absl::CivilDay(2026, 3, 1);
  settings.yarn = testcalls::Choice::kSame;
  settings.swatch_wanted = true;
  settings.reward = "the corrected pattern";
  settings.language = "English";
  settings.notes = "line\nline";
  return settings;
}

reconcile::Reconciliation Reconciled() {
  reconcile::Reconciliation result;
  result.reports = {{"s1", 2, 3, "Lap", 84}};
  result.set_aside = {{"s1", reconcile::Quantity::kWidth, "inches"}};
  result.left_out = {"Yarn B takes no part."};
  reconcile::QuantityResult quantity;
  quantity.quantity = reconcile::Quantity::kYarnH;
  reconcile::MeasurementResult measurement;
  measurement.seat = "s1";
  measurement.measured = 0.1 + 0.2;
  measurement.modified_z = -3.5;
  measurement.reasons = {"one"};
  quantity.measurements = {measurement};
  quantity.classical = reconcile::Classical{};
  reconcile::SizeAmount amount;
  amount.size = "Lap";
  amount.colour = estimate::YarnColour::kH;
  amount.amounts.loose = reconcile::PrintedLength{1.5, 5, 5};
  amount.amounts.strict = reconcile::StrictAmount{4.2, {2, 5, 5}, false};
  amount.balls = 3;
  quantity.amounts = {amount};
  result.quantities = {quantity};
  result.stitch_gauge = reconcile::GaugeAgreement{};
  result.stitch_gauge->components = reconcile::OneWayAnova{};
  result.errata.resize(1);
  result.errata[0].cluster.kind = faults::ErratumKind::kCount;
  result.errata[0].cluster.reports = {0, 1};
  result.errata[0].errata = {"e1", "e2"};
  result.coverage = {{"Lap", {{1, 84, {1, 2, 3}}}}};
  result.undiscovered.estimator = faults::EstimatorUsed::kChao;
  result.undiscovered.left_interval = reconcile::Interval{0.1, 10};
  return result;
}

// clang-format off: one text each, broken at the column limit.
constexpr char kFindings[] =
    R"({"findings":[{"code":"drop-over-drop","severity":"error","row":3,"stitch":4,"last_stitch)"
    R"(":5,"seam":3,"size":1,"size_count":2,"edit":{"row":3,"stitch":4,"value":true,"colour":"H)"
    R"("}},{"code":"no-anchor","severity":"note","row":1,"stitch":2,"last_stitch":2,"seam":0,"s)"
    R"(ize":0,"size_count":1,"edit":{"row":1,"stitch":2,"value":false}}],"code_counts":{"no-anc)"
    R"(hor":1,"drop-over-drop":4000000000}})";

constexpr char kEstimates[] =
    R"([{"size":"Größe \u00222\u0022 \u005c \u000a","stitches":71,"rows":84,"plain_stitches":)"
    R"(5000,"drop_stitches":964,"chain_stitches":72,"colours":[{"colour":"border","plain_stitch)"
    R"(es":12,"drop_stitches":0,"chain_stitches":0,"rows":42,"parts":[{"part":"stitches","lengt)"
    R"(h_mm":0.3333333333333333,"share":0.5},{"part":"joins","length_mm":200,"share":0}],"lengt)"
    R"(h_mm":123456.75,"length_uncertainty_mm":1e-07,"length_contributions":[{"source":"stitch-)"
    R"(gauge","uncertainty":0.1}],"length_low_mm":1,"length_high_mm":2e+300,"length_coverage":0)"
    R"(.95,"one_stitch_more_mm":0.30000000000000004,"one_row_more_mm":0,"upper_length_mm":235,")"
    R"(published_length_m":235,"published_length_yd":260,"mass_g":93.5,"balls":3,"mass_interval)"
    R"(_g":{"low":0.05,"high":0.2,"coverage":0.95}}],"before_blocking":{"width_mm":710,"width_u)"
    R"(ncertainty_mm":0,"height_mm":0,"height_uncertainty_mm":0,"width_interval_mm":{"low":0,"h)"
    R"(igh":0,"coverage":0},"height_interval_mm":{"low":0,"high":0,"coverage":0},"width_contrib)"
    R"(utions":[],"height_contributions":[{"source":"calibration","uncertainty":2}]},"fringe_wi)"
    R"(dth_mm":0,"fringe_height_mm":0,"width_one_stitch_more_mm":0,"height_one_row_more_mm":0,")"
    R"(minutes":450,"minutes_uncertainty":0,"minutes_interval":{"low":400,"high":500,"coverage")"
    R"(:0.9},"minutes_contributions":[{"source":"rate","uncertainty":25}],"ends_to_weave_in":16)"
    R"(8,"hook_us_label":"7","calibration":"calibrations/c1","assumed":["slack","tail"],"notes")"
    R"(:[{"code":"hook-outside-class","sentence":"A note."}],"cautions":[{"code":"heat","senten)"
    R"(ce":"A caution."}],"hook_mm":4.5,"after_blocking":{"width_mm":0,"width_uncertainty_mm":0)"
    R"(,"height_mm":0,"height_uncertainty_mm":0,"width_interval_mm":{"low":0,"high":0,"coverage)"
    R"(":0},"height_interval_mm":{"low":0,"high":0,"coverage":0},"width_contributions":[],"heig)"
    R"(ht_contributions":[]}}])";

constexpr char kComparison[] =
    R"({"terms":"UK","reading":[{"code":"unreadable-row","severity":"warning","line":3,"column")"
    R"(:9,"row":7,"met":"met\u0009","fits":"fits"}],"findings":[{"code":"wrong-count","severity)"
    R"(":"error","sizes":[0,2],"row":7,"rows":[7,9],"chart_row":8,"stitch":3,"last_stitch":5,"o)"
    R"(ff_by":[-1,2],"other_row":11,"text_row":6,"line":12,"column":1,"text_says":"sc 3","chart)"
    R"(_says":"sc 4"}]})";

constexpr char kSettings[] =
    R"({"confidential":true,"deadline":"2026-03-01","hook":"free","language":"English","notes":)"
    R"("line\nline","photographs_by_permission":true,"reward":"the corrected pattern","sizes":[)"
    R"({"required":2,"seats":3,"size":"S"},{"required":1,"seats":2,"size":"L"}],"swatch_wanted")"
    R"(:true,"title":"Spring \"call\"","yarn":"same"})";

constexpr char kReconciliation[] =
    R"({"coverage":[{"runs":[{"coverage":{"chart":1,"testers":3,"text":2},"first":1,"last":84}])"
    R"(,"size":"Lap"}],"errata":[{"cluster":{"elsewhere":false,"first_stitch":0,"found_by":[],")"
    R"(in_chart":false,"in_text":false,"kind":1,"last_row":0,"last_stitch":0,"met_by":[],"repor)"
    R"(ted_by":[],"reports":[0,1],"right_for":[],"row":0,"worked_without_reporting":0},"errata")"
    R"(:["e1","e2"],"recomputed":[]}],"left_out":["Yarn B takes no part."],"quantities":[{"amou)"
    R"(nts":[{"amounts":{"design_gauge":0.0,"factor":1.0,"loose":{"length_m":1.5,"rounded_m":5,)"
    R"("rounded_yd":5},"loose_gauge":null,"more_per_looser_stitch_m":0.0,"predicted_m":0.0,"str)"
    R"(ict":{"amount":{"length_m":2.0,"rounded_m":5,"rounded_yd":5},"factor_k":4.2,"variances_a)"
    R"(like":false},"suffices":{"length_m":0.0,"rounded_m":0,"rounded_yd":0}},"balls":3,"colour)"
    R"(":8,"mass_g":null,"size":"Lap"}],"classical":{"confidence":0.95,"hk":{"high":0.0,"low":0)"
    R"(.0},"hk_se":0.0,"mu":0.0,"mu_se":0.0,"prediction":null,"predictive_sd":0.0,"q":0.0,"repo)"
    R"(rts":0,"tau2_dl":0.0,"tau2_reml":0.0},"interval_probability":0.95,"measurements":[{"afte)"
    R"(r_blocking":false,"flagged":false,"gauge_assumed":false,"measured":0.30000000000000004,")"
    R"(modified_z":-3.5,"predicted":0.0,"predictive_probability":1.0,"reasons":["one"],"relativ)"
    R"(e_uncertainty":0.0,"seat":"s1","set_aside":false,"set_aside_note":"","shrinkage":0.0,"th)"
    R"(eta_mean":0.0,"theta_sd":0.0}],"mu":{"high":0.0,"low":0.0,"mean":0.0,"median":0.0,"sd":0)"
    R"(.0},"new_maker":{"high":0.0,"low":0.0,"mean":0.0,"median":0.0,"sd":0.0},"note":"","prior)"
    R"(":{"flat":false,"mu_sd":0.0,"tau_scale":0.0},"quantity":12,"set_aside":0,"tau":{"high":0)"
    R"(.0,"low":0.0,"mean":0.0,"median":0.0,"sd":0.0},"used":0}],"reports":[{"last_row":84,"num)"
    R"(ber":2,"seat":"s1","size":"Lap","version":3}],"row_gauge":null,"set_aside":[{"note":"inc)"
    R"(hes","quantity":4,"seat":"s1"}],"stitch_gauge":{"components":{"between_variance":0.0,"df)"
    R"(_between":0,"df_within":0,"effective_size":0.0,"f":null,"grand_mean":0.0,"groups":0,"ms_)"
    R"(between":0.0,"ms_within":0.0,"p":null,"r_squared":0.0,"raw_between_variance":0.0,"residu)"
    R"(al_sd":0.0,"ss_between":0.0,"ss_within":0.0,"values":0,"within_variance":0.0},"design_pe)"
    R"(r_100mm":0.0,"offset":{"count":0,"interval":null,"mean":0.0,"sd":0.0,"t":0.0},"readings")"
    R"(:0,"relative_offset":0.0,"testers":0},"undiscovered":{"caution":"","estimator":2,"found")"
    R"(:0,"found_once":0,"found_twice":0,"left":0.0,"left_interval":{"high":10.0,"low":0.1},"le)"
    R"(ft_se":0.0,"not_stated":"","rows":0,"testers":0,"weak":false}})";
// clang-format on

TEST(EarlierJson, OfFindingsIsReadAndWrittenAgain) {
  chart::CheckResult read;
  FindingsFromJson(kFindings, &read);
  EXPECT_EQ(read.findings, Findings().findings);
  EXPECT_EQ(read.code_counts, Findings().code_counts);
  EXPECT_EQ(FindingsToJson(Findings()), kFindings);
}

TEST(EarlierJson, OfEstimatesIsReadAndWrittenAgain) {
  EXPECT_EQ(EstimatesFromJson(kEstimates), Estimates());
  EXPECT_EQ(EstimatesToJson(Estimates()), kEstimates);
}

TEST(EarlierJson, OfAComparisonIsReadAndWrittenAgain) {
  rows::Comparison read;
  ComparisonFromJson(kComparison, &read);
  EXPECT_EQ(read, Comparison());
  EXPECT_EQ(ComparisonToJson(Comparison()), kComparison);
}

TEST(EarlierJson, OfACallsSettingsIsReadAndWrittenAgain) {
  EXPECT_EQ(CallSettingsFromJson(kSettings), Settings());
  EXPECT_EQ(CallSettingsToJson(Settings()), kSettings);
}

TEST(EarlierJson, OfAReconciliationIsReadAndWrittenAgain) {
  EXPECT_EQ(ReconciliationToJson(ReconciliationFromJson(kReconciliation)), kReconciliation);
  EXPECT_EQ(ReconciliationToJson(Reconciled()), kReconciliation);
}

// By rule: what is only read again may come from a newer build; what is changed and written again
// would lose what this build does not know.
TEST(EarlierJson, OfALaterBuildIsReadWhereItIsNotWrittenAgain) {
  auto findings = nlohmann::json::parse(kFindings);
  findings["more"] = 1;
  findings["findings"][0]["more"] = {1, 2};
  chart::CheckResult read;
  FindingsFromJson(findings.dump(), &read);
  EXPECT_EQ(read.findings, Findings().findings);
  auto settings = nlohmann::json::parse(kSettings);
  settings["sizes"][0]["more"] = 1;
  EXPECT_THROW(CallSettingsFromJson(settings.dump()), UnreadableValue);
}

// Every key in turn left out: read with its default, or refused by its name.
TEST(EarlierJson, WithAnyKeyMissingIsReadOrRefused) {
  const auto whole = nlohmann::json::parse(kReconciliation).flatten();
  size_t refused = 0;
  for (const auto& [path, value] : whole.items()) {
    auto json = nlohmann::json::parse(kReconciliation);
    const nlohmann::json::json_pointer pointer(path);
    auto& parent = json[pointer.parent_pointer()];
    if (!parent.is_object()) continue;
    parent.erase(pointer.back());
    try {
      ReconciliationFromJson(json.dump());
      // Optionals, absent or not.
      EXPECT_TRUE(value.is_null() || pointer.back() == "balls" || pointer.back() == "modified_z")
          << path;
    } catch (const UnreadableValue& unreadable) {
      ++refused;
      EXPECT_NE(path.find(unreadable.column()), std::string::npos) << path;
    }
  }
  EXPECT_GT(refused, 60u);
}

}  // namespace
}  // namespace rowproof::storage
