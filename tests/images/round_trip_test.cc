// What is exported is imported again unchanged.
#include <algorithm>
#include <random>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/images/chart_export.h"
#include "services/images/chart_file.h"
#include "tests/domain/chart/build_kind.h"
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

TEST(RoundTrip, KeepsEveryShapeAndScaleAsSaid) {
  uint32_t seed = 200;
  for (const auto& [rows, stitches] : kShapes) {
    const chart::Grid cells = RandomGrid(rows, stitches, ++seed);
    for (int scale = 1; scale <= 7; ++scale) {
      const auto chart =
          ImportChart(PngOf(cells, scale, kCream, kNavy), Given(kCream, kNavy, scale));
      ASSERT_TRUE(chart.ok()) << chart.status();
      EXPECT_EQ(chart->cells, cells);
    }
  }
}

// Any design's cells: conventions, two to eight colours in a random row order.
chart::Design RandomDesign(std::mt19937& random, int rows, int stitches) {
  chart::Design design;
  design.cells = RandomGrid(rows, stitches, static_cast<uint32_t>(random()));
  if (random() % 4 == 0) design.cells = chart::Grid(rows, stitches);  // of one colour
  if (random() % 2 == 0) {
    design.convention = chart::Convention::kWorking;
    return design;
  }
  const size_t letters = 2 + random() % 7;
  if (letters == 2) return design;
  for (int row = 1; row <= rows; ++row) {
    design.row_colours.push_back(static_cast<chart::Colour>(random() % letters));
  }
  if (!chart::HasMoreThanTwoColours(design)) return design;
  const auto named = 1 + static_cast<size_t>(*std::max_element(design.row_colours.begin(),
                                                               design.row_colours.end()));
  for (int row = 1; row <= rows; ++row) {
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      design.picture_colours.push_back(static_cast<chart::Colour>(random() % named));
      design.cells.set(row, stitch, design.picture_colours.back() != chart::RowColour(design, row));
    }
  }
  EXPECT_TRUE(chart::Validate(design).ok()) << chart::Validate(design);
  return design;
}

constexpr FileFormat kFormats[] = {
    FileFormat::kPng,      FileFormat::kPlainPbm, FileFormat::kRawPbm,
    FileFormat::kPlainPgm, FileFormat::kRawPgm,   FileFormat::kPlainPpm,
    FileFormat::kRawPpm,   FileFormat::kCsv,      FileFormat::kTsv};

bool IsTable(FileFormat format) { return format == FileFormat::kCsv || format == FileFormat::kTsv; }
bool IsPbm(FileFormat format) {
  return format == FileFormat::kPlainPbm || format == FileFormat::kRawPbm;
}

// Nothing is said but what belongs to the design: neither scale nor colours.
void ExpectComesBack(const chart::Design& design, const ExportSettings& how) {
  const auto file = ExportChart(design, how);
  ASSERT_TRUE(file.ok()) << file.status();
  ImportSettings settings;
  settings.convention = design.convention;
  settings.row_colours = design.row_colours;
  const auto chart = ImportChart(*file, settings);
  ASSERT_TRUE(chart.ok()) << chart.status();
  ASSERT_EQ(chart->cells, design.cells);
  ASSERT_EQ(chart->picture_colours, design.picture_colours);
  ASSERT_EQ(chart->report.cell_scale, how.cell_scale);
  ASSERT_TRUE(chart->report.cut.empty());
  ASSERT_FALSE(chart->report.grid.has_value());
  if (IsTable(how.format)) return;
  ASSERT_EQ(chart->report.exported_as, design.convention);
}

TEST(RoundTrip, KeepsEveryDesignInEveryFormatScaleAndColouring) {
  std::mt19937 random(23);
  for (int i = 0; i < 150; ++i) {
    const chart::Design design = RandomDesign(random, 1 + static_cast<int>(random() % 24),
                                              1 + static_cast<int>(random() % 70));
    for (const FileFormat format : kFormats) {
      ExportSettings how;
      how.format = format;
      if (!IsTable(format)) how.cell_scale = 1 + static_cast<int>(random() % 6);
      const bool many = chart::NamesColours(design);
      if (IsPbm(format) && many) {
        EXPECT_EQ(DetailOf(ExportChart(design, how).status()).fields.front().field, "format");
        continue;
      }
      if (!many && random() % 2 == 0) {
        // Any two colours, the darker one as A too.
        how.colours = {Unpacked(static_cast<uint32_t>(random()) & 0xffffff), kNavy};
      }
      ExpectComesBack(design, how);
    }
  }
}

TEST(RoundTrip, KeepsPanesThatLookLikeCellsBetweenGridLines) {
  // Blocks of B, 8 by 7, in a lattice of A.
  chart::Design design;
  design.cells = chart::Grid(33, 37);
  for (int row = 1; row <= 33; ++row) {
    for (int stitch = 1; stitch <= 37; ++stitch) {
      const bool lattice = row % 8 == 1 || stitch % 9 == 1;
      const bool shut = (row - 1) / 8 == 1 && (stitch - 1) / 9 == 2;
      design.cells.set(row, stitch, !lattice && !shut);
    }
  }
  for (const FileFormat format : kFormats) {
    ExportSettings how;
    how.format = format;
    ExpectComesBack(design, how);
    how.colours = {kNavy, kCream};
    if (!IsTable(format)) how.cell_scale = 3;
    ExpectComesBack(design, how);
  }
}

TEST(RoundTrip, IsSaidOfAnUntouchedPictureOnly) {
  const chart::Grid cells = RandomGrid(6, 9, 31);
  const std::string png = PngOf(cells, 4, kNavy, kCream);  // A is the darker
  EXPECT_EQ(ImportChart(png, {}).value().cells, cells);
  // Other settings than the usual are obeyed.
  EXPECT_EQ(ImportChart(png, Given(kCream, kNavy, 4)).value().cells.at(1, 1), !cells.at(1, 1));
  ImportSettings pixels;
  pixels.cell_scale = 1;
  EXPECT_EQ(ImportChart(png, pixels).value().cells.rows(), 24);
  // The note stays, the picture is another: 12 x 9 pixels are no 9 x 6 cells of 4 x 4.
  std::string other = FileOf(cells, FileFormat::kPlainPbm);
  other.replace(other.find("\n9 6\n"), 5, "\n6 9\n");
  const auto chart = ImportChart(other, {});
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_FALSE(chart->report.exported_as.has_value());
  EXPECT_EQ(chart->cells.rows(), 9);
}

TEST(RoundTrip, NeedsNoSettingsWhereThePictureHasDetail) {
  std::mt19937 random(7);
  for (int i = 0; i < 100; ++i) {
    const int rows = 8 + static_cast<int>(random() % 60);
    const int stitches = 8 + static_cast<int>(random() % 140);
    const int scale = 1 + static_cast<int>(random() % 7);
    const chart::Grid cells = RandomGrid(rows, stitches, static_cast<uint32_t>(random()));
    const auto chart = ImportChart(PlainPngOf(cells, scale, kCream, kNavy), {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    EXPECT_EQ(chart->cells, cells);
    EXPECT_EQ(chart->report.cell_scale, scale);
    EXPECT_EQ(chart->colour_a, kCream);
    EXPECT_EQ(chart->colour_b, kNavy);
  }
}

// Slow builds take an eighth of the rows.
constexpr int kLargestRows = chart::kExhaustive ? chart::kMostRows : chart::kMostRows / 20;

TEST(RoundTrip, KeepsTheLargestChart) {
  const chart::Grid cells = RandomGrid(kLargestRows, chart::kMostStitches, 11);
  EXPECT_EQ(ImportChart(PngOf(cells, 1, kWhite, kBlack), {}).value().cells, cells);
  EXPECT_EQ(ImportChart(PlainPngOf(cells, 2, kWhite, kBlack), {}).value().cells, cells);
  EXPECT_EQ(ImportChart(FileOf(cells, FileFormat::kRawPbm), {}).value().cells, cells);
  EXPECT_EQ(ImportChart(FileOf(cells, FileFormat::kRawPgm), {}).value().cells, cells);
}

TEST(RoundTrip, KeepsTheLargestPicture) {
  std::string file =
      fmt::format("P4\n16000 {}\n", kLargestRows) + std::string(size_t{2000} * kLargestRows, '\0');
  file.back() = '\x0f';
  const auto refused = ImportChart(file, {});
  EXPECT_THAT(std::string(refused.status().message()),
              HasSubstr(fmt::format("{} rows and 16000 stitches", kLargestRows)));
  for (int y = 1; y < 4; ++y) file[file.size() - 1 - 2000 * static_cast<size_t>(y)] = '\x0f';
  const auto chart = ImportChart(file, Given(kWhite, kBlack, 4));
  ASSERT_TRUE(chart.ok()) << chart.status();
  chart::Grid cells(kLargestRows / 4, 4000);
  cells.set(1, 1, true);
  EXPECT_EQ(chart->cells, cells);
}

TEST(FoundScale, IsTheGreatestThatLeavesEveryCellOfOneColour) {
  // Blocks of 2 x 2: taken for cells unless the scale is given.
  const chart::Grid coarse = GridOf({"xx..", "xx..", "..xx", "..xx"});
  const std::string png = PlainPngOf(coarse, 1, kWhite, kBlack);
  EXPECT_EQ(Drawn(ImportChart(png, {}).value().cells), "x.\n.x\n");
  EXPECT_EQ(ImportChart(png, Given(kWhite, kBlack, 1)).value().cells, coarse);
  // 6 x 6 blocks moved by one cannot be cells of 2 or 3.
  const chart::Grid moved = GridOf({"xxx...", "xxx...", "xxx...", "......", "......", "......"});
  EXPECT_EQ(ImportChart(PlainPngOf(moved, 5, kWhite, kBlack), {}).value().report.cell_scale, 15);
  const chart::Grid stripe = GridOf({"......", "xxxxxx", "......"});
  EXPECT_EQ(ImportChart(PlainPngOf(stripe, 4, kWhite, kBlack), {}).value().report.cell_scale, 4);
}

TEST(FoundScale, IsOneAndUncertainInAPictureOfOneColour) {
  const std::string png = PlainPngOf(chart::Grid(3, 6), 2, kWhite, kBlack);
  const auto chart = ImportChart(png, {});
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_EQ(chart->cells, chart::Grid(6, 12));
  EXPECT_FALSE(chart->report.cell_size_certain);
  const auto given = ImportChart(png, Given(kWhite, kBlack, 2));
  EXPECT_EQ(given.value().cells, chart::Grid(3, 6));
  EXPECT_TRUE(given.value().report.cell_size_certain);
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
    const auto chart = ImportChart(PlainPngOf(cells, 3, kWhite, kBlack), {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    ASSERT_EQ(chart->report.cell_scale, 3) << Drawn(cells);
    ASSERT_EQ(chart->cells, cells);
  }
}

TEST(GivenScale, HasToDivideTheSidesAndLeaveCellsOfOneColour) {
  const std::string png = PlainPngOf(GridOf({"x.x", ".x."}), 4, kWhite, kBlack);
  const auto refused = [&](int scale) {
    return std::string(ImportChart(png, Given(kWhite, kBlack, scale)).status().message());
  };
  EXPECT_THAT(refused(5), HasSubstr("5 pixels per cell do not divide a picture of 12 x 8"));
  EXPECT_THAT(refused(3), HasSubstr("give a scale that divides both sides"));
  // 2 divides, and leaves a chart of four cells for each.
  EXPECT_EQ(ImportChart(png, Given(kWhite, kBlack, 2)).value().cells.stitches(), 6);
  const std::string rough = PlainPngOf(GridOf({"xx", "x.", "xx", "xx"}), 1, kWhite, kBlack);
  EXPECT_THAT(std::string(ImportChart(rough, Given(kWhite, kBlack, 2)).status().message()),
              HasSubstr("inside a cell, between columns 1 and 2 from the top left"));
}

TEST(ExportChart, RefusesWhatItCouldNotReadAgain) {
  chart::Design design;
  design.cells = RandomGrid(40, 40, 17);
  const auto field = [&](const ExportSettings& how) {
    const ErrorDetail detail = DetailOf(ExportChart(design, how).status());
    return detail.fields.empty() ? std::string("none") : detail.fields.front().field;
  };
  EXPECT_EQ(field({FileFormat::kPng, 0, {}}), "cell_scale");
  EXPECT_EQ(field({FileFormat::kPng, 1001, {}}), "cell_scale");
  EXPECT_EQ(field({FileFormat::kPng, 401, {}}), "cell_scale");
  EXPECT_EQ(field({FileFormat::kPng, 201, {}}), "cell_scale");
  EXPECT_EQ(field({FileFormat::kPng, 200, {}}), "none");
  EXPECT_EQ(field({FileFormat::kCsv, 2, {}}), "cell_scale");
  // 48 MB and 12 MB.
  EXPECT_EQ(field({FileFormat::kRawPpm, 100, {}}), "cell_scale");
  EXPECT_EQ(field({FileFormat::kRawPpm, 50, {}}), "none");
  EXPECT_EQ(field({FileFormat::kPlainPpm, 50, {}}), "cell_scale");
  EXPECT_EQ(field({FileFormat::kPng, 1, {kWhite, kWhite}}), "colours[1]");
  EXPECT_EQ(field({FileFormat::kPng, 1, {kWhite}}), "colours");
}

TEST(ExportChart, HasUsualColoursFromLightToDark) {
  for (size_t count = 2; count <= chart::kMostColours; ++count) {
    const std::vector<Rgb> colours = UsualColours(count);
    ASSERT_EQ(colours.size(), count);
    EXPECT_EQ(colours.front(), kWhite);
    EXPECT_EQ(colours.back(), kBlack);
    for (size_t i = 1; i < count; ++i) {
      EXPECT_GT(Luma1000(colours[i - 1]), Luma1000(colours[i]));
    }
  }
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
