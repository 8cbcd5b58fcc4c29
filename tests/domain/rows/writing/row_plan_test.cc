#include "services/domain/rows/writing/row_plan.h"

#include "gtest/gtest.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {
namespace {

// A band of two rows that only size M works a second time, with rows (kinds 2 and 3) that stand
// again after it: size S has nowhere to look them up, so they are written out for both.
TEST(RowPlan, RepeatsNoRowsThatASizeDoesNotWork) {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(4, 1);
  design.row_band = chart::Band{1, 2};
  design.sizes = {{"S", 1, 1}, {"M", 1, 2}};
  RowSequences sequences;
  sequences.kinds.resize(4);
  sequences.rows = {{0, 1, 2, 3}, {0, 1, 2, 3, 2, 3}};
  SearchBudget budget{1'000'000, false};
  const auto costly = [](int, int) { return 10; };
  const auto lines = PlanLines(design, sequences, /*every_row=*/false, costly, budget);
  ASSERT_EQ(lines.size(), 6U);
  for (const PlannedLine& line : lines) EXPECT_TRUE(line.repeated.empty());
  EXPECT_EQ(lines[2].rows, (std::vector<RowRange>{{kNotWorked, kNotWorked}, {3, 3}}));
  EXPECT_EQ(lines[4].rows, (std::vector<RowRange>{{3, 3}, {5, 5}}));
}

// One size: kinds 1 2 3 stand, then once and then twice more.
TEST(RowPlan, RepeatsTheFirstRowsThatFitAsOftenAsTheyStand) {
  chart::Design design;
  design.cells = chart::Grid(14, 1);
  RowSequences sequences;
  sequences.kinds.resize(6);
  sequences.rows = {{0, 1, 2, 3, 4, 1, 2, 3, 5, 1, 2, 3, 1, 2, 3}};
  SearchBudget budget{1'000'000, false};
  const auto costly = [](int, int) { return 10; };
  const auto lines = PlanLines(design, sequences, /*every_row=*/false, costly, budget);
  ASSERT_EQ(lines.size(), 8U);
  EXPECT_EQ(lines[5].rows, (std::vector<RowRange>{{6, 8}}));
  EXPECT_EQ(lines[5].repeated, (std::vector<RowRange>{{2, 4}}));
  EXPECT_EQ(lines[5].times, std::vector<int>{1});
  EXPECT_EQ(lines[7].rows, (std::vector<RowRange>{{10, 15}}));
  EXPECT_EQ(lines[7].repeated, (std::vector<RowRange>{{2, 4}}));
  EXPECT_EQ(lines[7].times, std::vector<int>{2});
}

TEST(RowPlan, WritesRowsOutWhereARepeatCostsNoLess) {
  chart::Design design;
  design.cells = chart::Grid(4, 1);
  RowSequences sequences;
  sequences.kinds.resize(2);
  sequences.rows = {{0, 1, 1, 1}};
  SearchBudget budget{1'000'000, false};
  const auto cheap = [](int, int) { return 1; };
  // Two rows of cost 1 against one repeat of cost 2: written out. Three are repeated.
  EXPECT_EQ(PlanLines(design, sequences, false, cheap, budget).size(), 4U);
  sequences.rows[0].push_back(1);
  EXPECT_EQ(PlanLines(design, sequences, false, cheap, budget).size(), 3U);
}

}  // namespace
}  // namespace rowproof::rows
