// The shortest text of rows of three kinds (sc, the tall double, chain spaces) against a search of
// every expression, by the terms that stand between commas.
#include <algorithm>
#include <map>
#include <random>
#include <string>

#include "gtest/gtest.h"
#include "services/domain/rows/writing/row_items.h"
#include "services/domain/rows/writing/shortest_form.h"
#include "tests/domain/chart/build_kind.h"

namespace rowproof::rows {
namespace {

// One character a stitch: '.' plain, 'x' drop, 's' skipped.
std::vector<Element> Row(const std::string& stitches) {
  std::vector<Element> row;
  int skipped = 0;
  for (const char c : stitches + '|') {
    if (c != 's' && skipped > 0) row.push_back(ChainSpace(skipped));
    skipped = c == 's' ? skipped + 1 : 0;
    if (c == '.') row.push_back(kPlainStitch);
    if (c == 'x') row.push_back(kDropStitch);
  }
  return row;
}

// One character a term that may stand by itself: a chain space over n is its chains, 'a' + n, and
// its skip, 'A' + n.
std::string Terms(const std::vector<Element>& row) {
  std::string terms;
  for (const Element& element : row) {
    if (element.stitch != Stitch::kChainSpace) {
      terms += element == kPlainStitch ? '.' : 'x';
      continue;
    }
    terms += static_cast<char>('a' + element.skipped);
    terms += static_cast<char>('A' + element.skipped);
  }
  return terms;
}

std::vector<Element> Unfold(const std::vector<Step>& steps) {
  std::vector<Element> row;
  for (const Step& step : steps) {
    const std::vector<Element> unit =
        step.inside.empty() ? std::vector<Element>{step.element} : Unfold(step.inside);
    for (int n = 0; n < step.count; ++n) row.insert(row.end(), unit.begin(), unit.end());
  }
  return row;
}

int Depth(const std::vector<Step>& steps) {
  int depth = 0;
  for (const Step& step : steps) {
    if (!step.inside.empty()) depth = std::max(depth, 1 + Depth(step.inside));
  }
  return depth;
}

// The least cost by the definition alone: one term, a run of stitches, one bracket, or two parts
// side by side. Every cut is tried, also between chains and their skip.
class EveryExpression {
 public:
  int Least(const std::string& terms, int depth) {
    if (terms.empty()) return 0;
    if (terms.find_first_not_of(terms[0]) == std::string::npos) return 1;
    const auto key = std::make_pair(terms, depth);
    if (const auto known = memo_.find(key); known != memo_.end()) return known->second;
    int least = static_cast<int>(terms.size());
    for (size_t cut = 1; cut < terms.size(); ++cut) {
      least = std::min(least, Least(terms.substr(0, cut), depth) + Least(terms.substr(cut), depth));
    }
    for (size_t unit = 1; depth > 0 && 2 * unit <= terms.size(); ++unit) {
      if (terms.size() % unit != 0 ||
          terms.compare(unit, std::string::npos, terms, 0, terms.size() - unit) != 0) {
        continue;
      }
      least = std::min(least, 1 + Least(terms.substr(0, unit), depth - 1));
    }
    memo_[key] = least;
    return least;
  }

 private:
  std::map<std::pair<std::string, int>, int> memo_;
};

void ExpectShortest(const std::string& stitches, int depth, EveryExpression& every) {
  SearchBudget budget{1'000'000'000, false};
  const std::vector<Element> row = Row(stitches);
  const std::vector<Step> steps = ShortestForm(row, depth, budget);
  EXPECT_FALSE(budget.ran_out);
  EXPECT_EQ(Unfold(steps), row) << stitches;
  EXPECT_LE(Depth(steps), depth);
  EXPECT_EQ(Cost(steps), every.Least(Terms(row), depth)) << stitches << " at depth " << depth;
}

std::string RowOfNumber(uint64_t number, int length) {
  std::string stitches;
  for (int i = 0; i < length; ++i, number /= 3) stitches += ".xs"[number % 3];
  return stitches;
}

// All 9,840 rows; beside the usual depths all others in optimised builds, and for a seventh of the
// rows otherwise.
TEST(ThreeKinds, CostWhatTheBestOfAllExpressionsCostsForEveryRowOfUpToEightStitches) {
  EveryExpression every;
  unsigned rows = 1;
  for (int length = 1; length <= 8; ++length) {
    rows *= 3;
    for (unsigned number = 0; number < rows; ++number) {
      const bool usual_only = !chart::kExhaustive && number % 7 != 0;
      for (int depth = usual_only ? 1 : 0; depth <= (usual_only ? 2 : 3); ++depth) {
        ExpectShortest(RowOfNumber(number, length), depth, every);
      }
      if (HasFailure()) return;
    }
  }
}

TEST(ThreeKinds, CostWhatTheBestOfAllExpressionsCostsForLongRepetitiveRows) {
  std::mt19937 random(20261124);
  for (int n = 0; n < (chart::kExhaustive ? 200 : 20); ++n) {
    EveryExpression every;
    std::string stitches = RowOfNumber(random(), 2 + static_cast<int>(random() % 4));
    while (stitches.size() < 22) {
      const std::string unit = stitches;
      for (unsigned copies = random() % 4; copies > 0; --copies) stitches += unit;
      stitches += RowOfNumber(random(), static_cast<int>(random() % 3));
    }
    stitches = stitches.substr(random() % 4, 14 + random() % 7);
    for (int depth = 0; depth <= 4; ++depth) ExpectShortest(stitches, depth, every);
    if (HasFailure()) return;
  }
}

// What the text says between its commas, brackets aside, is what the cost counts.
TEST(ThreeKinds, CostTheTermsOfTheirText) {
  std::mt19937 random(11);
  const RowWords words;
  for (int n = 0; n < 500; ++n) {
    SearchBudget budget{1'000'000, false};
    const std::vector<Step> steps =
        ShortestForm(Row(RowOfNumber(random(), 6 + static_cast<int>(random() % 9))), 2, budget);
    const std::string text = StepsText(words, steps, /*over_space=*/n % 2 == 0);
    const auto count = [&text](char c) {
      return static_cast<int>(std::count(text.begin(), text.end(), c));
    };
    EXPECT_EQ(Cost(steps), 1 + count(',') + count('[')) << text;
  }
}

}  // namespace
}  // namespace rowproof::rows
