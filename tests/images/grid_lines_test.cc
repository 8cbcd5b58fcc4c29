// Charts with grid lines, margins and numbers, found and declared.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/images/chart_export.h"
#include "services/images/chart_file.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/images/drawn_charts.h"
#include "tests/images/sample_grids.h"

namespace rowproof::images {
namespace {

// Builds that are slow take every seventh drawing: seven shares no divisor with what a drawing's
// number decides.
constexpr int kStep = chart::kExhaustive ? 1 : 7;

using ::testing::AllOf;
using ::testing::HasSubstr;

constexpr Rgb kCream{250, 240, 220};
constexpr Rgb kNavy{10, 20, 60};
constexpr Rgb kGrey{150, 150, 150};
constexpr Rgb kDark{60, 60, 60};

int Between(std::mt19937& random, int least, int most) {
  return least + static_cast<int>(random() % static_cast<uint32_t>(most - least + 1));
}

Margins RandomMargins(std::mt19937& random) {
  return {Between(random, 0, 40), Between(random, 0, 40), Between(random, 0, 40),
          Between(random, 0, 40)};
}

// A picture chart that can be worked: row 1 in A, the last row not off-colour, none over another.
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

TEST(GridLines, OfAnotherColourAreTakenOffWithMarginsAndNumbers) {
  std::mt19937 random(41);
  for (int i = 0; i < 120; i += kStep) {
    SCOPED_TRACE(i);
    const chart::Grid cells =
        RandomGrid(Between(random, 3, 24), Between(random, 3, 24), static_cast<uint32_t>(random()));
    Drawing drawing;
    drawing.cell_width = Between(random, 5, 20);
    drawing.cell_height = Between(random, 5, 20);
    drawing.line = Between(random, 1, 2);
    drawing.heavy_line = drawing.line + Between(random, 0, 2);
    drawing.margin = RandomMargins(random);
    drawing.numbers = true;
    // A heavy line at the picture's very edge would pass for a line in a margin of its colour.
    if (drawing.heavy_line > drawing.line) ++drawing.margin.right, ++drawing.margin.bottom;
    drawing.over_cells = i % 4 < 2;
    drawing.line_colour = drawing.heavy_colour = kGrey;
    if (i % 2 == 0) drawing.colours = {kCream, kNavy};
    const auto chart = ImportChart(Draw(cells, drawing, static_cast<uint32_t>(i)), {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    ASSERT_EQ(chart->cells, cells)
        << Describe(chart->report) << Drawn(chart->cells) << Drawn(cells);
    const ImportReport& report = chart->report;
    ASSERT_TRUE(report.grid.has_value());
    EXPECT_EQ(report.cut, drawing.margin) << Describe(report);
    EXPECT_EQ(report.marked.left, drawing.margin.left >= 10) << Describe(report);
    EXPECT_EQ(report.grid->lines_across, cells.stitches() + 1);
    EXPECT_EQ(report.grid->lines_up, cells.rows() + 1);
    EXPECT_EQ(report.grid->line_width_x, drawing.line);
    EXPECT_NEAR(report.grid->pitch_x, drawing.cell_width + drawing.line, 0.5);
    EXPECT_NEAR(report.grid->pitch_y, drawing.cell_height + drawing.line, 0.5);
    EXPECT_EQ(report.cell_scale, 0);
  }
}

TEST(GridLines, OfTwoColoursAreTakenOff) {
  std::mt19937 random(48);
  for (int i = 0; i < 60; i += kStep) {
    SCOPED_TRACE(i);
    const chart::Grid cells =
        RandomGrid(Between(random, 3, 34), Between(random, 3, 34), static_cast<uint32_t>(random()));
    Drawing drawing;
    drawing.cell_width = drawing.cell_height = Between(random, 7, 16);
    drawing.heavy_line = Between(random, 1, 3);
    drawing.over_cells = i % 2 == 0;
    drawing.margin = {30, 20, 30, 20};
    drawing.numbers = true;
    drawing.line_colour = kGrey;
    drawing.heavy_colour = i % 3 == 0 ? kBlack : kDark;
    const auto chart = ImportChart(Draw(cells, drawing, static_cast<uint32_t>(i)), {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    ASSERT_EQ(chart->cells, cells) << Describe(chart->report);
    // A frame of the heavy colour around cells of fewer than ten rows is no part of the lattice.
    EXPECT_LE(chart->report.cut.left - drawing.margin.left, drawing.heavy_line);
    EXPECT_LE(chart->report.cut.top - drawing.margin.top, drawing.heavy_line);
    EXPECT_LE(chart->report.cut.right - drawing.margin.right, drawing.heavy_line);
    EXPECT_LE(chart->report.cut.bottom - drawing.margin.bottom, drawing.heavy_line);
  }
}

TEST(GridLines, OfTheDarkCellsColourAreTakenOff) {
  std::mt19937 random(42);
  for (int i = 0; i < 120; i += kStep) {
    SCOPED_TRACE(i);
    const chart::Grid cells = WorkableGrid(random, Between(random, 4, 20), Between(random, 4, 20));
    Drawing drawing;
    drawing.cell_width = Between(random, 8, 20);
    drawing.cell_height = Between(random, 8, 20);
    drawing.line = drawing.heavy_line = Between(random, 1, 2);
    drawing.line_colour = drawing.heavy_colour = kBlack;
    drawing.numbers = true;
    drawing.margin = RandomMargins(random);
    // A margin of some kind, or none; then the picture has two colours only.
    if (i % 3 == 0) {
      drawing.margin = {};
      drawing.line = drawing.heavy_line = 1;
    }
    const auto chart = ImportChart(Draw(cells, drawing, static_cast<uint32_t>(i)), {});
    ASSERT_TRUE(chart.ok()) << chart.status() << '\n' << Drawn(cells);
    ASSERT_EQ(chart->cells, cells) << Describe(chart->report) << Drawn(cells);
    EXPECT_EQ(chart->report.cut, drawing.margin) << Describe(chart->report);
  }
}

TEST(GridLines, OfTheColourOfTheMarginAreTakenOffWhereCellsHaveOthers) {
  std::mt19937 random(43);
  for (int i = 0; i < 60; i += kStep) {
    SCOPED_TRACE(i);
    const chart::Grid cells =
        RandomGrid(Between(random, 3, 20), Between(random, 3, 20), static_cast<uint32_t>(random()));
    Drawing drawing;
    drawing.cell_width = drawing.cell_height = Between(random, 10, 20);
    drawing.line = drawing.heavy_line = Between(random, 1, 3);
    drawing.line_colour = drawing.heavy_colour = kWhite;
    drawing.colours = {kCream, kNavy};
    drawing.margin = RandomMargins(random);
    drawing.numbers = i % 2 == 0;
    const auto chart = ImportChart(Draw(cells, drawing, static_cast<uint32_t>(i)), {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    ASSERT_EQ(chart->cells, cells);
    EXPECT_EQ(chart->report.cut, drawing.margin) << Describe(chart->report);
  }
}

TEST(GridLines, MayStandBetweenCellsOnly) {
  std::mt19937 random(44);
  for (int i = 0; i < 40; i += kStep) {
    SCOPED_TRACE(i);
    const chart::Grid cells =
        RandomGrid(Between(random, 3, 20), Between(random, 3, 20), static_cast<uint32_t>(random()));
    Drawing drawing;
    drawing.frame = false;
    drawing.line_colour = drawing.heavy_colour = kGrey;
    if (i % 2 == 0) drawing.margin = RandomMargins(random);
    drawing.numbers = true;
    const auto chart = ImportChart(Draw(cells, drawing, static_cast<uint32_t>(i)), {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    ASSERT_EQ(chart->cells, cells);
    EXPECT_EQ(chart->report.cut, drawing.margin);
    EXPECT_EQ(chart->report.grid->lines_across, cells.stitches() - 1);
  }
}

TEST(GridLines, OfColouredChartsAreTakenOff) {
  std::mt19937 random(45);
  for (int letters = 3; letters <= 8; ++letters) {
    const int rows = Between(random, 5, 12);
    const int stitches = Between(random, 8, 20);
    Drawing drawing;
    drawing.colours = UsualColours(static_cast<size_t>(letters));
    drawing.margin = {20, 20, 20, 20};
    drawing.numbers = true;
    ImportSettings settings;
    for (int row = 1; row <= rows; ++row) {
      settings.row_colours.push_back(static_cast<chart::Colour>((row - 1) % letters));
    }
    settings.row_colours.back() = static_cast<chart::Colour>(letters - 1);
    std::vector<int> cells;
    for (int i = 0; i < rows * stitches; ++i) cells.push_back(i % letters);
    std::shuffle(cells.begin(), cells.end(), random);
    const auto chart = ImportChart(Draw(rows, stitches, cells, drawing, 1), settings);
    ASSERT_TRUE(chart.ok()) << chart.status();
    for (int row = 1; row <= rows; ++row) {
      for (int stitch = 1; stitch <= stitches; ++stitch) {
        const auto at = static_cast<size_t>((rows - row) * stitches + stitches - stitch);
        const auto met = static_cast<size_t>((row - 1) * stitches + stitch - 1);
        ASSERT_EQ(static_cast<int>(chart->picture_colours[met]), cells[at]);
      }
    }
    EXPECT_EQ(chart->report.colour_count, static_cast<size_t>(letters));
  }
}

TEST(Margins, AreCutAwayAroundCellsWithoutLines) {
  std::mt19937 random(46);
  for (int i = 0; i < 40; i += kStep) {
    const chart::Grid cells =
        RandomGrid(Between(random, 3, 20), Between(random, 3, 20), static_cast<uint32_t>(random()));
    Drawing drawing;
    drawing.line = drawing.heavy_line = 0;
    drawing.colours = {kCream, kNavy};
    drawing.cell_width = drawing.cell_height = Between(random, 8, 20);
    drawing.margin = {Between(random, 1, 30), Between(random, 1, 30), Between(random, 1, 30),
                      Between(random, 1, 30)};
    drawing.numbers = true;
    const auto chart = ImportChart(Draw(cells, drawing, static_cast<uint32_t>(i)), {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    ASSERT_EQ(chart->cells, cells);
    EXPECT_EQ(chart->report.cut, drawing.margin);
    EXPECT_EQ(chart->report.cell_scale, drawing.cell_width);
    EXPECT_FALSE(chart->report.grid.has_value());
  }
}

// What is not certain.

std::string Refused(const std::string& file, const ImportSettings& settings = {}) {
  const auto chart = ImportChart(file, settings);
  return chart.ok() ? "accepted:\n" + Describe(chart->report) + Drawn(chart->cells)
                    : std::string(chart.status().message());
}

TEST(GridLines, AreNotGuessedWhereTheMarginHidesCells) {
  // White lines, white cells and a white margin: rows of white cells may lie in the margin.
  Drawing drawing;
  drawing.line_colour = drawing.heavy_colour = kWhite;
  drawing.margin = {30, 30, 30, 30};
  drawing.numbers = true;
  EXPECT_THAT(Refused(Draw(RandomGrid(9, 12, 3), drawing)),
              HasSubstr("so that the chart's edge is not certain"));
}

TEST(GridLines, LeaveNoCellOfTwoColours) {
  // A mark in a cell.
  std::string file = Draw(RandomGrid(9, 12, 3), Drawing{});
  file[file.size() - size_t{3} * (157 * 5 + 5)] = '\x55';
  const std::string said = Refused(file);
  EXPECT_THAT(said, HasSubstr("Lines of colour #808080 were found every 13 x 13 pixels, but "));
  EXPECT_THAT(said, HasSubstr("declare their pitch, line width and crop"));
}

// What an export may look like: lines of a colour of their own or of the cells', with or without a
// frame, in a margin, or none. Where lines and ground have the cells' colours, much is not certain;
// then it is refused, or the scale is said to be uncertain, and never a chart of other cells given.
TEST(GridLines, AreNeverTakenForCellsWithoutAWord) {
  std::mt19937 random(49);
  int right = 0;
  int uncertain = 0;
  int all = 0;
  for (int i = 0; i < 216; i += kStep) {
    SCOPED_TRACE(i);
    Drawing drawing;
    if (i % 2 == 0) drawing.colours = {kCream, kNavy};
    const std::array<Rgb, 3> lines = {kGrey, drawing.colours[0], drawing.colours[1]};
    drawing.line_colour = drawing.heavy_colour = lines[static_cast<size_t>(i / 2 % 3)];
    drawing.frame = i / 6 % 2 == 0;
    if (i / 12 % 3 > 0) drawing.margin = {9, 14, 23, 31};
    drawing.numbers = i / 12 % 3 == 2;
    drawing.cell_width = drawing.cell_height = Between(random, 6, 18);
    drawing.line = Between(random, 1, 2);
    drawing.heavy_line = drawing.line + (i % 5 == 0 ? 1 : 0);
    drawing.over_cells = i % 7 < 3;
    const int rows = Between(random, 4, 24);
    const int stitches = Between(random, 4, 24);
    const chart::Grid cells =
        i / 36 % 2 == 0 ? WorkableGrid(random, rows, stitches)
                        : RandomGrid(rows, stitches, 1 + static_cast<uint32_t>(random() % 1000));
    const auto chart = ImportChart(Draw(cells, drawing, static_cast<uint32_t>(i)), {});
    ++all;
    if (!chart.ok()) continue;
    if (chart->cells == cells) {
      ++right;
    } else {
      ++uncertain;
      ASSERT_FALSE(chart->report.cell_size_certain)
          << Describe(chart->report) << Drawn(chart->cells) << Drawn(cells);
    }
  }
  EXPECT_GT(right, all * 2 / 3);
  EXPECT_LT(uncertain, all / 10);
}

TEST(GridLines, AndPanesOfCellsAreNotMistakenForEachOther) {
  // Black panes in a white lattice, one pixel a cell, that can be worked: it might be meant so.
  chart::Grid panes(33, 37);
  for (int row = 1; row <= 33; ++row) {
    for (int stitch = 1; stitch <= 37; ++stitch) {
      const bool lattice = row % 8 == 1 || stitch % 9 == 1;
      panes.set(row, stitch, !lattice && !((row - 1) / 8 == 1 && (stitch - 1) / 9 == 2));
    }
  }
  const std::string said = Refused(PlainPngOf(panes, 1, kWhite, kBlack));
  EXPECT_THAT(said,
              HasSubstr("may show 33 rows and 37 stitches without grid lines, or 4 rows and 4 "
                        "stitches with lines every 9 x 8 pixels"));
  ImportSettings settings;
  settings.find_grid = false;
  EXPECT_EQ(ImportChart(PlainPngOf(panes, 1, kWhite, kBlack), settings).value().cells, panes);
  settings = {};
  settings.grid = DeclaredGrid{9, 8, 1, 1};
  EXPECT_EQ(ImportChart(PlainPngOf(panes, 1, kWhite, kBlack), settings).value().cells.rows(), 4);
  // At a larger scale a line would be as wide as a cell.
  EXPECT_EQ(ImportChart(PlainPngOf(panes, 4, kWhite, kBlack), {}).value().cells, panes);
  // The row order says which.
  settings = {};
  for (int row = 1; row <= 4; ++row) {
    settings.row_colours.push_back(row % 2 == 1 ? chart::Colour::kA : chart::Colour::kB);
  }
  EXPECT_EQ(ImportChart(PlainPngOf(panes, 1, kWhite, kBlack), settings).value().cells.rows(), 4);
}

TEST(Margins, OfTheCellsColourAreRefusedUnlessDeclared) {
  Drawing drawing;
  drawing.line = drawing.heavy_line = 0;
  drawing.margin = {7, 5, 7, 5};
  const chart::Grid cells = RandomGrid(9, 12, 3);
  const std::string file = Draw(cells, drawing);
  EXPECT_THAT(Refused(file), HasSubstr("as in a chart with a margin"));
  ImportSettings settings;
  settings.crop = drawing.margin;
  const auto chart = ImportChart(file, settings);
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_EQ(chart->cells, cells);
  EXPECT_EQ(chart->report.cut, drawing.margin);
  EXPECT_FALSE(chart->report.marked.any());
}

// Declared.

TEST(DeclaredGrid, IsTakenOffWithItsCrop) {
  std::mt19937 random(47);
  for (int i = 0; i < 60; i += kStep) {
    SCOPED_TRACE(i);
    const chart::Grid cells =
        RandomGrid(Between(random, 1, 20), Between(random, 1, 20), static_cast<uint32_t>(random()));
    Drawing drawing;
    drawing.cell_width = Between(random, 1, 20);
    drawing.cell_height = Between(random, 1, 20);
    // Lines just as wide as cells could be either.
    do drawing.line = drawing.heavy_line = Between(random, 0, 4);
    while (drawing.line == drawing.cell_width || drawing.line == drawing.cell_height);
    drawing.frame = i % 2 == 0;
    drawing.line_colour = drawing.heavy_colour = i % 3 == 0 ? kBlack : kGrey;
    drawing.margin = RandomMargins(random);
    drawing.numbers = true;
    ImportSettings settings;
    settings.colour_a = kWhite;
    settings.colour_b = kBlack;
    settings.crop = drawing.margin;
    settings.grid = DeclaredGrid{static_cast<double>(drawing.cell_width + drawing.line),
                                 static_cast<double>(drawing.cell_height + drawing.line),
                                 drawing.line, drawing.line};
    const auto chart = ImportChart(Draw(cells, drawing, static_cast<uint32_t>(i)), settings);
    ASSERT_TRUE(chart.ok()) << chart.status();
    ASSERT_EQ(chart->cells, cells);
    EXPECT_EQ(chart->report.cut, drawing.margin);
    if (drawing.line == 0) {  // cells that touch
      EXPECT_FALSE(chart->report.grid.has_value());
      EXPECT_EQ(chart->report.cell_width, drawing.cell_width);
      EXPECT_EQ(chart->report.cell_height, drawing.cell_height);
      continue;
    }
    ASSERT_TRUE(chart->report.grid.has_value());
    EXPECT_TRUE(chart->report.grid->declared);
    EXPECT_EQ(chart->report.grid->lines_up, cells.rows() + (drawing.frame ? 1 : -1));
  }
}

TEST(DeclaredGrid, MayHaveAFractionOfAPixelFromLineToLine) {
  // 12.5 pixels: lines begin at 0, 13, 25, 38, ... (halves rounded up).
  constexpr int kCells = 10;
  const chart::Grid cells = RandomGrid(kCells, kCells, 51);
  std::string ppm = "P5 126 126 255\n";
  const auto cell_at = [](int pixel) {  // -1: a line
    for (int i = 0; i <= kCells; ++i) {
      const int begin = (25 * i + 1) / 2;
      if (pixel == begin) return -1;
      if (pixel > begin && pixel < (25 * (i + 1) + 1) / 2) return i;
    }
    return -1;
  };
  for (int y = 0; y < 126; ++y) {
    for (int x = 0; x < 126; ++x) {
      const int column = cell_at(x);
      const int line = cell_at(y);
      const bool is_line = column < 0 || line < 0;
      ppm += is_line ? '\x80' : cells.at(kCells - line, kCells - column) ? '\x00' : '\xff';
    }
  }
  ImportSettings settings;
  settings.grid = DeclaredGrid{12.5, 12.5, 1, 1};
  const auto declared = ImportChart(ppm, settings);
  ASSERT_TRUE(declared.ok()) << declared.status();
  EXPECT_EQ(declared->cells, cells);
  const auto found = ImportChart(ppm, {});
  ASSERT_TRUE(found.ok()) << found.status();
  EXPECT_EQ(found->cells, cells);
  EXPECT_DOUBLE_EQ(found->report.grid->pitch_x, 12.5);
}

TEST(DeclaredGrid, IsHeldToItsRangesAndToThePicture) {
  const std::string file = Draw(RandomGrid(9, 12, 3), Drawing{});  // 157 x 118
  const auto refused = [&](double pitch_x, double pitch_y, int line_x, int line_y) {
    ImportSettings settings;
    settings.grid = DeclaredGrid{pitch_x, pitch_y, line_x, line_y};
    return Refused(file, settings);
  };
  EXPECT_THAT(refused(13, 13, 1, 1), HasSubstr("accepted"));
  EXPECT_THAT(refused(0, 13, 1, 1),
              AllOf(HasSubstr("grid.pitch_x_px must be "), HasSubstr("(got \"0\")")));
  EXPECT_THAT(refused(13, 1001, 1, 1),
              AllOf(HasSubstr("grid.pitch_y_px must be "), HasSubstr("(got \"1001\")")));
  EXPECT_THAT(refused(std::nan(""), 13, 1, 1),
              AllOf(HasSubstr("grid.pitch_x_px must be "), HasSubstr("(got \"nan\")")));
  EXPECT_THAT(refused(13, std::numeric_limits<double>::infinity(), 1, 1),
              AllOf(HasSubstr("grid.pitch_y_px must be "), HasSubstr("(got \"inf\")")));
  EXPECT_THAT(refused(13, 13, 13, 1),
              AllOf(HasSubstr("grid.pitch_x_px must be "), HasSubstr("(got \"13\")")));
  EXPECT_THAT(refused(13, 13, -1, 1),
              AllOf(HasSubstr("grid.line_width_x_px must be "), HasSubstr("(got \"-1\")")));
  EXPECT_THAT(refused(13, 13, 1, 1000),
              AllOf(HasSubstr("grid.line_width_y_px must be "), HasSubstr("(got \"1000\")")));
  EXPECT_THAT(refused(11, 13, 1, 1),
              HasSubstr("A pitch of 11 pixels with lines of 1 does not divide the 157 pixels"));
  EXPECT_THAT(refused(39, 39, 1, 1), HasSubstr("colour #808080, "));
  Drawing black;
  black.line_colour = black.heavy_colour = kBlack;
  ImportSettings wide;
  wide.grid = DeclaredGrid{39, 39, 1, 1};
  EXPECT_THAT(Refused(Draw(RandomGrid(9, 12, 3), black), wide),
              HasSubstr("The cell in row 3, stitch 4 has two colours, "));
  ImportSettings both;
  both.grid = DeclaredGrid{13, 13, 1, 1};
  both.cell_scale = 13;
  EXPECT_THAT(Refused(file, both),
              AllOf(HasSubstr("cell_scale must be "), HasSubstr("(got \"13\")")));
}

TEST(DeclaredCrop, LeavesSomething) {
  const std::string file = Draw(RandomGrid(9, 12, 3), Drawing{});  // 157 x 118
  const auto refused = [&](const Margins& crop) {
    ImportSettings settings;
    settings.crop = crop;
    return Refused(file, settings);
  };
  EXPECT_THAT(refused({-1, 0, 0, 0}),
              AllOf(HasSubstr("crop.left must be "), HasSubstr("(got \"-1\")")));
  EXPECT_THAT(refused({157, 0, 0, 0}),
              AllOf(HasSubstr("crop.left must be "), HasSubstr("(got \"157\")")));
  EXPECT_THAT(refused({100, 0, 57, 0}),
              AllOf(HasSubstr("crop.left must be "), HasSubstr("(got \"100\")")));
  EXPECT_THAT(refused({0, 0, 0, 118}),
              AllOf(HasSubstr("crop.bottom must be "), HasSubstr("(got \"118\")")));
  EXPECT_THAT(refused({0, 2'000'000'000, 0, 2'000'000'000}), HasSubstr("crop.top must be "));
}

TEST(Describe, SaysWhatWasCutAwayAndWhatColoursWereTakenFor) {
  Drawing drawing;
  drawing.margin = {20, 11, 3, 12};
  drawing.numbers = true;
  drawing.heavy_line = 3;
  const auto chart = ImportChart(Draw(GridOf({"x.x", ".x.", "..x"}), drawing), {});
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_EQ(
      Describe(chart->report),
      "Read a raw PPM of 65 x 65 pixels.\n"
      "Margins cut off: 20 pixels left, 3 right, 11 at the top, 12 at the bottom, with numbers or "
      "other marks in them.\n"
      "Grid lines removed: 4 vertical and 4 horizontal, 1 and 1 pixels wide (widest 3), every "
      "13 x 13 pixels.\n"
      "Colour of the lines: #808080.\n"
      "#ffffff: 720 pixels, read as A.\n"
      "#000000: 576 pixels, read as B.\n");
}

}  // namespace
}  // namespace rowproof::images
