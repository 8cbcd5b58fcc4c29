#include "services/domain/faults/coverage.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "services/domain/chart/expand.h"

namespace rowproof::faults {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

const ChartRows kRows = {{1, 2, 3, 4}, {1, 2, 3, 2, 3, 4}};

bool NeverTheSame(Source, int, int, int, int) { return false; }

TesterWork Work(const std::string& tester, int size, int last_row, bool chart, bool text,
                int version = 2) {
  TesterWork work;
  work.tester = tester;
  work.size = size;
  work.from_chart = chart;
  work.from_text = text;
  work.last_row = last_row;
  work.version = version;
  return work;
}

TEST(Coverage, CountsTestersByRowSizeAndSource) {
  const std::vector<TesterWork> work = {
      Work("ann", 0, 4, true, false), Work("bea", 0, 2, true, true), Work("cid", 0, 3, false, true),
      Work("dot", 1, 5, true, false), Work("eve", 7, 4, true, true)};
  const auto sizes = Cover(work, kRows, 2, NeverTheSame);
  ASSERT_EQ(sizes.size(), 2u);
  EXPECT_THAT(sizes[0].rows, ElementsAre(RowCoverage{2, 2, 3}, RowCoverage{2, 2, 3},
                                         RowCoverage{1, 1, 2}, RowCoverage{1, 0, 1}));
  EXPECT_EQ(sizes[1].rows[4], (RowCoverage{1, 0, 1}));
  EXPECT_EQ(sizes[1].rows[5], RowCoverage{});
}

// A tester of inset who stopped after worked row 9 has worked the RS row of chart row 5 and not its
// WS row.
TEST(Coverage, CountsBothWorkedRowsOfAChartRowOfInset) {
  chart::Design design;
  design.technique = chart::Technique::kInset;
  design.cells = chart::Grid(6, 8);
  design.row_band = chart::Band{3, 4};
  design.sizes = {{"S", 1, 1}, {"L", 1, 2}};
  const ChartRows rows = {chart::ChartRowsAsWorked(design, 0), chart::ChartRowsAsWorked(design, 1)};
  const auto sizes = Cover(
      std::vector<TesterWork>{Work("ann", 0, 9, true, false), Work("bea", 1, 16, true, false)},
      rows, 2, NeverTheSame);
  ASSERT_EQ(sizes[0].rows.size(), 12u);
  EXPECT_THAT(sizes[0].Below(1), ElementsAre(RowRange{10, 12}));
  EXPECT_THAT(sizes[1].Below(1), IsEmpty());
  ASSERT_EQ(sizes[1].rows.size(), 16u);
}

TEST(Coverage, StartsAgainAtZeroForACorrectedRowInItsSourceOnly) {
  const std::vector<TesterWork> work = {Work("ann", 0, 4, true, true, 1),
                                        Work("bea", 0, 4, true, true, 2)};
  // Version 2 corrected the written row 3; the chart was right.
  const auto same = [](Source source, int, int row, int version, int other) {
    EXPECT_EQ(version, 1);
    EXPECT_EQ(other, 2);
    return source == Source::kChart || row != 3;
  };
  const auto sizes = Cover(work, kRows, 2, same);
  EXPECT_EQ(sizes[0].rows[1], (RowCoverage{2, 2, 2}));
  EXPECT_EQ(sizes[0].rows[2], (RowCoverage{2, 1, 2}));
  EXPECT_EQ(Cover(work, kRows, 2, NeverTheSame)[0].rows[0], (RowCoverage{1, 1, 1}));
}

TEST(Coverage, TakesEachRowFromTheVersionItWasWorkedFrom) {
  std::vector<TesterWork> work = {Work("ann", 0, 4, true, false, 2)};
  work[0].row_version = {1, 1};  // went over to version 2 after row 2
  const auto sizes = Cover(work, kRows, 2, NeverTheSame);
  EXPECT_THAT(sizes[0].rows, ElementsAre(RowCoverage{}, RowCoverage{}, RowCoverage{1, 0, 1},
                                         RowCoverage{1, 0, 1}));
}

TEST(Coverage, IgnoresRowsPastTheEndAndBelowTheStart) {
  const std::vector<TesterWork> work = {Work("ann", 0, 400, true, false),
                                        Work("bea", 0, -3, true, false),
                                        Work("cid", -1, 4, true, false)};
  const auto sizes = Cover(work, kRows, 2, NeverTheSame);
  EXPECT_EQ(sizes[0].rows.size(), 4u);
  EXPECT_EQ(sizes[0].rows[3], (RowCoverage{1, 0, 1}));
}

TEST(Coverage, NamesTheRunsOfRowsThatNobodyWorked) {
  SizeCoverage size;
  size.rows = {{1, 0, 1}, {0, 0, 0}, {0, 0, 0}, {2, 1, 2}, {0, 1, 1}};
  EXPECT_THAT(size.Below(1), ElementsAre(RowRange{2, 3}));
  EXPECT_THAT(size.Below(2), ElementsAre(RowRange{1, 3}, RowRange{5, 5}));
  EXPECT_THAT(size.Below(1, Source::kChart), ElementsAre(RowRange{2, 3}, RowRange{5, 5}));
  EXPECT_THAT(size.Below(1, Source::kText), ElementsAre(RowRange{1, 3}));
  EXPECT_THAT(size.Below(0), IsEmpty());
}

}  // namespace
}  // namespace rowproof::faults
