#include "services/domain/patterns/row_alignment.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <limits>

#include "services/domain/chart/expand.h"
#include "services/domain/patterns/row_comparison.h"
#include "services/domain/patterns/row_contents.h"
#include "tests/domain/patterns/sample_content.h"

namespace rowproof::patterns {
namespace {

using testing::ElementsAre;

std::vector<RowDifference> Align(const chart::Design& before, const chart::Design& after) {
  return AlignRows(ChartRows(before), ChartRows(after));
}

// "same 1-1, changed 2-2, removed 3, added 3"
std::string InShort(const std::vector<RowDifference>& rows) {
  std::string text;
  for (const RowDifference& row : rows) {
    text += text.empty() ? "" : ", ";
    text += Name(row.change);
    text += " ";
    if (row.old_row > 0) text += std::to_string(row.old_row);
    if (row.old_row > 0 && row.new_row > 0) text += "-";
    if (row.new_row > 0) text += std::to_string(row.new_row);
  }
  return text;
}

// Every old and every new row stands there once, in ascending order.
void ExpectEveryRowOnce(const std::vector<RowDifference>& rows, size_t before, size_t after) {
  int old_row = 0;
  int new_row = 0;
  for (const RowDifference& row : rows) {
    if (row.old_row != 0) {
      ASSERT_EQ(row.old_row, ++old_row);
    }
    if (row.new_row != 0) {
      ASSERT_EQ(row.new_row, ++new_row);
    }
    ASSERT_EQ(row.old_row == 0, row.change == RowChange::kAdded);
    ASSERT_EQ(row.new_row == 0, row.change == RowChange::kRemoved);
  }
  EXPECT_EQ(static_cast<size_t>(old_row), before);
  EXPECT_EQ(static_cast<size_t>(new_row), after);
}

bool Drop(const RowContents& contents, int row, int stitch) {
  const int at = contents.rows[static_cast<size_t>(row - 1)].drops_row;
  return at != 0 && contents.stitches.at(at, stitch);
}

bool Skip(const RowContents& contents, int row, int stitch) {
  const int at = contents.rows[static_cast<size_t>(row - 1)].skips_row;
  return at != 0 && contents.stitches.at(at, stitch);
}

// One letter a stitch, stitch 1 first.
std::string Letters(const RowContents& contents, int row) {
  std::string letters;
  for (int stitch = 1; stitch <= contents.stitches.stitches(); ++stitch) {
    letters += static_cast<char>('0' + (Drop(contents, row, stitch) ? 1 : 0) +
                                 (Skip(contents, row, stitch) ? 2 : 0));
  }
  return letters;
}

// Takes the old row and exchanges nothing but the stitches that the difference lists.
std::string Applied(const RowDifference& row, const std::string& old_letters,
                    const std::string& new_letters) {
  if (row.change == RowChange::kSame) return old_letters;
  if (old_letters.size() == new_letters.size()) {
    std::string letters = old_letters;
    for (const StitchRange& range : row.old_stitches) {
      for (int stitch = range.first; stitch <= range.last; ++stitch) {
        const auto at = static_cast<size_t>(stitch - 1);
        letters[at] = new_letters[at];
      }
    }
    return letters;
  }
  std::string letters = old_letters;
  size_t from = row.new_stitches.empty() ? static_cast<size_t>(row.old_stitches[0].first - 1)
                                         : static_cast<size_t>(row.new_stitches[0].first - 1);
  if (!row.old_stitches.empty()) {
    const StitchRange& gone = row.old_stitches[0];
    from = static_cast<size_t>(gone.first - 1);
    letters.erase(from, static_cast<size_t>(gone.last - gone.first + 1));
  }
  if (!row.new_stitches.empty()) {
    const StitchRange& come = row.new_stitches[0];
    letters.insert(from, new_letters.substr(static_cast<size_t>(come.first - 1),
                                            static_cast<size_t>(come.last - come.first + 1)));
  }
  return letters;
}

void ExpectAppliedGivesTheLater(const RowContents& before, const RowContents& after) {
  const auto rows = AlignRows(before, after);
  ExpectEveryRowOnce(rows, before.rows.size(), after.rows.size());
  for (const RowDifference& row : rows) {
    if (row.old_row == 0 || row.new_row == 0) continue;
    const auto& old_row = before.rows[static_cast<size_t>(row.old_row - 1)];
    const auto& new_row = after.rows[static_cast<size_t>(row.new_row - 1)];
    ASSERT_EQ(row.colour_changed, old_row.colour != new_row.colour);
    ASSERT_EQ(row.side_changed, old_row.side != new_row.side);
    const std::string old_letters = Letters(before, row.old_row);
    const std::string new_letters = Letters(after, row.new_row);
    ASSERT_EQ(Applied(row, old_letters, new_letters), new_letters);
    ASSERT_EQ(row.change == RowChange::kSame,
              old_letters == new_letters && !row.colour_changed && !row.side_changed);
  }
}

TEST(RowAlignment, OfEqualChartsIsTheSameThroughout) {
  const auto chart = WorkingChart({"..x..", ".....", "..x..", ".....", "....."});
  EXPECT_EQ(InShort(Align(chart, chart)), "same 1-1, same 2-2, same 3-3, same 4-4, same 5-5");
}

TEST(RowAlignment, NamesTheStitchesOfAChangedRow) {
  const auto before = WorkingChart({".....x.", "..x....", ".......", "......."});
  const auto after = WorkingChart({".....x.", "..xx..x", ".......", "......."});
  const auto rows = Align(before, after);
  EXPECT_EQ(InShort(rows), "same 1-1, same 2-2, changed 3-3, same 4-4");
  EXPECT_THAT(rows[2].old_stitches, ElementsAre(StitchRange{1, 1}, StitchRange{4, 4}));
  EXPECT_EQ(rows[2].new_stitches, rows[2].old_stitches);
}

TEST(RowAlignment, FindsTwoRowsPutInAndTakenAway) {
  const auto shorter = WorkingChart({".x...", "...x.", "x....", ".....", "....."});
  const auto longer = WorkingChart({".x...", "...x.", ".x.x.", "x.x.x", "x....", ".....", "....."});
  EXPECT_EQ(InShort(Align(shorter, longer)),
            "same 1-1, same 2-2, same 3-3, added 4, added 5, same 4-6, same 5-7");
  EXPECT_EQ(InShort(Align(longer, shorter)),
            "same 1-1, same 2-2, same 3-3, removed 4, removed 5, same 6-4, same 7-5");
}

TEST(RowAlignment, PairsTheMoreSimilarOfTwoRows) {
  // Row 3 was taken away and row 5 got one stitch more: not "rows 3 and 5 both became another".
  auto before = WorkingChart({"x.......", ".xx.xx..", "xxxxxx..", "........"});
  auto after = WorkingChart({"x.......", ".xx.xx.x", "........"});
  before.row_colours.assign(4, chart::Colour::kA);
  after.row_colours.assign(3, chart::Colour::kA);
  before.facing = after.facing = chart::Facing::kOneFace;
  EXPECT_EQ(InShort(Align(before, after)), "same 1-1, removed 2, changed 3-2, same 4-3");
}

TEST(RowAlignment, TakesAsManyRowsInTheSamePlaceAsRewritten) {
  const auto before = WorkingChart({".x...", "x.x.x", ".....", "....."});
  const auto after = WorkingChart({".x...", ".x.x.", ".....", "....."});
  const auto rows = Align(before, after);
  EXPECT_EQ(InShort(rows), "same 1-1, same 2-2, changed 3-3, same 4-4");
  EXPECT_THAT(rows[2].new_stitches, ElementsAre(StitchRange{1, 5}));
}

TEST(RowAlignment, ComparesRowsOfOtherLengthFromBothEdges) {
  const auto before = WorkingChart({"x..x.x.", "......."});
  const auto after = WorkingChart({"x...x.x.", "........"});
  const auto rows = Align(before, after);
  EXPECT_EQ(InShort(rows), "changed 1-1, changed 2-2");
  EXPECT_THAT(rows[1].old_stitches, ElementsAre());
  EXPECT_THAT(rows[1].new_stitches, ElementsAre(StitchRange{7, 7}));
}

TEST(RowAlignment, TellsColourAndSideFromStitches) {
  auto before = WorkingChart({".....", ".....", "....."});
  auto after = before;
  after.row_colours = {chart::Colour::kA, chart::Colour::kA, chart::Colour::kA};
  const auto colours = Align(before, after);
  ASSERT_EQ(InShort(colours), "same 1-1, changed 2-2, same 3-3");
  EXPECT_TRUE(colours[1].colour_changed);
  EXPECT_FALSE(colours[1].side_changed);
  EXPECT_TRUE(colours[1].new_stitches.empty());
  after = before;
  after.facing = chart::Facing::kOneFace;
  const auto sides = Align(before, after);
  ASSERT_EQ(InShort(sides), "same 1-1, changed 2-2, same 3-3");
  EXPECT_TRUE(sides[1].side_changed);
}

TEST(RowAlignment, ReadsAPictureAndItsWorkingChartAlike) {
  std::mt19937_64 random(41);
  chart::Design picture;
  picture.cells = RandomGrid(random, 40, 70);
  chart::Design working = picture;
  working.convention = chart::Convention::kWorking;
  working.cells = chart::Expand(picture, 0).drops;
  for (const RowDifference& row : Align(picture, working)) EXPECT_EQ(row.change, RowChange::kSame);
}

TEST(WorkedRows, OfInsetAreTwoAChartRowWithTheSkipsOfTheNext) {
  auto inset = WorkingChart({".x.", "..x", "..."});
  inset.technique = chart::Technique::kInset;
  const RowContents worked = WorkedRows(inset, 0);
  ASSERT_EQ(worked.rows.size(), 6u);
  EXPECT_EQ(Letters(worked, 1), "200");  // skips what chart row 2 fills
  EXPECT_EQ(Letters(worked, 2), "200");
  EXPECT_EQ(Letters(worked, 3), "120");  // fills stitch 1, skips stitch 2
  EXPECT_EQ(Letters(worked, 4), "020");
  EXPECT_EQ(Letters(worked, 5), "010");
  EXPECT_EQ(Letters(worked, 6), "000");
  EXPECT_EQ(worked.rows[4].side, chart::Side::kRightSide);
  EXPECT_EQ(worked.rows[5].side, chart::Side::kWrongSide);
}

// Copies the chart with some rows changed, put in or taken away.
chart::Design Edited(std::mt19937_64& random, const chart::Design& design) {
  std::vector<std::string> rows;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    std::string letters;
    for (int s = design.cells.stitches(); s >= 1; --s)
      letters += design.cells.at(row, s) ? 'x' : '.';
    const int fate = Pick(random, 0, 9);
    if (fate == 0) continue;
    if (fate == 1) rows.push_back(std::string(letters.rbegin(), letters.rend()));
    if (fate <= 3)
      letters[static_cast<size_t>(Pick(random, 0, static_cast<int>(letters.size()) - 1))] ^=
          'x' ^ '.';
    rows.push_back(letters);
  }
  if (rows.empty()) rows.emplace_back(static_cast<size_t>(design.cells.stitches()), '.');
  if (Pick(random, 0, 3) == 0) {
    const auto at = static_cast<size_t>(Pick(random, 0, design.cells.stitches()));
    for (std::string& row : rows) row.insert(at, Pick(random, 0, 1) == 0 ? "x" : ".");
  }
  std::reverse(rows.begin(), rows.end());
  chart::Design edited = design;
  edited.cells = GridOf(rows);
  return edited;
}

TEST(RowAlignment, AppliedToTheEarlierVersionGivesTheLater) {
  std::mt19937_64 random(42);
  for (int round = 0; round < 300; ++round) {
    chart::Design before;
    before.convention = chart::Convention::kWorking;
    before.technique = round % 3 == 0 ? chart::Technique::kInset : chart::Technique::kSpike;
    before.cells = RandomGrid(random, Pick(random, 1, 40), Pick(random, 1, 150));
    const chart::Design after = Edited(random, before);
    ExpectAppliedGivesTheLater(ChartRows(before), ChartRows(after));
    ExpectAppliedGivesTheLater(WorkedRows(before, 0), WorkedRows(after, 0));
  }
}

// Score of two rows of drops, letter by letter.
int ScoreByLetters(const std::string& a, const std::string& b) {
  const size_t shorter = std::min(a.size(), b.size());
  size_t common = 0;
  if (a.size() == b.size()) {
    for (size_t n = 0; n < shorter; ++n) common += a[n] == b[n] ? 1 : 0;
  } else {
    size_t start = 0;
    while (start < shorter && a[start] == b[start]) ++start;
    size_t end = 0;
    while (start + end < shorter && a[a.size() - 1 - end] == b[b.size() - 1 - end]) ++end;
    common = start + end;
  }
  return static_cast<int>(2 * common) - static_cast<int>(std::max(a.size(), b.size()));
}

TEST(RowComparison, ScoresAsComparingLetterByLetterDoes) {
  std::mt19937_64 random(45);
  for (int round = 0; round < 200; ++round) {
    RowContents before;
    RowContents after;
    const int stitches = Pick(random, 1, 140);
    before.stitches = RandomGrid(random, 1, stitches);
    after.stitches = RandomGrid(random, 1, round % 2 == 0 ? stitches : Pick(random, 1, 140));
    // Mostly alike, so that beginnings and ends in common are long.
    for (int s = 1; s <= std::min(stitches, after.stitches.stitches()); ++s) {
      if (Pick(random, 0, 30) > 0) after.stitches.set(1, s, before.stitches.at(1, s));
    }
    before.rows = after.rows = {{1, 0, chart::Colour::kA, chart::Side::kRightSide}};
    const int score = ScoreByLetters(Letters(before, 1), Letters(after, 1));
    ASSERT_EQ(RowComparison(before, after).Score(0, 0), score);
    after.rows[0].colour = chart::Colour::kB;
    after.rows[0].side = chart::Side::kWrongSide;
    const int longer = std::max(stitches, after.stitches.stitches());
    ASSERT_EQ(RowComparison(before, after).Score(0, 0), score - longer / 2 - longer / 8);
  }
}

// Best sum over every way to pair rows in order, found by trying them all.
int64_t BestByTrying(const RowComparison& rows, size_t m, size_t n) {
  const std::function<int64_t(size_t, size_t)> best = [&](size_t i, size_t j) -> int64_t {
    if (i == m || j == n) return 0;
    int64_t value = std::max(best(i + 1, j), best(i, j + 1));
    const int score = rows.Score(i, j);
    if (score >= 0) value = std::max(value, best(i + 1, j + 1) + score + 1);
    return value;
  };
  return best(0, 0);
}

TEST(RowAlignment, PairsSimilarRowsAsWellAsTryingEverythingDoes) {
  std::mt19937_64 random(43);
  int compared = 0;
  for (int round = 0; round < 400; ++round) {
    const int other = Pick(random, 0, 3) == 0 ? 13 : 12;
    RowContents before;
    RowContents after;
    // All rows of one colour and side: where no two are equal, all is one gap.
    before.stitches = RandomGrid(random, Pick(random, 1, 5), 12);
    after.stitches = RandomGrid(random, Pick(random, 1, 5), other);
    for (int row = 1; row <= before.stitches.rows(); ++row) before.rows.push_back({row, 0, {}, {}});
    for (int row = 1; row <= after.stitches.rows(); ++row) after.rows.push_back({row, 0, {}, {}});
    const RowComparison comparison(before, after);
    const auto aligned = AlignRows(before, after);
    if (std::any_of(aligned.begin(), aligned.end(),
                    [](const RowDifference& row) { return row.change == RowChange::kSame; })) {
      continue;
    }
    ++compared;
    int64_t sum = 0;
    for (const RowDifference& row : aligned) {
      if (row.change != RowChange::kChanged) continue;
      const int score = comparison.Score(static_cast<size_t>(row.old_row - 1),
                                         static_cast<size_t>(row.new_row - 1));
      if (score >= 0) sum += score + 1;
    }
    ASSERT_EQ(sum, BestByTrying(comparison, before.rows.size(), after.rows.size())) << round;
  }
  EXPECT_GT(compared, 300);
}

TEST(RowAlignment, JoinsTheLastOfVeryManyStitchRanges) {
  chart::Design before;
  before.convention = chart::Convention::kWorking;
  before.cells = chart::Grid(1, 1000);
  chart::Design after = before;
  for (int stitch = 1; stitch <= 1000; stitch += 2) after.cells.set(1, stitch, true);
  const auto rows = Align(before, after);
  ASSERT_EQ(rows.size(), 1u);
  ASSERT_EQ(rows[0].new_stitches.size(), kMostStitchRanges);
  EXPECT_EQ(rows[0].new_stitches.back(), (StitchRange{399, 999}));
}

TEST(RowAlignment, JoinsARangeAcrossWords) {
  chart::Design before;
  before.convention = chart::Convention::kWorking;
  before.cells = chart::Grid(1, 200);
  chart::Design after = before;
  for (int stitch = 60; stitch <= 140; ++stitch) after.cells.set(1, stitch, true);
  EXPECT_THAT(Align(before, after)[0].new_stitches, ElementsAre(StitchRange{60, 140}));
}

TEST(RowAlignment, OfTheLargestChartsWithoutAnEqualRowIsComplete) {
  std::mt19937_64 random(44);
  chart::Design before;
  before.convention = chart::Convention::kWorking;
  before.cells = RandomGrid(random, chart::kMostRows, chart::kMostStitches);
  chart::Design after = before;
  for (int row = 1; row <= chart::kMostRows; ++row) {
    const int stitch = Pick(random, 1, chart::kMostStitches);
    after.cells.set(row, stitch, !after.cells.at(row, stitch));
  }
  const auto rows = Align(before, after);
  ASSERT_EQ(rows.size(), static_cast<size_t>(chart::kMostRows));
  for (int row = 1; row <= chart::kMostRows; ++row) {
    const RowDifference& difference = rows[static_cast<size_t>(row - 1)];
    ASSERT_EQ(difference.old_row, row);
    ASSERT_EQ(difference.new_row, row);
    ASSERT_EQ(difference.new_stitches.size(), 1u);
  }
}

}  // namespace
}  // namespace rowproof::patterns
