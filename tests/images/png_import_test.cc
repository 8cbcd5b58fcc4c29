#include <algorithm>
#include <string>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/images/chart_file.h"
#include "tests/images/png_pieces.h"
#include "tests/images/sample_grids.h"

namespace rowproof::images {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;

// The one field that a refusal names, and its sentence.
std::string Refused(const std::string& file, const ImportSettings& settings = {}) {
  const auto chart = ImportChart(file, settings);
  if (chart.ok()) return "accepted";
  EXPECT_EQ(chart.status().code(), absl::StatusCode::kInvalidArgument);
  const ErrorDetail detail = DetailOf(chart.status());
  EXPECT_EQ(detail.fields.size(), 1U);
  if (detail.fields.empty()) return "no field";
  return std::string(chart.status().message());
}

std::string Pixel(int red, int green, int blue) {
  return {static_cast<char>(red), static_cast<char>(green), static_cast<char>(blue)};
}

// A line of 8-bit colours after its filter byte (0: none).
std::string Line(const std::vector<std::string>& pixels) {
  std::string line(1, '\0');
  for (const auto& pixel : pixels) line += pixel;
  return line;
}

const std::string kRed = Pixel(255, 0, 0);
const std::string kCream = Pixel(250, 240, 220);
const std::string kNavy = Pixel(10, 20, 60);

TEST(PngColours, FindsTheLighterOfTwoAsA) {
  const auto chart = ImportChart(Png({2, 2}, Line({kNavy, kCream}) + Line({kNavy, kNavy})), {});
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_EQ(Drawn(chart->cells), "x.\nxx\n");
  EXPECT_EQ(Text(chart->colour_a), "#faf0dc");
  EXPECT_EQ(Text(chart->colour_b), "#0a143c");
  EXPECT_TRUE(chart->swap_colours_offered);
}

TEST(PngColours, OffersNoSwapInAWorkingChart) {
  ImportSettings settings;
  settings.convention = chart::Convention::kWorking;
  const auto chart =
      ImportChart(Png({2, 2}, Line({kNavy, kCream}) + Line({kNavy, kNavy})), settings);
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_EQ(Drawn(chart->cells), "x.\nxx\n");
  EXPECT_FALSE(chart->swap_colours_offered);
}

TEST(PngColours, AreExchangedOnRequest) {
  ImportSettings settings;
  settings.swap_colours = true;
  const std::string file = Png({2, 2}, Line({kNavy, kCream}) + Line({kNavy, kNavy}));
  EXPECT_EQ(Drawn(ImportChart(file, settings).value().cells), ".x\n..\n");
  EXPECT_FALSE(ImportChart(file, settings).value().swap_colours_offered);
}

TEST(PngColours, AreThoseGivenEvenIfADarkerOneIsA) {
  ImportSettings settings;
  settings.colour_a = Rgb{10, 20, 60};
  const std::string file = Png({2, 1}, Line({kNavy, kCream}));
  const auto one_given = ImportChart(file, settings);
  ASSERT_TRUE(one_given.ok()) << one_given.status();
  EXPECT_EQ(Drawn(one_given->cells), ".x\n");
  EXPECT_EQ(Text(one_given->colour_b), "#faf0dc");
  settings.colour_b = Rgb{250, 240, 220};
  EXPECT_EQ(Drawn(ImportChart(file, settings).value().cells), ".x\n");
}

TEST(PngColours, OfOneColourAreAUnlessDarkOrGiven) {
  EXPECT_EQ(Drawn(ImportChart(Png({1, 1}, Line({kCream})), {}).value().cells), ".\n");
  EXPECT_EQ(Drawn(ImportChart(Png({1, 1}, Line({kNavy})), {}).value().cells), "x\n");
  ImportSettings navy_is_a;
  navy_is_a.colour_a = Rgb{10, 20, 60};
  EXPECT_EQ(Drawn(ImportChart(Png({1, 1}, Line({kNavy})), navy_is_a).value().cells), ".\n");
  EXPECT_EQ(Drawn(ImportChart(Png({1, 1}, Line({kCream})), navy_is_a).value().cells), "x\n");
  ImportSettings cream_is_b;
  cream_is_b.colour_b = Rgb{250, 240, 220};
  EXPECT_EQ(Drawn(ImportChart(Png({1, 1}, Line({kCream})), cream_is_b).value().cells), "x\n");
  EXPECT_EQ(Drawn(ImportChart(Png({1, 1}, Line({kNavy})), cream_is_b).value().cells), ".\n");
}

TEST(PngColours, RefusesAThirdOneAndCountsIt) {
  const std::string file = Png({3, 2}, Line({kNavy, kCream, kCream}) + Line({kNavy, kNavy, kRed}));
  EXPECT_EQ(
      Refused(file),
      "The picture has other colours than colour A (#faf0dc, 2 pixels), colour B (#0a143c, 3 "
      "pixels): colour #ff0000, 1 pixel. Raise the tolerance (0 now), or say which colour each "
      "stands for. No grid lines were found that leave cells of one colour; declare their pitch, "
      "line width and crop if there are any.");
}

TEST(PngColours, ListsTwelveRefusedOnesMostFrequentFirst) {
  std::vector<std::string> pixels;
  for (int i = 1; i <= 20; ++i) {
    for (int n = 0; n < i; ++n) pixels.push_back(Pixel(200, 10 * i, 7));
  }
  const auto width = static_cast<uint32_t>(pixels.size());
  ImportSettings settings;
  settings.colour_a = kWhite;
  settings.colour_b = kBlack;
  const std::string said = Refused(Png({width, 1}, Line(pixels)), settings);
  EXPECT_THAT(
      said,
      HasSubstr("other colours than colour A (#ffffff, 0 pixels), colour B (#000000, 0 pixels): "));
  EXPECT_THAT(said, HasSubstr(": colour #c8c807, 20 pixels; colour #c8be07, 19 pixels; "));
  EXPECT_THAT(said, HasSubstr("colour #c85a07, 9 pixels; and 8 more colours. Raise the tolerance"));
}

TEST(PngColours, TakesWhatIsWithinTheToleranceAndNothingFurther) {
  const std::string file =
      Png({4, 1}, Line({kNavy, Pixel(13, 17, 63), Pixel(247, 243, 217), kCream}));
  ImportSettings settings;
  settings.colour_a = Rgb{250, 240, 220};
  settings.colour_b = Rgb{10, 20, 60};
  settings.cell_scale = 1;
  settings.tolerance = 2;
  EXPECT_THAT(Refused(file, settings),
              AllOf(HasSubstr("colour #0d113f, 1 pixel"), HasSubstr("colour #f7f3d9, 1 pixel")));
  settings.tolerance = 3;
  EXPECT_EQ(Drawn(ImportChart(file, settings).value().cells), "xx..\n");
  // Without the colours the same: the most frequent that lie further apart than the tolerance.
  settings.colour_a.reset();
  settings.colour_b.reset();
  EXPECT_EQ(Drawn(ImportChart(file, settings).value().cells), "xx..\n");
}

TEST(PngColours, RefusesAPixelMidwayWhateverTheTolerance) {
  ImportSettings settings;
  settings.colour_a = Rgb{0, 0, 0};
  settings.colour_b = Rgb{100, 100, 100};
  settings.tolerance = 255;
  EXPECT_THAT(Refused(Png({1, 1}, Line({Pixel(50, 50, 50)})), settings),
              HasSubstr("colour #323232, 1 pixel"));
  EXPECT_EQ(Drawn(ImportChart(Png({1, 1}, Line({Pixel(51, 50, 50)})), settings).value().cells),
            "x\n");
}

TEST(PngColours, AreRefusedBeyondTheLimitOfDifferentOnes) {
  std::string lines;
  for (int y = 0; y < 257; ++y) {
    lines += '\0';
    for (int x = 0; x < 256; ++x) lines += Pixel(x, y % 256, y / 256);
  }
  EXPECT_THAT(Refused(Png({256, 257}, lines)), HasSubstr("more than 65536 colours"));
}

TEST(PngSettings, AreHeldToTheirRanges) {
  const std::string file = Png({1, 1}, Line({kCream}));
  ImportSettings settings;
  settings.tolerance = 256;
  EXPECT_THAT(Refused(file, settings),
              AllOf(HasSubstr("tolerance must be "), HasSubstr("(got \"256\")")));
  settings.tolerance = -1;
  EXPECT_THAT(Refused(file, settings),
              AllOf(HasSubstr("tolerance must be "), HasSubstr("(got \"-1\")")));
  settings = {};
  settings.cell_scale = 0;
  EXPECT_THAT(Refused(file, settings),
              AllOf(HasSubstr("cell_scale must be "), HasSubstr("(got \"0\")")));
  settings.cell_scale = 1001;
  EXPECT_THAT(Refused(file, settings),
              AllOf(HasSubstr("cell_scale must be "), HasSubstr("(got \"1001\")")));
  settings = {};
  settings.colour_a = settings.colour_b = kWhite;
  EXPECT_THAT(Refused(file, settings),
              AllOf(HasSubstr("colour_b must be "), HasSubstr("(got \"#ffffff\")")));
}

TEST(PngDamage, IsFoundWhereverTheFileEnds) {
  const std::string file = PngOf(RandomGrid(40, 60, 3), 2, kWhite, kBlack);
  for (size_t eighth = 1; eighth < 8; ++eighth) {
    EXPECT_THAT(Refused(file.substr(0, file.size() * eighth / 8)),
                HasSubstr("; save it again as a PNG."));
  }
  // And at every single byte, up to the last.
  for (size_t length = 0; length < file.size(); ++length) {
    ASSERT_NE(Refused(file.substr(0, length)), "accepted") << length;
  }
  EXPECT_EQ(Refused(file), "accepted");
}

TEST(PngDamage, OfAnyByteIsFound) {
  const std::string file =
      Png({3, 2}, Line({kNavy, kCream, kCream}) + Line({kNavy, kNavy, kCream}));
  for (size_t i = 0; i < file.size(); ++i) {
    std::string damaged = file;
    damaged[i] = static_cast<char>(damaged[i] ^ 0x10);
    ASSERT_NE(Refused(damaged), "accepted") << "byte " << i;
  }
}

TEST(PngDamage, OfTheStreamInsideAWholeChunkIsFound) {
  const PngHeader header{2, 1};
  const std::string line = Line({kNavy, kCream});
  std::string stream = Stored(line);
  const auto whole = [&](const std::string& idat) {
    return Signature() + HeaderChunk(header) + Chunk("IDAT", idat) + Chunk("IEND", "");
  };
  EXPECT_EQ(Refused(whole(stream)), "accepted");
  EXPECT_THAT(Refused(whole(stream.substr(0, stream.size() - 6))), HasSubstr("PNG is damaged"));
  std::string wrong_sum = stream;
  wrong_sum.back() = static_cast<char>(wrong_sum.back() ^ 1);
  EXPECT_THAT(Refused(whole(wrong_sum)), HasSubstr("PNG is damaged"));
  EXPECT_THAT(Refused(whole(Stored(line + line))), HasSubstr("PNG is damaged"));
  EXPECT_THAT(Refused(whole(Stored(""))), HasSubstr("PNG is damaged"));
}

TEST(PngDamage, OfThePaletteIsFound) {
  const PngHeader header{2, 1, 8, 3};
  const std::string palette = Chunk("PLTE", kCream + kNavy);
  EXPECT_EQ(Refused(Png(header, std::string("\0\0\1", 3), palette)), "accepted");
  EXPECT_THAT(Refused(Png(header, std::string("\0\0\2", 3), palette)), HasSubstr("PNG is damaged"));
  EXPECT_THAT(Refused(Png(header, std::string("\0\0\1", 3))), HasSubstr("PNG is damaged"));
}

TEST(PngDamage, OfTheHeaderIsFound) {
  const std::string line = Line({kNavy});
  for (const PngHeader& header : {PngHeader{1, 1, 3, 2}, PngHeader{1, 1, 16, 3},
                                  PngHeader{1, 1, 8, 5}, PngHeader{1, 1, 8, 2, 2}}) {
    EXPECT_THAT(Refused(Png(header, line)), HasSubstr("PNG is damaged"));
  }
}

TEST(PngLimits, RefuseSidesFromTheHeaderAlone) {
  for (const auto& [width, height] :
       std::vector<std::pair<uint32_t, uint32_t>>{{0x80000000U, 1},
                                                  {1, 0x80000000U},
                                                  {0xffffffffU, 0xffffffffU},
                                                  {60000, 60000},
                                                  {16001, 1},
                                                  {1, 16001},
                                                  {16000, 4001},
                                                  {0, 1},
                                                  {1, 0},
                                                  {0, 0}}) {
    EXPECT_THAT(Refused(Png({width, height}, "tiny")),
                AllOf(HasSubstr("The picture has " + std::to_string(width) + " x " +
                                std::to_string(height) + " pixels; it may have"),
                      HasSubstr("1 to 16000 a side and 64000000 in all")));
  }
}

TEST(PngLimits, RefuseALargePictureWithHardlyAnyContent) {
  EXPECT_THAT(Refused(Png({16000, 4000}, "tiny")),
              HasSubstr("The PNG is damaged (72 bytes cannot hold 16000 x 4000 pixels)"));
  EXPECT_THAT(Refused(Png({4000, 16000, 16, 6, 1}, "tiny")), HasSubstr("cannot hold"));
  // Not to be told from the size: 70,000 bytes of ancillary text could be pixels.
  const std::string text = Chunk("tEXt", std::string("k\0", 2) + std::string(70'000, 'x'));
  EXPECT_THAT(Refused(Png({16000, 4000, 1, 0}, "tiny", text)), HasSubstr("PNG is damaged"));
}

TEST(PngLimits, RefuseMoreCellsThanAChartHas) {
  // One colour: a pixel a cell.
  std::string lines;
  for (int y = 0; y < 4001; ++y) lines += std::string(2, '\0');
  const PngHeader header{1, 4001, 1, 0};
  EXPECT_THAT(Refused(Png(header, lines)), HasSubstr("The chart has 4001 rows and 1 stitches"));
}

TEST(PngLimits, LeaveOutTextThatWouldUnpackToMuch) {
  // 8 MB of zeros packed as text, as a profile and as a suggested palette's name; none is looked
  // at.
  const std::string zeros(2 << 20, '\0');
  const std::string text = Chunk("zTXt", std::string("k\0\0", 3) + Stored(zeros));
  EXPECT_EQ(Refused(Png({2, 1}, Line({kNavy, kCream}), text)), "accepted");
  const std::string profile = Chunk("iCCP", std::string("k\0\0", 3) + Stored(zeros));
  EXPECT_EQ(Refused(Png({2, 1}, Line({kNavy, kCream}), profile)), "accepted");
}

TEST(PngLimits, RefuseAFileOfTooManyBytes) {
  std::string file = Png({2, 1}, Line({kNavy, kCream}));
  file.resize(kMostFileBytes + 1, ' ');
  EXPECT_THAT(Refused(file), HasSubstr("The file has 16777217 bytes; it may have 16777216."));
}

TEST(PngLimits, LeaveOutEveryOtherChunkHoweverManyThereAre) {
  // Forty thousand chunks of five kinds, some of which libpng would keep.
  std::string chunks;
  const std::string stored = Stored(std::string(300, '\0'));
  for (int i = 0; i < 8'000; ++i) {
    chunks += Chunk("tEXt", std::string("k\0x", 3));
    chunks += Chunk("zTXt", std::string("k\0\0", 3) + stored);
    chunks += Chunk("iTXt", std::string("k\0\1\0\0\0", 6) + stored);
    chunks += Chunk("sPLT", std::string("k\0\x08", 3) + std::string(60, 'x'));
    chunks += Chunk("prVt", "anything");
  }
  EXPECT_EQ(Refused(Png({2, 1}, Line({kNavy, kCream}), chunks)), "accepted");
}

TEST(PngDamage, OfAChunksLengthIsFound) {
  const std::string file = Png({2, 1}, Line({kNavy, kCream}), Chunk("tEXt", "k"));
  // The first chunk of text and the pixels, with lengths that lie.
  for (const std::string type : {"IHDR", "tEXt", "IDAT", "IEND"}) {
    const size_t at = file.find(type) - 4;
    for (const uint32_t length : {0U, 1U, 12U, 14U, 1000U, 0x7fffffffU, 0x80000000U, 0xffffffffU}) {
      std::string lying = file;
      if (lying.substr(at, 4) == BigEndian(length)) continue;
      lying.replace(at, 4, BigEndian(length));
      EXPECT_NE(Refused(lying), "accepted") << type << ' ' << length;
    }
  }
}

TEST(PngDamage, OfTheChunksOrderIsFound) {
  const PngHeader header{2, 1};
  const std::string pixels = Chunk("IDAT", Stored(Line({kNavy, kCream})));
  const std::string end = Chunk("IEND", "");
  EXPECT_EQ(Refused(Signature() + HeaderChunk(header) + pixels + end), "accepted");
  for (const std::string& file :
       {Signature() + pixels + end, Signature() + HeaderChunk(header) + end,
        Signature() + HeaderChunk(header) + pixels,
        Signature() + HeaderChunk(header) + HeaderChunk(header) + pixels + end,
        Signature() + HeaderChunk(header) + Chunk("ABCD", "critical") + pixels + end,
        Signature() + HeaderChunk(header) + Chunk("PLTE", "") + pixels + end,
        Signature() + HeaderChunk(header) + Chunk("PLTE", "four") + pixels + end}) {
    EXPECT_THAT(Refused(file), HasSubstr("; save it again as a PNG.")) << file.size();
  }
}

TEST(PngLimits, HoldForAStreamThatUnpacksToMoreThanItsPicture) {
  // 2 MB of zeros behind the one line.
  const std::string line = Line({kNavy, kCream});
  EXPECT_THAT(Refused(Signature() + HeaderChunk({2, 1}) +
                      Chunk("IDAT", Stored(line + std::string(2 << 20, '\0'))) + Chunk("IEND", "")),
              HasSubstr("PNG is damaged"));
}

TEST(PngTransparency, IsLaidOnWhite) {
  // Alpha 0: white, whatever the colour; alpha 51 of 255 black: 255 * 204 / 255 = 204.
  const std::string line = std::string(1, '\0') + std::string("\0\0\0\0", 4) +
                           std::string("\0\0\0\x33", 4) + std::string("\xcc\xcc\xcc\xff", 4);
  const auto chart = ImportChart(Png({3, 1, 8, 6}, line), {});
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_EQ(Drawn(chart->cells), ".xx\n");
  EXPECT_EQ(Text(chart->colour_b), "#cccccc");
}

TEST(PngTransparency, OfAPaletteAndOfOneColourIsRead) {
  const auto palette =
      ImportChart(Png({2, 1, 8, 3}, std::string("\0\0\1", 3),
                      Chunk("PLTE", kNavy + kNavy) + Chunk("tRNS", std::string(1, '\0'))),
                  {});
  ASSERT_TRUE(palette.ok()) << palette.status();
  EXPECT_EQ(Drawn(palette->cells), ".x\n");
  const auto grey = ImportChart(
      Png({2, 1, 8, 0}, std::string("\0\x20\x40", 3), Chunk("tRNS", std::string("\0\x20", 2))), {});
  ASSERT_TRUE(grey.ok()) << grey.status();
  EXPECT_EQ(Drawn(grey->cells), ".x\n");
}

TEST(UnknownFiles, AreRefusedByKind) {
  EXPECT_THAT(Refused(""), HasSubstr("The file is empty."));
  EXPECT_THAT(Refused("P7\nWIDTH 1\n"),
              HasSubstr("Netpbm files of the kind P7 cannot be read; save the chart as PNG"));
  EXPECT_THAT(Refused("\x89PNG\n"), HasSubstr("The first eight bytes of this PNG are damaged"));
  EXPECT_THAT(Refused(std::string("\xff\xd8\xff\xe0\x00\x10JFIF", 10)),
              HasSubstr("The file is of an unknown kind; save the chart as PNG"));
  EXPECT_THAT(Refused(std::string("GIF89a\x01\x00", 8)),
              HasSubstr("The file is of an unknown kind; save the chart as PNG"));
  EXPECT_THAT(Refused("<svg>"), HasSubstr("Line 1, column 1: \"<\" is not a cell"));
}

}  // namespace
}  // namespace rowproof::images
