// Check against the plain rules: every small chart, and many random designs.
#include <algorithm>

#include "gtest/gtest.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/other_reading.h"
#include "services/domain/chart/check/sentences.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/plain_rules.h"
#include "tests/domain/chart/random_designs.h"

namespace rowproof::chart {
namespace {

std::string Told(const Design& design, const CheckResult& result) {
  std::string told;
  for (const auto& finding : result.findings) {
    told += std::string("  ") + CodeName(finding.code) + " " + Sentence(finding, design) + "\n";
  }
  return told;
}

CheckResult WithoutEdits(CheckResult result) {
  for (Finding& finding : result.findings) finding.edit.reset();
  return result;
}

::testing::AssertionResult SameFindings(const Design& design, const CheckSettings& settings) {
  const CheckResult ours = WithoutEdits(Check(design, settings));
  const CheckResult plain = PlainCheck(design, settings);
  if (ours == plain) return ::testing::AssertionSuccess();
  std::string chart;
  for (const auto& line : ToText(design.cells)) chart += line + "\n";
  return ::testing::AssertionFailure()
         << Name(design.technique) << " " << Name(design.convention) << " " << Name(design.facing)
         << " " << Name(design.ends) << " " << Name(design.form) << "\n"
         << chart << "ours: " << ours.error_count << " errors, " << ours.warning_count
         << " warnings\n"
         << Told(design, ours) << "plain: " << plain.error_count << " errors, "
         << plain.warning_count << " warnings\n"
         << Told(design, plain);
}

// Runs that fit into small charts.
constexpr CheckSettings kShortRuns{.longest_carried_run = 2, .longest_skip = 1, .longest_flap = 3};

// Every `stride`-th chart of the given dimensions, from `start`.
void CompareCharts(int rows, int stitches, Design design, uint32_t start, uint32_t stride) {
  const int cells = rows * stitches;
  design.cells = Grid(rows, stitches);
  for (uint32_t bits = start; bits < uint32_t{1} << cells; bits += stride) {
    for (int row = 1; row <= rows; ++row) {
      design.cells.mutable_row(row)[0] =
          bits >> ((row - 1) * stitches) & ((uint32_t{1} << stitches) - 1);
    }
    ASSERT_TRUE(SameFindings(design, kShortRuns));
  }
}

// Technique, facing, form and ends that go together.
struct Setting {
  Technique technique = Technique::kSpike;
  Facing facing = Facing::kOneFace;
  Form form = Form::kFlat;
  Ends ends = Ends::kCut;
};

class EverySmallChart : public ::testing::TestWithParam<std::tuple<Setting, Convention>> {};

// All charts up to 4 x 5; an unoptimised or instrumented build takes every 127th or 4093rd of those
// of 8 and more cells.
TEST_P(EverySmallChart, HasTheFindingsOfThePlainRules) {
  const auto& [setting, convention] = GetParam();
  Design design;
  design.technique = setting.technique;
  design.facing = setting.facing;
  design.form = setting.form;
  design.ends = setting.ends;
  design.convention = convention;
  for (int rows = 1; rows <= 4; ++rows) {
    for (int stitches = 1; stitches <= 5; ++stitches) {
      const int cells = rows * stitches;
      const uint32_t stride = kExhaustive || cells < 8 ? 1 : cells < 16 ? 127 : 4093;
      CompareCharts(rows, stitches, design, static_cast<uint32_t>(cells) % stride, stride);
      if (HasFatalFailure()) return;
    }
  }
}

std::string NameOfSetting(const ::testing::TestParamInfo<std::tuple<Setting, Convention>>& info) {
  const auto& [setting, convention] = info.param;
  std::string name = std::string(Name(setting.technique)) + "_" + Name(setting.facing) + "_" +
                     Name(setting.form) + "_" + Name(setting.ends) + "_" + Name(convention);
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(
    OfEachTechnique, EverySmallChart,
    ::testing::Combine(
        ::testing::Values(
            Setting{Technique::kSpike, Facing::kOneFace, Form::kFlat, Ends::kCut},
            Setting{Technique::kSpike, Facing::kTwoFace, Form::kFlat, Ends::kCarried},
            Setting{Technique::kSpike, Facing::kPaired, Form::kFlat, Ends::kWaiting},
            Setting{Technique::kSpike, Facing::kOneFace, Form::kTube, Ends::kWaiting},
            Setting{Technique::kOverlay, Facing::kOneFace, Form::kFlat, Ends::kCut},
            Setting{Technique::kOverlay, Facing::kOneFace, Form::kTube, Ends::kWaiting},
            Setting{Technique::kInset, Facing::kOneFace, Form::kFlat, Ends::kWaiting}),
        ::testing::Values(Convention::kPicture, Convention::kWorking)),
    NameOfSetting);

// Five rows of up to four stitches: two rows over a repeat of rows and their colours.
TEST(FindingsOfEverySmallChart, AgreeInFiveRowsOfAnExplicitOrder) {
  Design design;
  design.ends = Ends::kCarried;
  design.row_colours = {Colour::kA, Colour::kB, Colour::kB, Colour::kA, Colour::kB};
  for (const Convention convention : {Convention::kPicture, Convention::kWorking}) {
    design.convention = convention;
    CompareCharts(5, 4, design, 5, kExhaustive ? 3 : 2039);
    if (HasFatalFailure()) return;
  }
}

// A repeated row band and a stitch band on every chart of three by four cells, in three sizes.
TEST(FindingsOfEverySmallChart, AgreeWithEveryBandInThreeSizes) {
  const std::vector<Setting> settings = {
      {Technique::kSpike, Facing::kTwoFace, Form::kFlat, Ends::kCarried},
      {Technique::kOverlay, Facing::kOneFace, Form::kTube, Ends::kWaiting},
      {Technique::kInset, Facing::kOneFace, Form::kFlat, Ends::kWaiting}};
  for (const Setting& setting : settings) {
    for (const Convention convention : {Convention::kPicture, Convention::kWorking}) {
      for (int first = 1; first <= 4; ++first) {
        for (int last = first; last <= 4; ++last) {
          Design design;
          design.technique = setting.technique;
          design.facing = setting.facing;
          design.form = setting.form;
          design.ends = setting.ends;
          design.convention = convention;
          design.row_band = Band{first, last};
          design.stitch_band = Band{std::min(first, 3), std::min(last, 3)};
          design.sizes = {{"S", 1, 2}, {"M", 2, 1}, {"L", 5, 3}};
          CompareCharts(4, 3, design, 0, kExhaustive ? 1 : 509);
          if (HasFatalFailure()) return;
          if (last - first + 1 > 1) continue;
          design.row_colours = {Colour::kB, Colour::kA, Colour::kB, Colour::kB};
          CompareCharts(4, 3, design, 0, kExhaustive ? 1 : 509);
          if (HasFatalFailure()) return;
        }
      }
    }
  }
}

// Every picture of three rows and two stitches that names three colours, in every order of them,
// once and with its rows repeated.
TEST(FindingsOfEverySmallChart, AgreeForPicturesThatNameThreeColours) {
  for (int order = 0; order < 27; ++order) {
    Design design;
    design.row_colours = {static_cast<Colour>(order % 3), static_cast<Colour>(order / 3 % 3),
                          static_cast<Colour>(order / 9)};
    design.cells = Grid(3, 2);
    if (!HasMoreThanTwoColours(design)) continue;
    for (int picture = 0; picture < 729; picture += kExhaustive ? 1 : 11) {
      design.picture_colours.clear();
      for (int cell = 0, rest = picture; cell < 6; ++cell, rest /= 3) {
        design.picture_colours.push_back(static_cast<Colour>(rest % 3));
        design.cells.set(cell / 2 + 1, cell % 2 + 1,
                         design.picture_colours.back() != RowColour(design, cell / 2 + 1));
      }
      design.row_band.reset();
      design.sizes = {{"S", 1, 1}};
      ASSERT_TRUE(Validate(design).ok()) << Validate(design);
      ASSERT_TRUE(SameFindings(design, kShortRuns));
      design.row_band = Band{1 + order % 2, 2 + picture % 2};
      design.sizes = {{"S", 1, 1}, {"L", 1, 4}};
      ASSERT_TRUE(SameFindings(design, kShortRuns));
    }
  }
}

TEST(FindingsOfRandomDesigns, AgreeWithThePlainRules) {
  RandomDesigns random(20240229);
  int workable = 0;
  int with_findings = 0;
  std::array<int, kFindingCodes> met{};
  std::array<int, 4> seams{};
  constexpr int kDesigns = kExhaustive ? 10000 : 2000;
  for (int i = 0; i < kDesigns; ++i) {
    // Mostly small, some up to 40 x 40, some wider than two words.
    const int kind = random.Pick(0, 99);
    const Design design = kind < 70   ? random.NextOfAll(9, 12)
                          : kind < 85 ? random.NextOfAll(16, 24)
                          : kind < 95 ? random.NextOfAll(40, 40)
                                      : random.NextOfAll(6, 150);
    ASSERT_TRUE(Validate(design).ok()) << Validate(design);
    CheckSettings settings;
    if (random.Chance(30)) {
      settings = {random.Pick(0, 80), random.Pick(0, 80), random.Pick(0, 80)};
    }
    ASSERT_TRUE(SameFindings(design, settings)) << "design " << i;
    const CheckResult result = Check(design, settings);
    workable += result.workable() ? 1 : 0;
    with_findings += result.findings.empty() ? 0 : 1;
    for (const Finding& finding : result.findings) ++seams[static_cast<size_t>(finding.seam)];
    for (size_t code = 0; code < kFindingCodes; ++code) {
      met[code] += result.code_counts[code] > 0 ? 1 : 0;
    }
  }
  // The designs must not all be of one kind.
  EXPECT_GT(workable, kDesigns / 20);
  EXPECT_GT(with_findings, kDesigns / 2);
  for (size_t code = 0; code < kFindingCodes; ++code) {
    EXPECT_GT(met[code], kDesigns / 2000) << CodeName(static_cast<FindingCode>(code));
  }
  for (const int seam : seams) EXPECT_GT(seam, kDesigns / 100);
}

}  // namespace
}  // namespace rowproof::chart
