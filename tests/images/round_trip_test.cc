// What is exported is imported again unchanged.
#include <random>
#include <string>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/images/chart_file.h"
#include "tests/images/sample_grids.h"

namespace rowproof::images {
namespace {

using ::testing::HasSubstr;

constexpr Rgb kCream{250, 240, 220};
constexpr Rgb kNavy{10, 20, 60};

ImportSettings Given(Rgb a, Rgb b, int scale) {
  ImportSettings settings;
  settings.colour_a = a;
  settings.colour_b = b;
  settings.cell_scale = scale;
  return settings;
}

TEST(RoundTrip, KeepsEveryShapeInEveryFormatAndScale) {
  uint32_t seed = 200;
  for (const auto& [rows, stitches] : kShapes) {
    const chart::Grid cells = RandomGrid(rows, stitches, ++seed);
    for (int scale = 1; scale <= 7; ++scale) {
      const auto png = ExportPng(cells, scale, kCream, kNavy);
      ASSERT_TRUE(png.ok()) << png.status();
      const auto chart = ImportChart(*png, Given(kCream, kNavy, scale));
      ASSERT_TRUE(chart.ok()) << chart.status();
      EXPECT_EQ(chart->cells, cells);
    }
    const ImportSettings black_on_white = Given(kWhite, kBlack, 1);
    for (const std::string& file :
         {ExportPbm(cells, PbmKind::kPlain), ExportPbm(cells, PbmKind::kRaw),
          ExportCsv(cells, CsvLetters::kColours), ExportCsv(cells, CsvLetters::kStitches)}) {
      const auto chart = ImportChart(file, black_on_white);
      ASSERT_TRUE(chart.ok()) << chart.status();
      EXPECT_EQ(chart->cells, cells);
    }
  }
}

TEST(RoundTrip, NeedsNoSettingsWhereThePictureHasDetail) {
  std::mt19937 random(7);
  for (int i = 0; i < 100; ++i) {
    const int rows = 8 + static_cast<int>(random() % 60);
    const int stitches = 8 + static_cast<int>(random() % 140);
    const int scale = 1 + static_cast<int>(random() % 7);
    const chart::Grid cells = RandomGrid(rows, stitches, static_cast<uint32_t>(random()));
    const auto chart = ImportChart(ExportPng(cells, scale, kCream, kNavy).value(), {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    EXPECT_EQ(chart->cells, cells);
    EXPECT_EQ(chart->cell_scale, scale);
    EXPECT_EQ(chart->colour_a, kCream);
    EXPECT_EQ(chart->colour_b, kNavy);
  }
}

TEST(RoundTrip, KeepsTheLargestChart) {
  const chart::Grid cells = RandomGrid(chart::kMostRows, chart::kMostStitches, 11);
  EXPECT_EQ(ImportChart(ExportPng(cells, 1, kWhite, kBlack).value(), {}).value().cells, cells);
  EXPECT_EQ(ImportChart(ExportPbm(cells, PbmKind::kRaw), {}).value().cells, cells);
}

TEST(RoundTrip, KeepsTheLargestPicture) {
  std::string file = "P4\n16000 4000\n" + std::string(2000 * 4000, '\0');
  file.back() = '\x0f';
  const auto refused = ImportChart(file, {});
  EXPECT_THAT(std::string(refused.status().message()), HasSubstr("4000 rows and 16000 stitches"));
  for (int y = 1; y < 4; ++y) file[file.size() - 1 - 2000 * static_cast<size_t>(y)] = '\x0f';
  const auto chart = ImportChart(file, Given(kWhite, kBlack, 4));
  ASSERT_TRUE(chart.ok()) << chart.status();
  chart::Grid cells(1000, 4000);
  cells.set(1, 1, true);
  EXPECT_EQ(chart->cells, cells);
}

TEST(FoundScale, IsTheGreatestThatLeavesEveryCellOfOneColour) {
  // Blocks of 2 x 2: taken for cells unless the scale is given.
  const chart::Grid coarse = GridOf({"xx..", "xx..", "..xx", "..xx"});
  const std::string png = ExportPng(coarse, 1, kWhite, kBlack).value();
  EXPECT_EQ(Drawn(ImportChart(png, {}).value().cells), "x.\n.x\n");
  EXPECT_EQ(ImportChart(png, Given(kWhite, kBlack, 1)).value().cells, coarse);
  // 6 x 6 blocks moved by one cannot be cells of 2 or 3.
  const chart::Grid moved = GridOf({"xxx...", "xxx...", "xxx...", "......", "......", "......"});
  EXPECT_EQ(ImportChart(ExportPng(moved, 5, kWhite, kBlack).value(), {}).value().cell_scale, 15);
  const chart::Grid stripe = GridOf({"......", "xxxxxx", "......"});
  EXPECT_EQ(ImportChart(ExportPng(stripe, 4, kWhite, kBlack).value(), {}).value().cell_scale, 4);
}

TEST(FoundScale, IsOneAndUncertainInAPictureOfOneColour) {
  const std::string png = ExportPng(chart::Grid(3, 6), 2, kWhite, kBlack).value();
  const auto chart = ImportChart(png, {});
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_EQ(chart->cells, chart::Grid(6, 12));
  EXPECT_FALSE(chart->cell_scale_certain);
  const auto given = ImportChart(png, Given(kWhite, kBlack, 2));
  EXPECT_EQ(given.value().cells, chart::Grid(3, 6));
  EXPECT_TRUE(given.value().cell_scale_certain);
}

TEST(FoundScale, OfAWorkablePictureIsThatOfItsDrawing) {
  // The claim of the header: picture charts that satisfy rules 1 to 3 (no off-colour cell in row 1
  // or the last row, none above another) are never coarser than drawn, even where they look so.
  std::mt19937 random(13);
  for (int i = 0; i < 200; ++i) {
    const int rows = 2 * (1 + static_cast<int>(random() % 6));
    const int stitches = 2 * (1 + static_cast<int>(random() % 6));
    chart::Grid cells(rows, stitches);
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      bool below_off = false;
      for (int row = 1; row <= rows; ++row) {
        const bool may_be_off = row > 1 && row < rows && !below_off;
        // Columns alike in pairs, to tempt the search.
        const bool off =
            may_be_off &&
            (stitch % 2 == 0 ? cells.at(row, stitch - 1) != (row % 2 == 0) : random() % 2 == 0);
        cells.set(row, stitch, (row % 2 == 0) != off);
        below_off = off;
      }
    }
    const auto chart = ImportChart(ExportPng(cells, 3, kWhite, kBlack).value(), {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    ASSERT_EQ(chart->cell_scale, 3) << Drawn(cells);
    ASSERT_EQ(chart->cells, cells);
  }
}

TEST(GivenScale, HasToDivideTheSidesAndLeaveCellsOfOneColour) {
  const std::string png = ExportPng(GridOf({"x.x", ".x."}), 4, kWhite, kBlack).value();
  const auto refused = [&](int scale) {
    return std::string(ImportChart(png, Given(kWhite, kBlack, scale)).status().message());
  };
  EXPECT_THAT(refused(5),
              HasSubstr("cell_scale: 5 pixels a cell were given for a picture of 12 x 8"));
  EXPECT_THAT(refused(3), HasSubstr("a scale that divides both sides"));
  // 2 divides, and leaves a chart of four cells for each.
  EXPECT_EQ(ImportChart(png, Given(kWhite, kBlack, 2)).value().cells.stitches(), 6);
  const std::string rough = ExportPng(GridOf({"xx", "x.", "xx", "xx"}), 1, kWhite, kBlack).value();
  EXPECT_THAT(
      std::string(ImportChart(rough, Given(kWhite, kBlack, 2)).status().message()),
      HasSubstr("inside a cell, between the picture's columns 1 and 2 (from the top left)"));
}

TEST(ExportPng, RefusesWhatItCouldNotReadAgain) {
  const chart::Grid cells = RandomGrid(40, 40, 17);
  const auto field = [&](int scale, Rgb b) {
    const ErrorDetail detail = DetailOf(ExportPng(cells, scale, kWhite, b).status());
    return detail.fields.empty() ? std::string("none") : detail.fields.front().field;
  };
  EXPECT_EQ(field(0, kBlack), "cell_scale");
  EXPECT_EQ(field(1001, kBlack), "cell_scale");
  EXPECT_EQ(field(401, kBlack), "cell_scale");
  EXPECT_EQ(field(201, kBlack), "cell_scale");
  EXPECT_EQ(field(1, kWhite), "colour_b");
  EXPECT_EQ(field(200, kBlack), "none");
}

TEST(Colours, AreReadAndWrittenAsHexadecimalNumbers) {
  EXPECT_EQ(Text(Rgb{1, 0xab, 255}), "#01abff");
  EXPECT_EQ(ParseRgb("#01ABff"), (Rgb{1, 0xab, 255}));
  for (const char* const wrong : {"", "#", "01abff", "#01abf", "#01abff0", "#01abfg", "#01 bff"}) {
    EXPECT_EQ(ParseRgb(wrong), std::nullopt) << wrong;
  }
}

}  // namespace
}  // namespace rowproof::images
