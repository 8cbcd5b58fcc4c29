// Covers against search through all choices.
#include "services/domain/chart/repair/cover.h"

#include <limits>

#include "gtest/gtest.h"
#include "services/domain/chart/repair/elimination.h"
#include "services/domain/chart/repair/strips.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/chart/random_designs.h"

namespace rowproof::chart {
namespace {

bool Meets(const Cover& cover, const std::vector<uint8_t>& taken) {
  for (size_t i = 0; i < cover.sets(); ++i) {
    bool met = false;
    for (const int32_t node : cover.set(i)) met = met || taken[static_cast<size_t>(node)] != 0;
    if (!met) return false;
  }
  return true;
}

int64_t WeightOf(const Cover& cover, const std::vector<uint8_t>& taken) {
  int64_t weight = 0;
  for (int32_t node = 0; node < cover.nodes(); ++node) {
    if (taken[static_cast<size_t>(node)] != 0) weight += cover.weight(node);
  }
  return weight;
}

int64_t LeastWeight(const Cover& cover) {
  int64_t least = std::numeric_limits<int64_t>::max();
  std::vector<uint8_t> taken(static_cast<size_t>(cover.nodes()));
  for (uint32_t bits = 0; bits < uint32_t{1} << cover.nodes(); ++bits) {
    for (size_t i = 0; i < taken.size(); ++i) taken[i] = bits >> i & 1;
    if (const int64_t weight = WeightOf(cover, taken); weight < least && Meets(cover, taken)) {
      least = weight;
    }
  }
  return least;
}

// Marks of a small chart with their pairs and runs, or sets without any order.
Cover RandomCover(RandomDesigns& random, int most_nodes) {
  Cover cover;
  const int nodes = random.Pick(1, most_nodes);
  const int stitches = random.Pick(1, 6);
  for (int i = 0; i < nodes; ++i) {
    cover.AddNode(random.Chance(50) ? 1 : random.Pick(1, 4), i / stitches + 1, i % stitches + 1);
  }
  if (random.Chance(50)) {
    const int run = random.Pick(1, 4);
    for (int i = 0; i < nodes; ++i) {
      if (i + stitches < nodes) cover.AddSet(std::vector<int32_t>{i, i + stitches});
      std::vector<int32_t> window;
      for (int k = 0; k < run && i + k < nodes; ++k) window.push_back(i + k);
      if (i % stitches + run <= stitches && static_cast<int>(window.size()) == run && run > 1) {
        cover.AddSet(window);
      }
    }
    return cover;
  }
  for (int i = random.Pick(0, nodes + 4); i > 0; --i) {
    std::vector<int32_t> set;
    for (int32_t node = 0; node < nodes; ++node) {
      if (random.Chance(300 / (nodes + 2))) set.push_back(node);
    }
    if (!set.empty()) cover.AddSet(set);
  }
  return cover;
}

void ExpectFits(const Cover& cover, const CoverAnswer& answer) {
  ASSERT_TRUE(Meets(cover, answer.taken));
  ASSERT_EQ(WeightOf(cover, answer.taken), answer.weight);
  ASSERT_LE(answer.least, answer.weight);
}

TEST(Cover, IsLeastOnSmallOnes) {
  RandomDesigns random(5);
  for (int i = 0; i < (kExhaustive ? 4000 : 300); ++i) {
    const Cover cover = RandomCover(random, kExhaustive ? 14 : 10);
    const CoverAnswer answer = Solve(cover, 1'000'000);
    ExpectFits(cover, answer);
    ASSERT_EQ(answer.weight, LeastWeight(cover)) << i;
    ASSERT_EQ(answer.least, answer.weight) << i;
  }
}

TEST(Cover, InStripsHoldsTheLeastBetweenItsTwoWeights) {
  RandomDesigns random(6);
  int met = 0;
  int all = 0;
  for (int i = 0; i < (kExhaustive ? 4000 : 300); ++i) {
    const Cover cover = RandomCover(random, kExhaustive ? 14 : 10);
    const CoverAnswer answer = SolveInStrips(cover, random.Pick(0, 3000), Stop());
    ExpectFits(cover, answer);
    const int64_t least = LeastWeight(cover);
    ASSERT_LE(answer.least, least) << i;
    ASSERT_GE(answer.weight, least) << i;
    ++all;
    if (answer.weight == least) ++met;
  }
  EXPECT_GT(met * 10, all * 8);
}

TEST(Cover, KeepsTheFirstNodeOfALineAmongEquals) {
  Cover cover;
  for (int i = 0; i < 4; ++i) cover.AddNode(1, i + 1, 1);
  for (int i = 0; i < 3; ++i) cover.AddSet(std::vector<int32_t>{i, i + 1});
  const CoverAnswer answer = Solve(cover, 100);
  EXPECT_EQ(answer.taken, (std::vector<uint8_t>{0, 1, 0, 1}));
  EXPECT_EQ(answer.weight, 2);
  ASSERT_TRUE(AsLine(cover, Stop()).has_value());
}

TEST(Cover, TakesANodeThatHasASetOfItsOwn) {
  Cover cover;
  cover.AddNode(7, 1, 1);
  cover.AddNode(1, 2, 1);
  cover.AddSet(std::vector<int32_t>{0});
  cover.AddSet(std::vector<int32_t>{0, 1});
  const CoverAnswer answer = Solve(cover, 0);
  EXPECT_EQ(answer.taken, (std::vector<uint8_t>{1, 0}));
  EXPECT_EQ(answer.least, 7);
}

TEST(Cover, IsNoLineWhereItIsARing) {
  Cover cover;
  for (int i = 0; i < 3; ++i) cover.AddNode(1, i + 1, 1);
  cover.AddSet(std::vector<int32_t>{0, 1});
  cover.AddSet(std::vector<int32_t>{1, 2});
  cover.AddSet(std::vector<int32_t>{2, 0});
  EXPECT_FALSE(AsLine(cover, Stop()).has_value());
  EXPECT_EQ(Solve(cover, 100).weight, 2);
}

}  // namespace
}  // namespace rowproof::chart
