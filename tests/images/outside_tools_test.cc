// Pictures made, and read, by ImageMagick and Netpbm: neither shares code of ours.
#include "tests/images/outside_tools.h"

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include "gtest/gtest.h"
#include "services/images/chart_file.h"
#include "tests/images/sample_grids.h"

namespace rowproof::images {
namespace {

// One cell a pixel, so that the smallest shapes are not taken for coarser ones.
ImportSettings OnePixelACell() {
  ImportSettings settings;
  settings.cell_scale = 1;
  return settings;
}

// Black and white are said, because a picture of few cells may have one of the two only.
ImportSettings BlackOnWhite() {
  ImportSettings settings = OnePixelACell();
  settings.colour_a = kWhite;
  settings.colour_b = kBlack;
  return settings;
}

void ExpectReads(const std::string& file, const ImportSettings& settings, const chart::Grid& cells,
                 const std::string& format) {
  const auto chart = ImportChart(file, settings);
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_EQ(Name(chart->report.format), format);
  EXPECT_EQ(chart->cells, cells) << Drawn(chart->cells) << "instead of\n" << Drawn(cells);
}

std::string WithoutNote(const std::string& pnm) {
  const size_t note = pnm.find('#');
  return pnm.substr(0, note) + pnm.substr(pnm.find('\n', note) + 1);
}

struct PngKind {
  int colour_type;
  int bit_depth;
};
// All that the format allows: W3C PNG Specification, table 11.1.
const std::vector<PngKind> kPngKinds = {{0, 1}, {0, 2},  {0, 4},  {0, 8}, {0, 16},
                                        {2, 8}, {2, 16}, {3, 1},  {3, 2}, {3, 4},
                                        {3, 8}, {4, 8},  {4, 16}, {6, 8}, {6, 16}};

TEST(ImageMagick, WritesEveryColourTypeDepthAndInterlacingAsWeReadIt) {
  uint32_t seed = 1;
  for (const auto& [rows, stitches] : {Shape{1, 1}, Shape{2, 3}, Shape{13, 31}, Shape{17, 65}}) {
    const chart::Grid cells = RandomGrid(rows, stitches, ++seed);
    const std::string pbm = FileOf(cells, FileFormat::kRawPbm);
    for (const PngKind& kind : kPngKinds) {
      for (const std::string interlace : {"None", "PNG"}) {
        std::ostringstream command;
        command << "convert pbm:- -interlace " << interlace
                << " -define png:color-type=" << kind.colour_type
                << " -define png:bit-depth=" << kind.bit_depth << " png:-";
        SCOPED_TRACE(command.str());
        const std::string png = Output(command.str(), pbm);
        ASSERT_GT(png.size(), 28U);
        ASSERT_EQ(png[24], kind.bit_depth);
        ASSERT_EQ(png[25], kind.colour_type);
        ASSERT_EQ(png[28], interlace == "PNG" ? 1 : 0);
        ExpectReads(png, BlackOnWhite(), cells, "PNG");
      }
    }
  }
}

TEST(ImageMagick, HidesAColourBehindFullTransparencyThatIsReadAsWhite) {
  const chart::Grid cells = RandomGrid(9, 14, 5);
  const std::string pbm = FileOf(cells, FileFormat::kRawPbm);
  for (const std::string kind : {"png32:-", "png64:-"}) {
    const std::string png =
        Output("convert pbm:- -transparent white -background red -alpha background " + kind, pbm);
    ASSERT_GT(png.size(), 28U);
    EXPECT_EQ(png[25], 6);
    ExpectReads(png, OnePixelACell(), cells, "PNG");
  }
}

TEST(ImageMagick, LaysHalfTransparentBlackOnWhiteAsGrey) {
  // Alpha 128 of 255: 255 * (255 - 128) / 255 = 127.
  const std::string png =
      Output("convert -size 1x1 'xc:rgba(0,0,0,0.50196)' xc:white +append png32:-", "");
  ImportSettings settings = OnePixelACell();
  settings.colour_a = kWhite;
  settings.colour_b = Rgb{127, 127, 127};
  ExpectReads(png, settings, GridOf({"x."}), "PNG");
}

TEST(ImageMagick, ReadsOurColouredPngPixelByPixel) {
  const chart::Grid cells = RandomGrid(6, 11, 6);
  const std::string png = PngOf(cells, 3, Rgb{0xf0, 0xe0, 0xd0}, Rgb{0x20, 0x30, 0x40});
  std::istringstream ppm(WithoutNote(Output("convert png:- -compress none -depth 8 ppm:-", png)));
  std::string magic;
  int width = 0;
  int height = 0;
  int most = 0;
  ppm >> magic >> width >> height >> most;
  ASSERT_EQ(magic, "P3");
  ASSERT_EQ(width, 33);
  ASSERT_EQ(height, 18);
  ASSERT_EQ(most, 255);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      int red = 0;
      int green = 0;
      int blue = 0;
      ppm >> red >> green >> blue;
      const bool set = cells.at(6 - y / 3, 11 - x / 3);
      ASSERT_EQ((std::vector<int>{red, green, blue}),
                (set ? std::vector<int>{0x20, 0x30, 0x40} : std::vector<int>{0xf0, 0xe0, 0xd0}))
          << "at " << x << ", " << y;
    }
  }
}

TEST(ImageMagick, WritesPbmOfBothKindsAsWeReadThem) {
  uint32_t seed = 40;
  for (const auto& [rows, stitches] : kShapes) {
    const chart::Grid cells = RandomGrid(rows, stitches, ++seed);
    const std::string png = PngOf(cells, 1, kWhite, kBlack);
    ExpectReads(Output("convert png:- pbm:-", png), BlackOnWhite(), cells, "raw PBM");
    ExpectReads(Output("convert png:- -compress none pbm:-", png), BlackOnWhite(), cells,
                "plain PBM");
  }
}

TEST(Netpbm, WritesPngAsWeReadIt) {
  uint32_t seed = 60;
  for (const auto& [rows, stitches] : kShapes) {
    const chart::Grid cells = RandomGrid(rows, stitches, ++seed);
    const std::string pbm = FileOf(cells, FileFormat::kRawPbm);
    for (const std::string command :
         {"pnmtopng", "pnmtopng -interlace", "pnmtopng -transparent =white",
          "pbmtopgm 1 1 | pnmtopng -force", "pgmtoppm '#000000-#ffffff' | pnmtopng -interlace"}) {
      const std::string source = command.starts_with("pgmtoppm") ? "pbmtopgm 1 1 | " : "";
      SCOPED_TRACE(command);
      ExpectReads(Output(source + command, pbm), BlackOnWhite(), cells, "PNG");
    }
  }
}

TEST(Netpbm, EnlargesByAnyScaleAndTheScaleIsFound) {
  for (int scale = 1; scale <= 9; ++scale) {
    const chart::Grid cells = RandomGrid(12, 18, 80 + static_cast<uint32_t>(scale));
    const std::string png = Output("pamenlarge " + std::to_string(scale) + " | pnmtopng",
                                   FileOf(cells, FileFormat::kRawPbm));
    const auto chart = ImportChart(png, {});
    ASSERT_TRUE(chart.ok()) << chart.status();
    EXPECT_EQ(chart->report.cell_scale, scale);
    EXPECT_TRUE(chart->report.cell_size_certain);
    EXPECT_EQ(chart->cells, cells);
  }
}

TEST(Netpbm, TurnsRawIntoPlainAndBackWithoutADifferenceToUs) {
  uint32_t seed = 100;
  for (const auto& [rows, stitches] : kShapes) {
    const chart::Grid cells = RandomGrid(rows, stitches, ++seed);
    ExpectReads(Output("pnmtoplainpnm", FileOf(cells, FileFormat::kRawPbm)), BlackOnWhite(), cells,
                "plain PBM");
    // pamtopnm writes raw.
    ExpectReads(Output("pamtopnm", FileOf(cells, FileFormat::kPlainPbm)), BlackOnWhite(), cells,
                "raw PBM");
  }
}

TEST(Netpbm, ReadsOurPngAndPbmAlike) {
  uint32_t seed = 120;
  for (const auto& [rows, stitches] : kShapes) {
    const chart::Grid cells = RandomGrid(rows, stitches, ++seed);
    const std::string noted = FileOf(cells, FileFormat::kRawPbm);
    const std::string png = PngOf(cells, 1, kWhite, kBlack);
    // Netpbm's own raw PBM has the bytes of ours but for the note, whichever of our files it starts
    // from.
    const std::string raw = WithoutNote(noted);
    EXPECT_EQ(Output("pamtopnm", noted), raw);
    EXPECT_EQ(Output("pamtopnm", FileOf(cells, FileFormat::kPlainPbm)), raw);
    EXPECT_EQ(Output("pngtopnm | ppmtopgm | pgmtopbm -threshold", png), raw);
  }
}

TEST(Netpbm, MakesPicturesOfOneColourAsWeReadThem) {
  const auto white = ImportChart(Output("pbmmake -white 8 5", ""), {});
  ASSERT_TRUE(white.ok()) << white.status();
  EXPECT_EQ(white->cells, chart::Grid(5, 8));
  EXPECT_FALSE(white->swap_colours_offered);

  const auto black = ImportChart(Output("pbmmake -black 8 5 | pnmtopng", ""), {});
  ASSERT_TRUE(black.ok()) << black.status();
  EXPECT_EQ(black->cells.rows(), 5);
  EXPECT_EQ(black->cells.stitches(), 8);
  EXPECT_TRUE(black->cells.at(1, 1));
  EXPECT_TRUE(black->swap_colours_offered);
  EXPECT_FALSE(black->report.cell_size_certain);
}

TEST(Netpbm, MarksTheBottomRightPixelThatIsStitchOneOfRowOne) {
  const std::string png = Output("pnmtopng", "P1\n3 2\n000\n001\n");
  const auto chart = ImportChart(png, {});
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_TRUE(chart->cells.at(1, 1));
  EXPECT_FALSE(chart->cells.at(2, 1));
  EXPECT_FALSE(chart->cells.at(1, 3));
}

}  // namespace
}  // namespace rowproof::images
