// Findings and estimates come back from the database as they went in.
#include "storage/json/version_json.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>

#include "services/domain/chart/check/findings.h"
#include "tests/domain/chart/random_designs.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::storage {
namespace {

// What a check says, but for the totals that have columns of their own.
chart::CheckResult ReadBack(const std::string& json) {
  chart::CheckResult check;
  FindingsFromJson(json, &check);
  return check;
}

TEST(VersionJson, ReadsBackTheFindingsOfRandomDesigns) {
  chart::RandomDesigns designs(20260101);
  size_t findings = 0;
  size_t edits = 0;
  for (int i = 0; i < 300; ++i) {
    const chart::CheckResult check = chart::Check(designs.Next(20, 70));
    const chart::CheckResult read = ReadBack(FindingsToJson(check));
    EXPECT_EQ(read.findings, check.findings);
    EXPECT_EQ(read.code_counts, check.code_counts);
    findings += check.findings.size();
    for (const auto& finding : check.findings) edits += finding.edit.has_value() ? 1 : 0;
  }
  EXPECT_GT(findings, 1000u);
  EXPECT_GT(edits, 100u);
}

TEST(VersionJson, ReadsBackEveryCodeSeverityAndSeam) {
  chart::CheckResult check;
  for (size_t code = 0; code < chart::kFindingCodes; ++code) {
    check.code_counts[code] = static_cast<int64_t>(code) << 40;
    for (int severity = 0; severity <= static_cast<int>(chart::Severity::kError); ++severity) {
      for (int seam = 0; seam <= static_cast<int>(chart::Seam::kJoin); ++seam) {
        check.findings.push_back({static_cast<chart::FindingCode>(code),
                                  static_cast<chart::Severity>(severity), 4000, 3999, 4000,
                                  static_cast<chart::Seam>(seam), 19, 20});
      }
    }
  }
  check.findings[0].edit = chart::Edit{4000, 1, true, std::nullopt};
  check.findings[1].edit = chart::Edit{1, 4000, false, chart::Colour::kH};
  const chart::CheckResult read = ReadBack(FindingsToJson(check));
  EXPECT_EQ(read.findings, check.findings);
  EXPECT_EQ(read.code_counts, check.code_counts);
}

// As versions were stored by the first rules: the list alone.
TEST(VersionJson, ReadsFindingsThatWereStoredWithoutTotalsByCode) {
  const chart::CheckResult read = ReadBack(
      R"([{"code": "no-anchor", "severity": "error", "row": 1, "stitch": 2, "last_stitch": 2,
           "seam": 0, "size": 0, "size_count": 1}])");
  ASSERT_EQ(read.findings.size(), 1u);
  EXPECT_EQ(read.findings[0],
            (chart::Finding{chart::FindingCode::kNoAnchor, chart::Severity::kError, 1, 2, 2}));
  EXPECT_EQ(read.count(chart::FindingCode::kNoAnchor), 1);
}

// A materials with every option that adds to an estimate, by the bits of `choice`.
estimate::Materials MaterialsOf(unsigned choice) {
  estimate::Materials materials = estimate::RoundMaking();
  if (choice & 1) {
    materials.border.rounds = 2;
    materials.border.colour = estimate::YarnColour::kBorder;
    materials.border_yarn = materials.yarn_a;
  }
  if (choice & 2) {
    materials.yarn_a.ball_length_m = 105;
    materials.yarn_a.ball_mass_g = 50;
  }
  if (choice & 4) materials.gauge_after_blocking = materials.gauge;
  materials.item = static_cast<estimate::ItemKind>(choice % 6);
  return materials;
}

TEST(VersionJson, ReadsBackTheEstimatesOfRandomDesigns) {
  std::mt19937 random(7);
  size_t estimated = 0;
  for (unsigned i = 0; i < 120; ++i) {
    const auto sizes = estimate::EstimateSizes(estimate::RandomDesign(random), MaterialsOf(i));
    if (!sizes.ok()) continue;
    EXPECT_EQ(EstimatesFromJson(EstimatesToJson(*sizes)), *sizes);
    estimated += sizes->size();
  }
  EXPECT_GT(estimated, 200u);
}

TEST(VersionJson, ReadsBackEveryCautionSourceAndPart) {
  estimate::SizeEstimate size;
  size.size = "Größe \"2\" \\ \n";
  size.after_blocking = estimate::Extent{};
  for (int code = 0; code <= static_cast<int>(estimate::CautionCode::kStrain); ++code) {
    size.cautions.push_back({static_cast<estimate::CautionCode>(code), "sentence"});
  }
  for (int source = 0; source <= static_cast<int>(estimate::UncertaintySource::kCalibration);
       ++source) {
    size.after_blocking->height_contributions.push_back(
        {static_cast<estimate::UncertaintySource>(source), 1.0 / 3});
  }
  for (size_t code = 0; code < estimate::kNoteCodes; ++code) {
    size.notes.push_back({static_cast<estimate::NoteCode>(code), "sentence"});
  }
  size.minutes_contributions = {{estimate::UncertaintySource::kRate, 2}};
  size.minutes_interval = {1, 3, 0.95};
  size.hook_mm = 5.5;
  size.hook_us_label = "I-9";
  size.calibration = "calibrations/1";
  estimate::ColourEstimate colour;
  colour.colour = estimate::YarnColour::kBorder;
  colour.mass_interval_g = estimate::Interval{0.05, 0.2, 0.95};
  colour.left_over_m = 1.5;
  for (size_t part = 0; part < estimate::kPartKinds; ++part) {
    colour.parts.push_back({static_cast<estimate::PartKind>(part), 5e-324});
  }
  colour.mass_g = 0.1;
  colour.balls = 3;
  size.colours = {colour};
  for (const estimate::YarnColour each : estimate::kYarnColoursAsListed) {
    size.colours.push_back(colour);
    size.colours.back().colour = each;
  }
  EXPECT_EQ(EstimatesFromJson(EstimatesToJson({size})), std::vector{size});
}

// Estimates stored by model 1 have no shares, intervals, notes or chains.
TEST(VersionJson, ReadsEstimatesOfAnEarlierModel) {
  const auto sizes = *estimate::EstimateSizes(estimate::TwentyRows(), MaterialsOf(7));
  auto json = nlohmann::json::parse(EstimatesToJson(sizes));
  for (auto& size : json) {
    for (const char* key :
         {"chain_stitches", "width_one_stitch_more_mm", "height_one_row_more_mm",
          "minutes_interval", "minutes_contributions", "hook_us_label", "calibration", "notes"}) {
      EXPECT_EQ(size.erase(key), 1u) << key;
    }
    for (const char* extent : {"before_blocking", "after_blocking"}) {
      for (const char* key : {"width_interval_mm", "height_interval_mm"}) {
        EXPECT_EQ(size.at(extent).erase(key), 1u) << key;
      }
    }
    for (auto& colour : size.at("colours")) {
      for (const char* key : {"chain_stitches", "one_stitch_more_mm", "one_row_more_mm"}) {
        EXPECT_EQ(colour.erase(key), 1u) << key;
      }
      colour.erase("left_over_m");
      colour.erase("mass_interval_g");
      for (auto& part : colour.at("parts")) EXPECT_EQ(part.erase("share"), 1u);
    }
  }
  const auto read = EstimatesFromJson(json.dump());
  ASSERT_EQ(read.size(), sizes.size());
  EXPECT_EQ(read[0].colours[0].length_mm, sizes[0].colours[0].length_mm);
  EXPECT_EQ(read[0].colours[0].parts[0].share, 0);
  EXPECT_EQ(read[0].before_blocking.width_mm, sizes[0].before_blocking.width_mm);
  EXPECT_EQ(read[0].before_blocking.width_interval_mm, estimate::Interval());
  EXPECT_EQ(read[0].cautions, sizes[0].cautions);
}

TEST(VersionJson, NamesItsEnumsSoThatAnOperatorCanAskForThem) {
  const chart::Finding finding{chart::FindingCode::kDropOverDrop, chart::Severity::kError, 3, 4, 4};
  chart::CheckResult check;
  check.findings = {finding};
  const auto json = nlohmann::json::parse(FindingsToJson(check)).at("findings");
  EXPECT_EQ(json.at(0).at("code"), "drop-over-drop");
  EXPECT_EQ(json.at(0).at("severity"), "error");
}

}  // namespace
}  // namespace rowproof::storage
