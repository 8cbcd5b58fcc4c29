#include "services/domain/patterns/readings.h"

#include <gtest/gtest.h>

namespace rowproof::patterns {
namespace {

using faults::Source;

std::map<int, VersionContent> Contents(const chart::Design& first, const chart::Design& second) {
  std::map<int, VersionContent> contents;
  contents[1].design = first;
  contents[2].design = second;
  return contents;
}

// Ten rows of eight stitches with one drop in each odd row from 3 on.
chart::Design Design(const std::vector<std::pair<int, int>>& more = {}) {
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
  const std::map<int, VersionContent> contents_ = Contents(first_, second_);
  Readings readings_{contents_, 2};
};

TEST_F(ReadingsOfTwoVersions, ReadTheSameInEveryRowButTheChangedOne) {
  for (int row = 1; row <= 10; ++row)
    EXPECT_EQ(readings_.Same(Source::kChart, 0, row, 1, 2), row != 5) << row;
  EXPECT_TRUE(readings_.Same(Source::kChart, 0, 5, 1, 1));
  EXPECT_FALSE(readings_.Same(Source::kChart, 0, 5, 1, 3));  // there is no version 3
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
  const std::map<int, VersionContent> contents_ = Contents(first_, second_);
  Readings readings_{contents_, 2};
};

TEST_F(ReadingsOfInset, CarryWorkedRowsNineAndTenFourRowsUp) {
  for (const int row : {9, 10}) {
    const auto place = readings_.InPresent("one size", 1, {row, 4, 5});
    ASSERT_TRUE(place.has_value()) << row;
    EXPECT_EQ(*place, (Place{row + 4, 4, 5})) << row;
    EXPECT_TRUE(readings_.Same(Source::kChart, 0, row + 4, 1, 2)) << row;
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
  const auto contents = Contents(first, second);
  Readings readings(contents, 2);
  // Filled in row 9; skipped in both rows of chart row 4.
  for (int row = 1; row <= 16; ++row) {
    EXPECT_EQ(readings.Same(Source::kChart, 0, row, 1, 2), row < 7 || row > 9) << row;
  }
}

// Rows in the designer's own words, with so many plain stitches before the drop of row 5.
std::string OwnText(int plain_first_of_row_5) {
  std::string text;
  for (int row = 1; row <= 10; ++row) {
    const bool drop = row % 2 == 1 && row > 1;
    const int first = row == 5 ? plain_first_of_row_5 : row % 8 - 1;
    text += "Row " + std::to_string(row) + ": ";
    text += !drop        ? "sc in each st across"
            : first == 0 ? "ssc, sc in each st across"
                         : "sc " + std::to_string(first) + ", ssc, sc in each st across";
    text += ".\n";
  }
  return text;
}

class ReadingsOfOwnTexts : public testing::Test {
 protected:
  ReadingsOfOwnTexts() {
    contents_[1].designer_text = OwnText(3);
    contents_[2].designer_text = OwnText(4);
  }
  void Expect(Source source, int changed_row) {
    for (int row = 1; row <= 10; ++row) {
      EXPECT_EQ(readings_.Same(source, 0, row, 1, 2), row != changed_row) << row;
    }
  }
  std::map<int, VersionContent> contents_ = Contents(Design(), Design());
  Readings readings_{contents_, 2};
};

TEST_F(ReadingsOfOwnTexts, ReadOtherwiseInTheRowThatWasCorrectedAndOnlyAsWritten) {
  Expect(Source::kChart, 0);
  Expect(Source::kText, 5);
}

TEST_F(ReadingsOfOwnTexts, MarkTheCorrectedRowAmongTheRowsThatTheChartLeavesAsTheyWere) {
  contents_[2].design = Design({{7, 2}});
  std::vector<rows::OwnRows> texts;
  for (const auto& [number, content] : contents_) {
    texts.emplace_back(content.design, content.designer_text, content.designer_text_terms,
                       content.row_style.colour_names);
  }
  SizeDifference difference = CompareSize(contents_[1].design, 0, contents_[2].design, 0);
  MarkTextChanges(texts[0], texts[1], difference);
  ASSERT_EQ(difference.rows.size(), 10U);
  for (const RowDifference& row : difference.rows) {
    EXPECT_EQ(row.change, row.old_row == 5   ? RowChange::kTextChanged
                          : row.old_row == 7 ? RowChange::kChanged
                                             : RowChange::kSame)
        << row.old_row;
  }
  const auto around = ChangesFrom(difference, 6);
  ASSERT_TRUE(around.ok());
  ASSERT_EQ(around->behind.size(), 1U);
  EXPECT_EQ(around->behind[0].old_row, 5);
  ASSERT_EQ(around->ahead.size(), 1U);
  EXPECT_EQ(around->ahead[0].old_row, 7);
}

TEST_F(ReadingsOfOwnTexts, CoverACorrectedRowFromTheChartAloneUntilItIsWorkedAgain) {
  std::vector<faults::TesterWork> work = {readings_.WorkOf("both", "one size", {{1, 10}}),
                                          readings_.WorkOf("text", "one size", {{1, 7}}),
                                          readings_.WorkOf("new", "one size", {{2, 5}})};
  for (auto& tester : work) tester.from_text = true;
  work[0].from_chart = true;
  const auto covered = faults::Cover(work, {std::vector<int>{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}}, 2,
                                     [&](Source source, int size, int row, int version, int other) {
                                       return readings_.Same(source, size, row, version, other);
                                     });
  ASSERT_EQ(covered.size(), 1u);
  EXPECT_EQ(covered[0].rows[3], (faults::RowCoverage{1, 3, 3}));
  EXPECT_EQ(covered[0].rows[4], (faults::RowCoverage{1, 1, 2}));
  EXPECT_EQ(covered[0].rows[5], (faults::RowCoverage{1, 2, 2}));
}

TEST_F(ReadingsOfOwnTexts, StayAsTheyAreWhereTheChartAloneChanged) {
  contents_[2].designer_text = contents_[1].designer_text;
  contents_[2].design = Design({{7, 2}});
  Expect(Source::kChart, 7);
  Expect(Source::kText, 0);
}

TEST_F(ReadingsOfOwnTexts, ReadOtherwiseInEveryRowWhereTheTextOrTheTechniqueIsNew) {
  contents_[1].designer_text.clear();
  for (int row = 1; row <= 10; ++row) {
    EXPECT_FALSE(readings_.Same(Source::kText, 0, row, 1, 2)) << row;
    EXPECT_TRUE(readings_.Same(Source::kChart, 0, row, 1, 2)) << row;
  }
  contents_[1].designer_text = contents_[2].designer_text;
  contents_[1].design.technique = chart::Technique::kOverlay;
  EXPECT_FALSE(readings_.Same(Source::kText, 0, 1, 1, 2));
}

TEST_F(ReadingsOfOwnTexts, FollowAFaultToWhereItWasMet) {
  using faults::SeenIn;
  for (const auto& [seen_in, same] : std::map<SeenIn, bool>{{SeenIn::kChart, true},
                                                            {SeenIn::kText, false},
                                                            {SeenIn::kBoth, true},
                                                            {SeenIn::kElsewhere, false}}) {
    EXPECT_EQ(readings_.SameAsMet(seen_in, 0, 5, 1, 2), same);
    EXPECT_TRUE(readings_.SameAsMet(seen_in, 0, 6, 1, 2));
  }
}

TEST(ReadingsOfRowsWrittenFromTheChart, ReadAsTheChartDoes) {
  const auto contents = Contents(Design(), Design({{5, 7}}));
  Readings readings(contents, 2);
  for (int row = 1; row <= 10; ++row) {
    EXPECT_EQ(readings.Same(Source::kText, 0, row, 1, 2), row != 5) << row;
  }
}

}  // namespace
}  // namespace rowproof::patterns
