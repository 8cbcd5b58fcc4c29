// Comparing versions ends when it is told to.
#include <gtest/gtest.h>

#include <map>
#include <random>

#include "services/domain/patterns/difference.h"
#include "services/domain/patterns/readings.h"
#include "tests/support/expect_stops.h"

namespace rowproof::patterns {
namespace {

VersionContent RandomVersion(int rows, uint64_t seed) {
  std::mt19937_64 random(seed);
  VersionContent content;
  content.design.convention = chart::Convention::kWorking;
  content.design.cells = chart::Grid(rows, 64);
  for (int row = 3; row <= rows; ++row) content.design.cells.mutable_row(row)[0] = random();
  return content;
}

TEST(Stopping, EndsTheComparisonOfVersions) {
  const VersionContent before = RandomVersion(400, 1);
  const VersionContent after = RandomVersion(390, 2);
  ExpectStops(3, [&](const Stop& stop) {
    Compare(before, after, stop);
    return stop.status();
  });
  ExpectStops(3, [&](const Stop& stop) {
    CompareSize(before.design, 0, after.design, 0, stop);
    return stop.status();
  });
}

TEST(Stopping, KeepsNoDifferenceThatIsNotWhole) {
  std::map<int, VersionContent> contents;
  contents.emplace(1, RandomVersion(400, 1));
  contents.emplace(2, contents.at(1));
  contents.at(2).design.cells.mutable_row(7)[0] ^= 2;
  StopsAtLook signal(1);
  const Stop stop(signal);
  Readings stopped(contents, 2, &stop);
  EXPECT_FALSE(stopped.Same(faults::Source::kChart, 0, 5, 1, 2));
  EXPECT_FALSE(stop.status().ok());
  // Without a difference nobody has worked anything in the present version's numbers.
  EXPECT_EQ(stopped.WorkOf("seat", "one size", {{1, 300}}).last_row, 0);
  Readings whole(contents, 2);
  EXPECT_TRUE(whole.Same(faults::Source::kChart, 0, 5, 1, 2));
  EXPECT_FALSE(whole.Same(faults::Source::kChart, 0, 7, 1, 2));
}

}  // namespace
}  // namespace rowproof::patterns
