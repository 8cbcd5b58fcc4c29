// Reading and writing a chart's file ends when it is told to, wherever it is.
#include <gtest/gtest.h>

#include <string>

#include "services/images/chart_export.h"
#include "services/images/chart_file.h"
#include "tests/images/drawn_charts.h"
#include "tests/images/sample_grids.h"
#include "tests/support/expect_stops.h"

namespace rowproof::images {
namespace {

void ExpectImportStops(const std::string& file, const ImportSettings& settings) {
  ExpectStops(2, [&](const Stop& stop) { return ImportChart(file, settings, stop).status(); });
}

ImportSettings Usual() {
  ImportSettings settings;
  settings.convention = chart::Convention::kPicture;
  return settings;
}

TEST(Stopping, EndsTheReadingOfAPictureWithLines) {
  Drawing drawing;
  drawing.cell_width = drawing.cell_height = 7;
  drawing.numbers = true;
  drawing.margin = {20, 20, 20, 20};
  ExpectImportStops(Draw(RandomGrid(25, 30, 1), drawing), Usual());
}

TEST(Stopping, EndsTheReadingOfAPictureWithoutLines) {
  ExpectImportStops(PlainPngOf(RandomGrid(40, 50, 2), 5, kWhite, kBlack), Usual());
}

TEST(Stopping, EndsTheReadingOfAPictureWithDeclaredLines) {
  Drawing drawing;
  drawing.cell_width = drawing.cell_height = 7;
  ImportSettings settings = Usual();
  settings.grid = DeclaredGrid{8, 8, 1, 1};
  ExpectImportStops(Draw(RandomGrid(20, 25, 3), drawing), settings);
}

TEST(Stopping, EndsTheReadingOfAPictureDividedByItsNumbers) {
  ImportSettings settings = Usual();
  settings.stitches = 50;
  settings.rows = 40;
  settings.find_grid = false;
  ExpectImportStops(PlainPngOf(RandomGrid(40, 50, 4), 5, kWhite, kBlack), settings);
}

TEST(Stopping, EndsTheReadingOfEveryFormat) {
  for (const FileFormat format : {FileFormat::kPng, FileFormat::kPlainPbm, FileFormat::kPlainPgm,
                                  FileFormat::kPlainPpm, FileFormat::kRawPbm, FileFormat::kRawPgm,
                                  FileFormat::kRawPpm, FileFormat::kCsv, FileFormat::kTsv}) {
    ExpectImportStops(FileOf(RandomGrid(150, 160, 5), format), Usual());
  }
}

TEST(Stopping, EndsTheWritingOfEveryFormat) {
  chart::Design design;
  design.cells = RandomGrid(200, 300, 6);
  for (const FileFormat format : {FileFormat::kPng, FileFormat::kPlainPbm, FileFormat::kPlainPpm,
                                  FileFormat::kRawPgm, FileFormat::kCsv, FileFormat::kTsv}) {
    ExportSettings settings;
    settings.format = format;
    ExpectStops(2, [&](const Stop& stop) { return ExportChart(design, settings, stop).status(); });
  }
}

}  // namespace
}  // namespace rowproof::images
