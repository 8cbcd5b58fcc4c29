// Check against the plain rules: every small chart, and many random designs.
#include <algorithm>

#include "gtest/gtest.h"
#include "services/domain/chart/findings.h"
#include "services/domain/chart/repair.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/plain_rules.h"
#include "tests/domain/chart/random_designs.h"

namespace rowproof::chart {
namespace {

std::string Told(const Design& design, const CheckResult& result) {
  std::string told;
  for (const auto& finding : result.findings) told += "  " + Sentence(finding, design) + "\n";
  return told;
}

::testing::AssertionResult SameFindings(const Design& design, int longest) {
  const CheckResult ours = Check(design, {longest});
  const CheckResult plain = PlainCheck(design, longest);
  if (ours == plain) return ::testing::AssertionSuccess();
  std::string chart;
  for (const auto& line : ToText(design.cells)) chart += line + "\n";
  return ::testing::AssertionFailure()
         << Name(design.convention) << " " << Name(design.facing) << " " << Name(design.ends) << " "
         << Name(design.form) << ", runs over " << longest << "\n"
         << chart << "ours: " << ours.error_count << " errors, " << ours.warning_count
         << " warnings\n"
         << Told(design, ours) << "plain: " << plain.error_count << " errors, "
         << plain.warning_count << " warnings\n"
         << Told(design, plain);
}

// Every `stride`-th chart of the given dimensions, from `start`.
void CompareCharts(int rows, int stitches, Design design, uint32_t start, uint32_t stride) {
  const int cells = rows * stitches;
  design.cells = Grid(rows, stitches);
  for (uint32_t bits = start; bits < uint32_t{1} << cells; bits += stride) {
    for (int row = 1; row <= rows; ++row) {
      design.cells.mutable_row(row)[0] =
          bits >> ((row - 1) * stitches) & ((uint32_t{1} << stitches) - 1);
    }
    ASSERT_TRUE(SameFindings(design, 2));
  }
}

Design Made(Facing facing, Ends ends, Convention convention) {
  Design design;
  design.facing = facing;
  design.ends = ends;
  design.convention = convention;
  return design;
}

// All charts up to 4 x 5 and 5 x 4; an unoptimised or instrumented build takes every 13th or 127th
// of those of 12 and more cells.
void CompareAllSmallCharts(const Design& design) {
  for (int rows = 1; rows <= 5; ++rows) {
    for (int stitches = 1; stitches <= 5; ++stitches) {
      const int cells = rows * stitches;
      if (cells > 20) continue;
      const uint32_t stride = kExhaustive || cells < 12 ? 1 : cells < 16 ? 13 : 127;
      CompareCharts(rows, stitches, design, static_cast<uint32_t>(cells) % stride, stride);
      if (::testing::Test::HasFatalFailure()) return;
    }
  }
}

TEST(FindingsOfEverySmallChart, AgreeForAPictureOneFaceCut) {
  CompareAllSmallCharts(Made(Facing::kOneFace, Ends::kCut, Convention::kPicture));
}
TEST(FindingsOfEverySmallChart, AgreeForAWorkingChartOneFaceCut) {
  CompareAllSmallCharts(Made(Facing::kOneFace, Ends::kCut, Convention::kWorking));
}
TEST(FindingsOfEverySmallChart, AgreeForAPictureTwoFaceCarried) {
  CompareAllSmallCharts(Made(Facing::kTwoFace, Ends::kCarried, Convention::kPicture));
}
TEST(FindingsOfEverySmallChart, AgreeForAWorkingChartTwoFaceCarried) {
  CompareAllSmallCharts(Made(Facing::kTwoFace, Ends::kCarried, Convention::kWorking));
}

// A repeated row band and a stitch band on every chart of three by four cells, in three sizes.
TEST(FindingsOfEverySmallChart, AgreeWithEveryBandInThreeSizes) {
  RandomDesigns random(1);
  for (const Convention convention : {Convention::kPicture, Convention::kWorking}) {
    for (int first = 1; first <= 4; ++first) {
      for (int last = first; last <= 4; ++last) {
        Design design = Made(Facing::kTwoFace, Ends::kCarried, convention);
        design.row_band = Band{first, last};
        design.stitch_band = Band{std::min(first, 3), std::min(last, 3)};
        design.sizes = {{"S", 1, 2}, {"M", 2, 1}, {"L", 5, 3}};
        CompareCharts(4, 3, design, 0, kExhaustive ? 1 : 13);
        if (HasFatalFailure()) return;
        if (last - first + 1 > 1) continue;
        design.row_colours = {Colour::kB, Colour::kA, Colour::kB, Colour::kB};
        CompareCharts(4, 3, design, 0, kExhaustive ? 1 : 13);
        if (HasFatalFailure()) return;
      }
    }
  }
}

TEST(FindingsOfRandomDesigns, AgreeWithThePlainRules) {
  RandomDesigns random(20240229);
  int workable = 0;
  int with_findings = 0;
  for (int i = 0; i < 10000; ++i) {
    // Mostly small, some up to 40 x 40, some wider than two words.
    const int kind = random.Pick(0, 99);
    const Design design = kind < 70   ? random.Next(9, 12)
                          : kind < 85 ? random.Next(16, 24)
                          : kind < 95 ? random.Next(40, 40)
                                      : random.Next(6, 150);
    ASSERT_TRUE(Validate(design).ok()) << Validate(design);
    ASSERT_TRUE(SameFindings(design, random.Chance(70) ? 5 : random.Pick(0, 80))) << "design " << i;
    const CheckResult result = Check(design);
    workable += result.workable() ? 1 : 0;
    with_findings += result.findings.empty() ? 0 : 1;
  }
  // The designs must not all be of one kind.
  EXPECT_GT(workable, 500);
  EXPECT_GT(with_findings, 5000);
}

}  // namespace
}  // namespace rowproof::chart
