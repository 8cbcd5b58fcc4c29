// Repeats of earlier rows, and the plan of lines made of them, against plain references; and that
// the work grows no faster than the rows.
#include "services/domain/rows/writing/row_repeats.h"

#include <algorithm>
#include <functional>
#include <random>

#include "gtest/gtest.h"
#include "services/domain/rows/writing/row_plan.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {
namespace {

using Kinds = std::vector<int>;

size_t Index(int i) { return static_cast<size_t>(i); }

// Few kinds, tiled now and then, so that rows come again.
Kinds RandomKinds(std::mt19937& random, int most) {
  const auto kinds = 1 + random() % 5;
  Kinds rows;
  while (static_cast<int>(rows.size()) < most) {
    if (!rows.empty() && random() % 3 == 0) {
      const size_t from = random() % rows.size();
      const size_t length = 1 + random() % (rows.size() - from);
      for (size_t i = 0; i < length; ++i) rows.push_back(rows[from + i]);
    } else {
      rows.push_back(static_cast<int>(random() % kinds));
    }
  }
  rows.resize(Index(most));
  return rows;
}

bool Same(const Kinds& a, int from, const Kinds& b, int other, int count) {
  return std::equal(a.begin() + from, a.begin() + from + count, b.begin() + other);
}

TEST(EarlierRows, KnowTheLongestStretchThatStandsWhollyBeforeEachRow) {
  std::mt19937 random(3);
  for (int n = 0; n < 300; ++n) {
    const Kinds target = RandomKinds(random, 1 + static_cast<int>(random() % 40));
    Kinds source = target;
    // Rows that may not be repeated.
    for (int& kind : source)
      kind = random() % 12 == 0 ? -100 - static_cast<int>(random() % 1000) : kind;
    const EarlierRows earlier(source);
    const std::vector<int> longest = earlier.LongestBefore(target);
    const int count = static_cast<int>(target.size());
    for (int i = 0; i < count; ++i) {
      int expected = 0;
      int first = -1;
      for (int j = 0; j < i; ++j) {
        int length = 0;
        while (j + length < i && i + length < count &&
               source[Index(j + length)] == target[Index(i + length)]) {
          ++length;
        }
        if (length > expected) {
          expected = length;
          first = j;
        }
      }
      ASSERT_EQ(longest[Index(i)], expected) << "row " << i;
      if (expected == 0) continue;
      EXPECT_EQ(earlier.FirstOf(std::span<const int>(target).subspan(Index(i), Index(expected))),
                first);
    }
  }
}

TEST(RowSquares, AreExactlyThoseOfTheDefinition) {
  std::mt19937 random(5);
  for (int n = 0; n < 300; ++n) {
    const Kinds rows = RandomKinds(random, 1 + static_cast<int>(random() % 40));
    const int count = static_cast<int>(rows.size());
    RowSquares squares(rows);
    SearchBudget budget{1'000'000, false};
    for (int i = count - 1; i >= 0; --i) {
      const int longest = static_cast<int>(random() % 2) == 0 ? count : 1 + i;
      std::vector<std::pair<int, int>> expected;
      for (int unit = 1; unit <= longest && i + 2 * unit <= count; ++unit) {
        if (!Same(rows, i, rows, i + unit, unit)) continue;
        bool primitive = true;
        for (int part = 1; part < unit; ++part) {
          primitive &= unit % part != 0 || !Same(rows, i, rows, i + part, unit - part);
        }
        int end = i + unit;
        while (end < count && rows[Index(end)] == rows[Index(end - unit)]) ++end;
        if (primitive) expected.emplace_back(unit, end);
      }
      std::vector<std::pair<int, int>> found;
      for (const RowSquare& square : squares.At(i, longest, budget)) {
        found.emplace_back(square.unit, square.end);
      }
      ASSERT_EQ(found, expected) << "row " << i;
    }
  }
}

struct Line {
  int at = 0;
  int unit = 0;
  int copies = 1;
  bool operator==(const Line&) const = default;
};

// The plan by its definition: at each row every unit and every number of copies is tried.
std::vector<Line> PlainPlan(const Kinds& rows, const std::function<int(int)>& cost) {
  const int count = static_cast<int>(rows.size());
  std::vector<int> best(rows.size() + 1, 0);
  std::vector<Line> lines(rows.size());
  for (int i = count - 1; i >= 0; --i) {
    int least = best[Index(i) + 1] + cost(rows[Index(i)]);
    Line line{i, 0, 1};
    for (int unit = 1; unit <= i; ++unit) {
      bool earlier = false;
      for (int j = 0; i + unit <= count && j + unit <= i; ++j) {
        earlier |= Same(rows, j, rows, i, unit);
      }
      if (!earlier) continue;
      for (int copies = 1; i + unit * copies <= count; ++copies) {
        if (!Same(rows, i, rows, i + unit * (copies - 1), unit)) break;
        const int whole = kRepeatCost + best[Index(i + unit * copies)];
        const bool farther =
            line.unit > 0 && whole == least && unit * copies > line.unit * line.copies;
        if (whole < least || farther) {
          least = whole;
          line = {i, unit, copies};
        }
      }
    }
    best[Index(i)] = least;
    lines[Index(i)] = line;
  }
  std::vector<Line> chosen;
  for (int at = 0; at < count;) {
    const Line& line = lines[Index(at)];
    chosen.push_back(line);
    at += std::max(1, line.unit) * line.copies;
  }
  return chosen;
}

std::vector<PlannedLine> Plan(const Kinds& rows, const std::function<int(int, int)>& cost,
                              SearchBudget& budget) {
  chart::Design design;
  design.cells = chart::Grid(static_cast<int>(rows.size()), 1);
  RowSequences sequences;
  sequences.kinds.resize(8);
  sequences.rows = {rows};
  return PlanLines(design, sequences, /*every_row=*/false, cost, budget);
}

TEST(RowPlan, IsTheOneThatTryingEveryRepeatGives) {
  std::mt19937 random(7);
  int repeats = 0;
  for (int n = 0; n < 400; ++n) {
    const Kinds rows = RandomKinds(random, 2 + static_cast<int>(random() % 40));
    const int factor = 1 + static_cast<int>(random() % 4);
    const auto cost = [factor](int kind, int) { return 1 + factor * kind; };
    SearchBudget budget{1'000'000, false};
    std::vector<Line> found;
    for (const PlannedLine& line : Plan(rows, cost, budget)) {
      const int unit =
          line.repeated.empty() ? 0 : line.repeated[0].last - line.repeated[0].first + 1;
      found.push_back({line.rows[0].first - 1, unit, line.times.empty() ? 1 : line.times[0]});
      repeats += unit > 0;
      if (unit > 0) {
        EXPECT_TRUE(Same(rows, line.repeated[0].first - 1, rows, line.rows[0].first - 1, unit));
      }
    }
    ASSERT_EQ(found, PlainPlan(rows, [&](int kind) { return cost(kind, -1); })) << "plan " << n;
  }
  EXPECT_GT(repeats, 500);
}

// Elementary steps of the plan of so many rows.
int64_t WorkOf(const std::function<int(int)>& kind, int count) {
  Kinds rows;
  for (int i = 0; i < count; ++i) rows.push_back(kind(i));
  constexpr int64_t kPlenty = 1'000'000'000;
  SearchBudget budget{kPlenty, false};
  Plan(
      rows, [](int, int) { return 5; }, budget);
  EXPECT_FALSE(budget.ran_out);
  return kPlenty - budget.left;
}

TEST(RowPlan, TakesWorkThatGrowsNoFasterThanTheRows) {
  std::mt19937 random(9);
  const std::vector<std::function<int(int)>> charts = {
      [](int) { return 1; },             // rows all alike
      [](int i) { return i % 40 % 8; },  // a motif tiled
      [](int i) { return i % 2 == 0 ? 1 : 2 + i / 2 % 3; },
      [&](int) { return static_cast<int>(random() % 8); },
      // Plain rows between motif rows in an order that comes again after 41 of them.
      [](int i) { return i % 2 == 0 ? 0 : 1 + i / 2 * (i / 2) % 41 % 7; },
  };
  for (const auto& kind : charts) {
    const int64_t few = WorkOf(kind, 1000);
    const int64_t many = WorkOf(kind, 4000);
    EXPECT_LE(many, 5 * few);
    EXPECT_LE(many, 60 * 4000);
  }
}

TEST(RowPlan, WritesRowsOutWhereItsBudgetRunsOut) {
  const Kinds rows = {1, 2, 1, 2, 1, 2, 1, 2, 1, 2};
  const auto cost = [](int, int) { return 5; };
  SearchBudget none{3, false};
  EXPECT_EQ(Plan(rows, cost, none).size(), rows.size());
  EXPECT_TRUE(none.ran_out);
  SearchBudget plenty{1000, false};
  EXPECT_EQ(Plan(rows, cost, plenty).size(), 3U);
  EXPECT_FALSE(plenty.ran_out);
}

}  // namespace
}  // namespace rowproof::rows
