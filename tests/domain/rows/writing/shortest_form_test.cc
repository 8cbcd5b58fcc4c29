#include "services/domain/rows/writing/shortest_form.h"

#include <map>
#include <random>
#include <string>

#include "gtest/gtest.h"
#include "services/domain/rows/writing/squares.h"

namespace rowproof::rows {
namespace {

constexpr int64_t kPlenty = 1'000'000'000;

std::vector<Element> Row(const std::string& text) {
  std::vector<Element> row;
  for (const char c : text) row.push_back(c == 'x' ? kDropStitch : kPlainStitch);
  return row;
}

std::string RowOfBits(uint64_t bits, int length) {
  std::string text;
  for (int i = 0; i < length; ++i) text += (bits >> i & 1) != 0 ? 'x' : '.';
  return text;
}

std::string Unfold(const std::vector<Step>& steps) {
  std::string text;
  for (const Step& step : steps) {
    const std::string unit =
        step.inside.empty() ? (step.element == kDropStitch ? "x" : ".") : Unfold(step.inside);
    for (int n = 0; n < step.count; ++n) text += unit;
  }
  return text;
}

int Depth(const std::vector<Step>& steps) {
  int depth = 0;
  for (const Step& step : steps) {
    if (!step.inside.empty()) depth = std::max(depth, 1 + Depth(step.inside));
  }
  return depth;
}

bool Repeats(const std::string& text, size_t unit) {
  return text.size() % unit == 0 &&
         text.compare(unit, std::string::npos, text, 0, text.size() - unit) == 0;
}

// The least cost by the definition alone: a row is one run, one bracket, or two rows side by side.
// Every split and every bracketing is tried; shares nothing with the code under test.
class EveryExpression {
 public:
  int Least(const std::string& text, int depth) {
    if (text.empty()) return 0;
    if (text.find_first_not_of(text[0]) == std::string::npos) return 1;
    const auto key = std::make_pair(text, depth);
    if (const auto known = memo_.find(key); known != memo_.end()) return known->second;
    int least = static_cast<int>(text.size());
    for (size_t cut = 1; cut < text.size(); ++cut) {
      least = std::min(least, Least(text.substr(0, cut), depth) + Least(text.substr(cut), depth));
    }
    for (size_t unit = 1; depth > 0 && 2 * unit <= text.size(); ++unit) {
      if (Repeats(text, unit)) least = std::min(least, 1 + Least(text.substr(0, unit), depth - 1));
    }
    memo_[key] = least;
    return least;
  }

 private:
  std::map<std::pair<std::string, int>, int> memo_;
};

void ExpectShortest(const std::string& text, int depth, EveryExpression& every) {
  SearchBudget budget{kPlenty, false};
  const std::vector<Step> steps = ShortestForm(Row(text), depth, budget);
  EXPECT_FALSE(budget.ran_out);
  EXPECT_EQ(Unfold(steps), text);
  EXPECT_LE(Depth(steps), depth);
  EXPECT_EQ(Cost(steps), every.Least(text, depth)) << text << " at depth " << depth;
}

TEST(ShortestForm, CostsWhatTheBestOfAllExpressionsCostsForEveryRowOfUpToElevenStitches) {
  EveryExpression every;
  for (int length = 1; length <= 11; ++length) {
    for (unsigned bits = 0; bits < 1U << length; ++bits) {
      for (int depth = 0; depth <= 3; ++depth) {
        ExpectShortest(RowOfBits(bits, length), depth, every);
      }
      if (HasFailure()) return;
    }
  }
}

// Rows made of repeats within repeats, cut at random places: where a bracket pays.
std::string RandomRepetitive(std::mt19937& random, size_t most) {
  std::string text = RowOfBits(random(), static_cast<int>(1 + random() % 4));
  while (text.size() < most) {
    const std::string unit = text;
    for (unsigned n = random() % 4; n > 0; --n) text += unit;
    text += RowOfBits(random(), static_cast<int>(random() % 3));
    if (random() % 3 == 0) text = RowOfBits(random(), 1) + text;
    if (random() % 3 == 0) text.erase(0, random() % text.size());
    if (text.empty()) text.push_back('x');
  }
  return text.substr(0, most);
}

TEST(ShortestForm, CostsWhatTheBestOfAllExpressionsCostsForLongRepetitiveRows) {
  std::mt19937 random(20260711);
  for (int n = 0; n < 60; ++n) {
    EveryExpression every;
    const std::string text = RandomRepetitive(random, 12 + random() % 17);
    for (int depth = 0; depth <= 4; ++depth) ExpectShortest(text, depth, every);
    if (HasFailure()) return;
  }
}

TEST(ShortestForm, MaySplitARun) {
  SearchBudget budget{kPlenty, false};
  // Twelve times (three plain, one drop), then five plain: four terms, the last run cut out of
  // eight.
  std::string text;
  for (int n = 0; n < 12; ++n) text += "...x";
  text += ".....";
  const std::vector<Step> expected = {
      {Element{}, 12, {{kPlainStitch, 3, {}}, {kDropStitch, 1, {}}}}, {kPlainStitch, 5, {}}};
  EXPECT_EQ(ShortestForm(Row(text), 2, budget), expected);
}

TEST(ShortestForm, NestsBracketsOnlyAsDeepAsAsked) {
  std::string unit = "xx.x.x.x..";
  std::string text = unit + unit + unit + unit + unit;
  SearchBudget budget{kPlenty, false};
  EXPECT_EQ(Depth(ShortestForm(Row(text), 0, budget)), 0);
  EXPECT_EQ(Depth(ShortestForm(Row(text), 1, budget)), 1);
  EXPECT_EQ(Depth(ShortestForm(Row(text), 2, budget)), 2);
}

TEST(ShortestForm, GivesAValidFormAndSaysSoWhenTheBudgetRunsOut) {
  std::mt19937 random(5);
  const std::string text = RandomRepetitive(random, 300);
  bool ran_out_once = false;
  bool enough_once = false;
  for (int64_t left = 1; left < 2'000'000; left *= 3) {
    for (const int depth : {1, 2, 3}) {
      SearchBudget budget{left, false};
      const std::vector<Step> steps = ShortestForm(Row(text), depth, budget);
      EXPECT_EQ(Unfold(steps), text);
      EXPECT_LE(Depth(steps), depth);
      ran_out_once |= budget.ran_out;
      enough_once |= !budget.ran_out;
    }
  }
  EXPECT_TRUE(ran_out_once);
  EXPECT_TRUE(enough_once);
}

TEST(Squares, AreExactlyThoseOfTheDefinition) {
  std::mt19937 random(77);
  for (int n = 0; n < 40; ++n) {
    const std::string text = n % 2 == 0 ? RandomRepetitive(random, 10 + random() % 130)
                                        : RowOfBits(random(), 20) + RowOfBits(random(), 32);
    for (const bool primitive_only : {false, true}) {
      std::vector<std::pair<int, int>> expected;
      for (size_t start = 0; start < text.size(); ++start) {
        for (size_t unit = 1; start + 2 * unit <= text.size(); ++unit) {
          const std::string first = text.substr(start, unit);
          if (first != text.substr(start + unit, unit) || Repeats(first, 1)) continue;
          bool primitive = true;
          for (size_t part = 1; part < unit; ++part) primitive &= !Repeats(first, part);
          if (primitive || !primitive_only) {
            expected.emplace_back(static_cast<int>(start), static_cast<int>(unit));
          }
        }
      }
      std::vector<std::pair<int, int>> found;
      const std::vector<Square> squares = FindSquares(Numbered(Row(text)), primitive_only);
      for (const Square& square : squares) {
        found.emplace_back(square.start, square.unit);
        if (square.previous < 0) continue;
        const Square& previous = squares[static_cast<size_t>(square.previous)];
        EXPECT_EQ(previous.start, square.start - square.unit);
        EXPECT_EQ(previous.unit, square.unit);
      }
      EXPECT_EQ(found, expected) << text;
    }
  }
}

}  // namespace
}  // namespace rowproof::rows
