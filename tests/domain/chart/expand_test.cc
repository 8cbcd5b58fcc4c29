// Sizes laid out, the two conventions, sides and edges.
#include "services/domain/chart/expand.h"

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/random_designs.h"

namespace rowproof::chart {
namespace {

using ::testing::ElementsAre;

// A letter F in A on a ground of B seen on face 1; nothing in it is symmetric.
Design LetterF() {
  return Picture({
      "AAAAAAAA",  // 9
      "BBBBBBBB",  // 8
      "AAAAAAAA",  // 7
      "BAAAAABB",  // 6
      "AAAAAAAA",  // 5
      "BAAABBBB",  // 4
      "AAAAAAAA",  // 3
      "BABBBBBB",  // 2
      "AAAAAAAA",  // 1
  });
}

TEST(Expand, SetsTheDropsOneRowAboveTheOffColourCells) {
  const ExpandedSize expanded = Expand(LetterF(), 0);
  EXPECT_THAT(ToText(expanded.drops),
              ElementsAre("........", "........", ".xxxxx..", "........", ".xxx....", "........",
                          ".x......", "........", "........"));
  // The upright of the F is at stitch 7, counted from the right edge.
  EXPECT_TRUE(expanded.drops.at(3, 7));
  EXPECT_FALSE(expanded.drops.at(3, 2));
  EXPECT_EQ(PictureFromDrops(expanded.drops, expanded.row_colours), LetterF().cells);
}

TEST(Expand, RepeatsBandsOfRowsAndStitchesInTheOrderOfTheChart) {
  Design design = Working({"x..", ".x.", "..x"});
  design.row_band = Band{2, 3};
  design.stitch_band = Band{1, 2};
  design.sizes = {{"S", 1, 1}, {"L", 3, 2}};
  EXPECT_EQ(ExpandedRows(design, 1), 5);
  EXPECT_EQ(ExpandedStitches(design, 1), 7);
  const ExpandedSize expanded = Expand(design, 1);
  EXPECT_THAT(expanded.chart_row, ElementsAre(1, 2, 3, 2, 3));
  EXPECT_THAT(expanded.chart_stitch, ElementsAre(1, 2, 1, 2, 1, 2, 3));
  EXPECT_THAT(ToText(expanded.drops),
              ElementsAre("x......", ".x.x.x.", "x......", ".x.x.x.", "..x.x.x"));
  EXPECT_EQ(Expand(design, 0).drops, design.cells);
}

TEST(AsWorked, RowsAreThoseOfTheChartTwoInALineForInset) {
  Design design = Working({"x..", ".x.", "..x"});
  design.row_band = Band{2, 3};
  design.stitch_band = Band{1, 2};
  design.sizes = {{"S", 1, 1}, {"L", 3, 2}};
  EXPECT_THAT(ChartRowsAsWorked(design, 1), ElementsAre(1, 2, 3, 2, 3));
  EXPECT_THAT(ChartStitchesAsWorked(design, 1), ElementsAre(1, 2, 1, 2, 1, 2, 3));
  design.technique = Technique::kOverlay;
  design.form = Form::kTube;
  EXPECT_THAT(ChartRowsAsWorked(design, 1), ElementsAre(1, 2, 3, 2, 3));
  // Row 0 of worked stitches is no row of the chart.
  design.foundation_colour = Colour::kB;
  EXPECT_THAT(ChartRowsAsWorked(design, 0), ElementsAre(1, 2, 3));
  design.form = Form::kFlat;
  design.technique = Technique::kInset;
  EXPECT_THAT(ChartRowsAsWorked(design, 0), ElementsAre(1, 1, 2, 2, 3, 3));
  EXPECT_THAT(ChartRowsAsWorked(design, 1), ElementsAre(1, 1, 2, 2, 3, 3, 2, 2, 3, 3));
}

TEST(AsWorked, RowsAndStitchesAgreeWithTheSizeLaidOut) {
  RandomDesigns random(7);
  for (int i = 0; i < 300; ++i) {
    const Design design = random.NextOfAll(8, 8);
    for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
      const ExpandedSize expanded = Expand(design, size);
      const std::vector<int> rows = ChartRowsAsWorked(design, size);
      ASSERT_EQ(rows.size(), expanded.chart_row.size() * static_cast<size_t>(WorkedRows(design)));
      for (size_t k = 0; k < rows.size(); ++k) {
        const int row = ChartRowOfWorkedRow(design, static_cast<int>(k) + 1);
        EXPECT_EQ(rows[k], expanded.chart_row[static_cast<size_t>(row - 1)]);
      }
      EXPECT_EQ(ChartStitchesAsWorked(design, size), expanded.chart_stitch);
    }
  }
}

TEST(Expand, LetsTheAlternationFollowTheWorkedRowAndAnExplicitOrderTheChartRow) {
  Design design = Working({".", ".", "."});
  design.row_band = Band{2, 2};
  design.sizes = {{"M", 1, 2}};
  EXPECT_THAT(Expand(design, 0).row_colours,
              ElementsAre(Colour::kA, Colour::kB, Colour::kA, Colour::kB));
  design.row_colours = {Colour::kB, Colour::kB, Colour::kA};
  EXPECT_THAT(Expand(design, 0).row_colours,
              ElementsAre(Colour::kB, Colour::kB, Colour::kB, Colour::kA));
}

TEST(Expand, AgreesCellByCellWithTheChartInRandomDesigns) {
  RandomDesigns random(11);
  for (int i = 0; i < 500; ++i) {
    const Design design = random.Chance(80) ? random.Next(8, 20) : random.Next(6, 150);
    for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
      const ExpandedSize expanded = Expand(design, size);
      ASSERT_EQ(expanded.drops.rows(), ExpandedRows(design, size));
      ASSERT_EQ(expanded.drops.stitches(), ExpandedStitches(design, size));
      const auto cell = [&](int row, int stitch) {
        return design.cells.at(expanded.chart_row[static_cast<size_t>(row - 1)],
                               expanded.chart_stitch[static_cast<size_t>(stitch - 1)]);
      };
      for (int row = 1; row <= expanded.drops.rows(); ++row) {
        for (int stitch = 1; stitch <= expanded.drops.stitches(); ++stitch) {
          const bool drop =
              design.convention == Convention::kWorking
                  ? cell(row, stitch)
                  : row > 1 &&
                        cell(row - 1, stitch) !=
                            (expanded.row_colours[static_cast<size_t>(row - 2)] == Colour::kB);
          ASSERT_EQ(expanded.drops.at(row, stitch), drop) << "design " << i << " row " << row;
        }
      }
    }
  }
}

TEST(Conventions, GoRoundUnchangedWhereColoursAlternateAndTheLastRowIsPlain) {
  RandomDesigns random(13);
  for (int i = 0; i < 300; ++i) {
    Design design = random.Next(12, 80);
    std::vector<Colour> colours;
    const bool starts_with_b = random.Chance(50);
    for (int row = 1; row <= design.cells.rows(); ++row) {
      colours.push_back((row % 2 == 0) != starts_with_b ? Colour::kB : Colour::kA);
    }
    // Drops in row 1 cover nothing and have no picture.
    for (uint64_t& word : design.cells.mutable_row(1)) word = 0;
    const Grid picture = PictureFromDrops(design.cells, colours);
    ASSERT_EQ(DropsFromPicture(picture, colours), design.cells) << "design " << i;
    ASSERT_EQ(PictureFromDrops(DropsFromPicture(picture, colours), colours), picture);
  }
}

TEST(Conventions, ShowTheRowsOwnColourUnderADropOfTheSameColour) {
  const std::vector<Colour> colours = {Colour::kA, Colour::kB, Colour::kB};
  EXPECT_THAT(ToText(PictureFromDrops(FromText({".x.", "...", "..."}), colours)),
              ElementsAre("xxx", "xxx", "..."));
}

}  // namespace
}  // namespace rowproof::chart
