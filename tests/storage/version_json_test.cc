// Findings and estimates come back from the database as they went in.
#include "storage/version_json.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>

#include "services/domain/chart/findings.h"
#include "tests/domain/chart/random_designs.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::storage {
namespace {

TEST(VersionJson, ReadsBackTheFindingsOfRandomDesigns) {
  chart::RandomDesigns designs(20260101);
  size_t findings = 0;
  for (int i = 0; i < 300; ++i) {
    const chart::CheckResult check = chart::Check(designs.Next(20, 70));
    EXPECT_EQ(FindingsFromJson(FindingsToJson(check.findings)), check.findings);
    findings += check.findings.size();
  }
  EXPECT_GT(findings, 1000u);
}

TEST(VersionJson, ReadsBackEveryCodeSeverityAndSeam) {
  std::vector<chart::Finding> findings;
  for (int code = 0; code <= static_cast<int>(chart::FindingCode::kEndsDoNotFit); ++code) {
    for (int severity = 0; severity <= static_cast<int>(chart::Severity::kError); ++severity) {
      for (int seam = 0; seam <= static_cast<int>(chart::Seam::kStitchRepeat); ++seam) {
        findings.push_back({static_cast<chart::FindingCode>(code),
                            static_cast<chart::Severity>(severity), 4000, 3999, 4000,
                            static_cast<chart::Seam>(seam), 19, 20});
      }
    }
  }
  EXPECT_EQ(FindingsFromJson(FindingsToJson(findings)), findings);
}

// A making with every option that adds to an estimate, by the bits of `choice`.
estimate::Making MakingOf(unsigned choice) {
  estimate::Making making = estimate::RoundMaking();
  if (choice & 1) {
    making.border.rounds = 2;
    making.border.colour = estimate::YarnColour::kBorder;
    making.border_yarn = making.yarn_a;
  }
  if (choice & 2) {
    making.yarn_a.ball_length_m = 105;
    making.yarn_a.ball_mass_g = 50;
  }
  if (choice & 4) making.gauge_after_blocking = making.gauge;
  making.item = static_cast<estimate::ItemKind>(choice % 6);
  return making;
}

TEST(VersionJson, ReadsBackTheEstimatesOfRandomDesigns) {
  std::mt19937 random(7);
  size_t estimated = 0;
  for (unsigned i = 0; i < 120; ++i) {
    const auto sizes = estimate::EstimateSizes(estimate::RandomDesign(random), MakingOf(i));
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
  for (int source = 0; source <= static_cast<int>(estimate::UncertaintySource::kRate); ++source) {
    size.after_blocking->height_contributions.push_back(
        {static_cast<estimate::UncertaintySource>(source), 1.0 / 3});
  }
  estimate::ColourEstimate colour;
  colour.colour = estimate::YarnColour::kBorder;
  for (size_t part = 0; part < estimate::kPartKinds; ++part) {
    colour.parts.push_back({static_cast<estimate::PartKind>(part), 5e-324});
  }
  colour.mass_g = 0.1;
  colour.balls = 3;
  size.colours = {colour};
  EXPECT_EQ(EstimatesFromJson(EstimatesToJson({size})), std::vector{size});
}

TEST(VersionJson, NamesItsEnumsSoThatAnOperatorCanAskForThem) {
  const chart::Finding finding{chart::FindingCode::kDropOverDrop, chart::Severity::kError, 3, 4, 4};
  const auto json = nlohmann::json::parse(FindingsToJson({finding}));
  EXPECT_EQ(json.at(0).at("code"), "drop-over-drop");
  EXPECT_EQ(json.at(0).at("severity"), "error");
}

}  // namespace
}  // namespace rowproof::storage
