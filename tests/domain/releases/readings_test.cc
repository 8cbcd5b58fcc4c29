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

// Eight chart rows of inset, each with a drop of its own from row 3 on; the later version has two
// plain chart rows more below row 3.
class ReadingsOfInset : public testing::Test {
 protected:
  static chart::Design Inset(int rows, int first_drop_row) {
    chart::Design design;
    design.technique = chart::Technique::kInset;
    design.convention = chart::Convention::kWorking;
    design.cells = chart::Grid(rows, 12);
    for (int row = first_drop_row; row <= rows; ++row) {
      design.cells.set(row, 2 + row - first_drop_row, true);
    }
    return design;
  }
  const chart::Design first_ = Inset(8, 3);
  const chart::Design second_ = Inset(10, 5);
  const std::map<int, const chart::Design*> designs_ = {{1, &first_}, {2, &second_}};
  Readings readings_{designs_, 2};
};

TEST_F(ReadingsOfInset, CarryWorkedRowsNineAndTenFourRowsUp) {
  for (const int row : {9, 10}) {
    const auto place = readings_.InPresent("one size", 1, {row, 4, 5});
    ASSERT_TRUE(place.has_value()) << row;
    EXPECT_EQ(*place, (Place{row + 4, 4, 5})) << row;
    EXPECT_TRUE(readings_.Same(0, row + 4, 1, 2)) << row;
  }
}

TEST_F(ReadingsOfInset, CountHalfAChartRowAsWorked) {
  const auto work = readings_.WorkOf("seat", "one size", {{1, 9}});
  EXPECT_EQ(work.last_row, 13);
  EXPECT_EQ(readings_.WorkOf("seat", "one size", {{1, 10}}).last_row, 14);
}

TEST(ReadingsOfInsetSkips, ReadOtherwiseWhereTheNextColourFillsAnotherStitch) {
  chart::Design first;
  first.technique = chart::Technique::kInset;
  first.convention = chart::Convention::kWorking;
  first.cells = chart::Grid(8, 12);
  first.cells.set(5, 4, true);
  chart::Design second = first;
  second.cells.set(5, 7, true);
  const std::map<int, const chart::Design*> designs = {{1, &first}, {2, &second}};
  Readings readings(designs, 2);
  // Filled in row 9; skipped in both rows of chart row 4.
  for (int row = 1; row <= 16; ++row) {
    EXPECT_EQ(readings.Same(0, row, 1, 2), row < 7 || row > 9) << row;
  }
}

}  // namespace
}  // namespace rowproof::releases
