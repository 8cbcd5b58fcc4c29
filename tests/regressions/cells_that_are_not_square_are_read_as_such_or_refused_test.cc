// Cells of 12 x 15 pixels without lines between them were once read as cells of 3 x 3 pixels (a
// chart of 100 x 96 in place of 25 x 19), and called sure.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "gmock/gmock.h"
#include "services/images/chart_file.h"
#include "tests/images/drawn_charts.h"
#include "tests/images/sample_grids.h"

namespace rowproof::images {
namespace {

// Keeps the rules of a picture: no off-colour cell in row 1, in the last row, or above another.
chart::Grid WorkableGrid(std::mt19937& random, int rows, int stitches) {
  chart::Grid cells(rows, stitches);
  for (int stitch = 1; stitch <= stitches; ++stitch) {
    bool below = false;
    for (int row = 1; row <= rows; ++row) {
      const bool off = row > 1 && row < rows && !below && random() % 2 == 0;
      cells.set(row, stitch, (row % 2 == 0) != off);
      below = off;
    }
  }
  return cells;
}

Drawing WithoutLines(int width, int height) {
  Drawing drawing;
  drawing.cell_width = width;
  drawing.cell_height = height;
  drawing.line = drawing.heavy_line = 0;
  return drawing;
}

// The raw PPM with its sides multiplied, each new pixel the nearest old one: a screenshot that was
// scaled without smoothing.
std::string Scaled(const std::string& ppm, double across, double up) {
  const size_t line = ppm.find('\n', 3);
  const size_t blank = ppm.find(' ', 3);
  const int width = std::stoi(ppm.substr(3, blank - 3));
  const int height = std::stoi(ppm.substr(blank + 1, line - blank - 1));
  const std::string pixels = ppm.substr(ppm.find('\n', line + 1) + 1);
  const int new_width = static_cast<int>(width * across);
  const int new_height = static_cast<int>(height * up);
  std::string scaled =
      "P6\n" + std::to_string(new_width) + " " + std::to_string(new_height) + "\n255\n";
  for (int y = 0; y < new_height; ++y) {
    const int from_y = std::min(static_cast<int>((y + 0.5) / up), height - 1);
    for (int x = 0; x < new_width; ++x) {
      const int from_x = std::min(static_cast<int>((x + 0.5) / across), width - 1);
      scaled += pixels.substr(3 * (static_cast<size_t>(from_y) * static_cast<size_t>(width) +
                                   static_cast<size_t>(from_x)),
                              3);
    }
  }
  return scaled;
}

// Whether it was read right; never wrong and sure.
bool ReadsRight(const std::string& file, const chart::Grid& cells) {
  const auto chart = ImportChart(file, {});
  if (!chart.ok()) return false;
  const bool right = chart->cells == cells;
  EXPECT_TRUE(right || !chart->report.cell_size_certain)
      << Describe(chart->report) << chart->cells.stitches() << " x " << chart->cells.rows();
  return right;
}

const std::vector<std::pair<int, int>> kSizes = {{7, 9},   {12, 15}, {20, 10}, {15, 12},
                                                 {10, 20}, {12, 12}, {9, 7},   {30, 10},
                                                 {8, 5},   {14, 10}, {16, 13}, {3, 4}};

TEST(CellsThatAreNotSquare, AreReadForSureWithoutLinesWhereTheyAreNearlySquare) {
  std::mt19937 random(3);
  for (const auto& [width, height] : {std::pair(12, 15), {15, 12}, {7, 9}, {9, 7}, {16, 13}}) {
    const chart::Grid cells = WorkableGrid(random, 19, 25);
    const auto chart = ImportChart(Draw(cells, WithoutLines(width, height)), {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    EXPECT_EQ(chart->cells, cells) << Describe(chart->report);
    EXPECT_TRUE(chart->report.cell_size_certain);
    EXPECT_EQ(chart->report.cell_width, width);
    EXPECT_EQ(chart->report.cell_height, height);
    EXPECT_EQ(chart->report.cell_scale, 0);
  }
}

TEST(CellsThatAreNotSquare, AreNeverReadWrongAndCalledSure) {
  std::mt19937 random(5);
  int right = 0;
  int all = 0;
  for (const auto& [width, height] : kSizes) {
    for (int kind = 0; kind < 8; ++kind) {
      SCOPED_TRACE(testing::Message() << width << " x " << height << ", " << kind);
      const int rows = 6 + static_cast<int>(random() % 20);
      const int stitches = 6 + static_cast<int>(random() % 20);
      const chart::Grid cells = kind % 2 == 0
                                    ? WorkableGrid(random, rows, stitches)
                                    : RandomGrid(rows, stitches, static_cast<uint32_t>(random()));
      Drawing drawing = WithoutLines(width, height);
      if (kind / 2 % 2 == 1) drawing.line = drawing.heavy_line = 1;
      if (kind / 4 == 1) {
        drawing.margin = {8, 9, 4, 14};
        drawing.ground = random() % 2 == 0 ? kWhite : Rgb{200, 220, 240};
      }
      right += ReadsRight(Draw(cells, drawing), cells) ? 1 : 0;
      ++all;
    }
  }
  EXPECT_GT(right, all / 2);
}

TEST(CellsThatAreNotSquare, AreNeverReadWrongAndCalledSureAfterScaling) {
  std::mt19937 random(7);
  for (const auto& [width, height] : kSizes) {
    const chart::Grid cells = WorkableGrid(random, 15, 21);
    for (const auto& [across, up] : {std::pair(1.5, 1.5), {1.25, 1.25}, {1.1, 1.0}, {1.0, 0.9}}) {
      SCOPED_TRACE(testing::Message() << width << " x " << height << " times " << across);
      Drawing drawing = WithoutLines(width, height);
      ReadsRight(Scaled(Draw(cells, drawing), across, up), cells);
      drawing.line = drawing.heavy_line = 1;
      ReadsRight(Scaled(Draw(cells, drawing), across, up), cells);
    }
  }
}

TEST(CellsThatAreNotSquare, AreReadByTheirNumberAfterScaling) {
  std::mt19937 random(9);
  for (const auto& [width, height] : kSizes) {
    if (std::min(width, height) < 7) continue;
    const chart::Grid cells = WorkableGrid(random, 15, 21);
    ImportSettings settings;
    settings.stitches = 21;
    settings.rows = 15;
    for (const double scale : {1.5, 1.3, 0.9}) {
      const auto chart =
          ImportChart(Scaled(Draw(cells, WithoutLines(width, height)), scale, scale), settings);
      ASSERT_TRUE(chart.ok()) << width << " x " << height << " times " << scale << ": "
                              << chart.status();
      EXPECT_EQ(chart->cells, cells);
    }
    settings.rows = 14;
    EXPECT_FALSE(ImportChart(Draw(cells, WithoutLines(width, height)), settings).ok());
  }
}

}  // namespace
}  // namespace rowproof::images
