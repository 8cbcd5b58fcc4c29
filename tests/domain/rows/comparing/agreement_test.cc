// What the writer writes agrees with its chart: no finding of any kind, every row agrees.
#include <random>
#include <string>

#include "gtest/gtest.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/comparing/sentences.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/rows/random_design.h"
#include "tests/domain/rows/workable_design.h"

namespace rowproof::rows {
namespace {

// What the test has met, so that none of it is left out by chance.
struct Met {
  int charts = 0;
  int inset = 0;
  int overlay = 0;
  int tubes = 0;
  int bands = 0;
  int left_handed = 0;
};

void Compare(std::mt19937& random, Met& met) {
  chart::Design design = RandomDesign(random);
  if (!MakeWorkable(design)) return;
  const WriterSettings written = RandomSettings(random);
  const auto pattern = WriteRows(design, written);
  ASSERT_TRUE(pattern.ok()) << pattern.status();
  ComparisonSettings settings;
  settings.hand = written.hand;
  for (size_t i = 0; i < written.colour_names.size(); ++i) {
    settings.colours.push_back({written.colour_names[i], static_cast<chart::Colour>(i)});
  }
  const bool whole = random() % 2 == 0;
  if (!whole) settings.terms = written.terms;
  const std::string text = whole ? WholePattern(*pattern) : RowsAlone(*pattern);
  const auto compared = CompareRows(design, text, settings);
  ASSERT_TRUE(compared.ok()) << compared.status();
  ASSERT_TRUE(compared->findings.empty()) << Sentence(compared->findings.front(), *compared) << "\n"
                                          << text;
  ASSERT_TRUE(compared->reading.empty()) << Sentence(compared->reading.front()) << "\n" << text;
  ASSERT_TRUE(compared->equal());
  ASSERT_FALSE(compared->rows.empty());
  for (const ComparedRow& row : compared->rows) {
    ASSERT_EQ(row.agreement, Agreement::kAgrees) << row.chart << "\n" << text;
    ASSERT_FALSE(row.text.empty() || row.chart.empty());
  }
  ++met.charts;
  met.inset += design.technique == chart::Technique::kInset;
  met.overlay += design.technique == chart::Technique::kOverlay;
  met.tubes += design.form == chart::Form::kTube;
  met.bands += design.stitch_band.has_value() && design.row_band.has_value();
  met.left_handed += written.hand == chart::Hand::kLeft;
}

TEST(CompareRowsOfTheWriter, FindsNothing) {
  const int wanted = chart::kExhaustive ? 10'000 : 500;
  std::mt19937 random(1603);
  Met met;
  while (met.charts < wanted) {
    Compare(random, met);
    if (HasFatalFailure()) FAIL() << "after " << met.charts << " charts";
  }
  EXPECT_GT(met.inset, wanted / 8);
  EXPECT_GT(met.overlay, wanted / 8);
  EXPECT_GT(met.tubes, wanted / 20);
  EXPECT_GT(met.bands, wanted / 8);
  EXPECT_GT(met.left_handed, wanted / 4);
}

}  // namespace
}  // namespace rowproof::rows
