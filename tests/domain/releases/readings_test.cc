#include "services/domain/releases/readings.h"

#include <gtest/gtest.h>

namespace rowproof::releases {
namespace {

// Ten rows of eight stitches with one drop in each odd row from 3 on.
chart::Design Design(std::vector<std::pair<int, int>> more = {}) {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(10, 8);
  for (int row = 3; row <= 9; row += 2) design.cells.set(row, row % 8, true);
  for (const auto& [row, stitch] : more) design.cells.set(row, stitch, true);
  return design;
}

class ReadingsOfTwoVersions : public testing::Test {
 protected:
  const chart::Design first_ = Design();
  const chart::Design second_ = Design({{5, 7}});  // row 5 reads otherwise
  const std::map<int, const chart::Design*> designs_ = {{1, &first_}, {2, &second_}};
  Readings readings_{designs_, 2};
};

TEST_F(ReadingsOfTwoVersions, ReadTheSameInEveryRowButTheChangedOne) {
  for (int row = 1; row <= 10; ++row) EXPECT_EQ(readings_.Same(0, row, 1, 2), row != 5) << row;
  EXPECT_TRUE(readings_.Same(0, 5, 1, 1));
  EXPECT_FALSE(readings_.Same(0, 5, 1, 3));  // there is no version 3
}

TEST_F(ReadingsOfTwoVersions, CountEachRowFromTheVersionOfTheReportThatReachedIt) {
  const auto work = readings_.WorkOf("seat", "one size", {{1, 4}, {2, 9}});
  EXPECT_EQ(work.last_row, 9);
  EXPECT_EQ(work.VersionOf(4), 1);
  EXPECT_EQ(work.VersionOf(5), 2);
}

TEST_F(ReadingsOfTwoVersions, TakeBackRowsOfALaterReportThatReachesLessFar) {
  const auto work = readings_.WorkOf("seat", "one size", {{1, 8}, {2, 3}, {2, 6}});
  EXPECT_EQ(work.last_row, 6);
  EXPECT_EQ(work.VersionOf(3), 1);
  EXPECT_EQ(work.VersionOf(4), 2);
}

TEST_F(ReadingsOfTwoVersions, HaveNoWorkInASizeThatIsGone) {
  EXPECT_EQ(readings_.WorkOf("seat", "another", {{1, 4}}).size, -1);
}

TEST_F(ReadingsOfTwoVersions, CarryAPlaceOfTheEarlierVersion) {
  const auto place = readings_.InPresent("one size", 1, {7, 2, 3});
  ASSERT_TRUE(place.has_value());
  EXPECT_EQ(place->row, 7);
  EXPECT_FALSE(readings_.InPresent("another", 1, {7, 2, 3}).has_value());
}

}  // namespace
}  // namespace rowproof::releases
