#include "services/domain/patterns/longest_common.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "tests/domain/patterns/sample_content.h"

namespace rowproof::patterns {
namespace {

using Sequence = std::vector<uint32_t>;

// Length by trying every subsequence of the shorter one: independent of any recurrence.
size_t LongestByTrying(const Sequence& a, const Sequence& b) {
  size_t longest = 0;
  for (uint32_t chosen = 0; chosen < uint32_t{1} << a.size(); ++chosen) {
    size_t at = 0;
    size_t length = 0;
    bool fits = true;
    for (size_t i = 0; i < a.size() && fits; ++i) {
      if ((chosen >> i & 1) == 0) continue;
      while (at < b.size() && b[at] != a[i]) ++at;
      fits = at < b.size();
      ++at;
      ++length;
    }
    if (fits) longest = std::max(longest, length);
  }
  return longest;
}

// Length by the textbook table over all pairs.
size_t LongestByTable(const Sequence& a, const Sequence& b) {
  std::vector<std::vector<size_t>> best(a.size() + 1, std::vector<size_t>(b.size() + 1, 0));
  for (size_t i = 1; i <= a.size(); ++i) {
    for (size_t j = 1; j <= b.size(); ++j) {
      best[i][j] =
          a[i - 1] == b[j - 1] ? best[i - 1][j - 1] + 1 : std::max(best[i - 1][j], best[i][j - 1]);
    }
  }
  return best[a.size()][b.size()];
}

void ExpectCommon(const Sequence& a, const Sequence& b, size_t length) {
  const auto pairs = LongestCommonSubsequence(a, b);
  EXPECT_EQ(pairs.size(), length);
  int i = -1;
  int j = -1;
  for (const auto& [at_a, at_b] : pairs) {
    ASSERT_GT(at_a, i);
    ASSERT_GT(at_b, j);
    ASSERT_LT(static_cast<size_t>(at_a), a.size());
    ASSERT_LT(static_cast<size_t>(at_b), b.size());
    ASSERT_EQ(a[static_cast<size_t>(at_a)], b[static_cast<size_t>(at_b)]);
    i = at_a;
    j = at_b;
  }
}

Sequence RandomSequence(std::mt19937_64& random, int most, int letters) {
  Sequence sequence(static_cast<size_t>(Pick(random, 0, most)));
  for (uint32_t& element : sequence) element = static_cast<uint32_t>(Pick(random, 1, letters));
  return sequence;
}

TEST(LongestCommonSubsequence, OfHandMadeCases) {
  ExpectCommon({}, {}, 0);
  ExpectCommon({1}, {}, 0);
  ExpectCommon({1, 2, 3}, {1, 2, 3}, 3);
  ExpectCommon({1, 2, 3}, {4, 5}, 0);
  ExpectCommon({1, 2, 3, 4}, {1, 3, 2, 4}, 3);
}

TEST(LongestCommonSubsequence, IsAsLongAsTryingEverythingFinds) {
  std::mt19937_64 random(31);
  for (int round = 0; round < 2000; ++round) {
    const Sequence a = RandomSequence(random, 9, 4);
    const Sequence b = RandomSequence(random, 9, 4);
    ExpectCommon(a, b, LongestByTrying(a, b));
  }
}

TEST(LongestCommonSubsequence, IsAsLongAsTheTableFindsOverSeveralWords) {
  std::mt19937_64 random(32);
  for (int round = 0; round < 60; ++round) {
    const int letters = round % 3 == 0 ? 2 : round % 3 == 1 ? 20 : 200;
    const Sequence a = RandomSequence(random, 400, letters);
    const Sequence b = RandomSequence(random, 400, letters);
    ExpectCommon(a, b, LongestByTable(a, b));
  }
}

TEST(LongestCommonSubsequence, PairsEqualBeginningsAndEnds) {
  const auto pairs = LongestCommonSubsequence(Sequence{7, 7, 7}, Sequence{7, 7, 7, 7, 7});
  ASSERT_EQ(pairs.size(), 3u);
  EXPECT_EQ(pairs[2], (std::pair{2, 2}));
}

}  // namespace
}  // namespace rowproof::patterns
