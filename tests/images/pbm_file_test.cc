#include <string>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/images/chart_file.h"
#include "tests/images/sample_grids.h"

namespace rowproof::images {
namespace {

using ::testing::HasSubstr;

// What was read, drawn; or the sentence of the refusal.
std::string Read(const std::string& file, const ImportSettings& settings = {}) {
  const auto chart = ImportChart(file, settings);
  if (chart.ok()) return Drawn(chart->cells);
  EXPECT_EQ(chart.status().code(), absl::StatusCode::kInvalidArgument);
  return std::string(chart.status().message());
}

TEST(PlainPbm, IsReadWithOrWithoutSpaceBetweenPixels) {
  EXPECT_EQ(Read("P1\n3 2\n010\n001\n"), ".x.\n..x\n");
  EXPECT_EQ(Read("P1 3 2 0 1 0 0 0 1"), ".x.\n..x\n");
  EXPECT_EQ(Read("P1\r\n3\t2\r\n01\r\n00\r\n01"), ".x.\n..x\n");
}

TEST(PlainPbm, MayHoldCommentsAnywhere) {
  EXPECT_EQ(Read("P1# drawn by hand\n# 9 9\n3# wide\n 2\n# rows\n010 # top\n001\n# end"),
            ".x.\n..x\n");
}

TEST(RawPbm, MayHoldCommentsBeforeItsPixelsOnly) {
  EXPECT_EQ(Read(std::string("P4\n# 9 9\n3 2\n") + "\x40\x20"), ".x.\n..x\n");
  // 0x23 is the sign of a comment, but a pixel's byte here.
  EXPECT_EQ(Read("P4 8 1\n#"), "..x...xx\n");
}

TEST(RawPbm, IgnoresTheBitsThatFillUpALine) { EXPECT_EQ(Read("P4 3 2\n\x5f\x3f"), ".x.\n..x\n"); }

TEST(PbmColours, MayBeGivenAnotherMeaning) {
  ImportSettings settings;
  settings.colour_a = kBlack;
  EXPECT_EQ(Read("P1 3 1 0 1 0", settings), "x.x\n");
  EXPECT_EQ(Read("P1 2 1 0 0", settings), "xx\n");
  settings.colour_a = Rgb{250, 240, 220};
  settings.colour_b = kBlack;
  EXPECT_THAT(Read("P1 3 1 0 1 0", settings), HasSubstr("colour #ffffff, 2 pixels"));
}

TEST(PbmScale, IsOnePixelACellUnlessGiven) {
  EXPECT_EQ(Read("P1 4 2 0011 0011"), "..xx\n..xx\n");
  ImportSettings settings;
  settings.cell_scale = 2;
  EXPECT_EQ(Read("P1 4 2 0011 0011", settings), ".x\n");
  EXPECT_THAT(Read("P1 4 2 0011 0010", settings),
              HasSubstr("cell_scale: 2 pixels a cell were given, but the colour changes inside a "
                        "cell, between the picture's columns 3 and 4"));
}

TEST(PbmDamage, OfTheHeaderIsRefused) {
  for (const std::string file : {"P1", "P1\n", "P1 3", "P4 3 ", "P1 -3 2 0", "P1 3x2 000000",
                                 "P1 3 2x 000000", "P13 2 000000", "P1 0x3 2 0", "P4#"}) {
    EXPECT_THAT(Read(file), HasSubstr("image: a PBM without a whole header")) << file;
  }
}

TEST(PbmDamage, OfThePixelsIsRefused) {
  EXPECT_THAT(Read("P1 3 2 01000"), HasSubstr("fewer pixels than its 3 x 2"));
  EXPECT_THAT(Read("P1 3 2 010 00 # 1"), HasSubstr("fewer pixels than its 3 x 2"));
  EXPECT_THAT(Read("P1 3 2 0100010"), HasSubstr("more pixels than its header says"));
  EXPECT_THAT(Read("P1 3 2 010\n021"),
              HasSubstr("\"2\" was met as byte 13 of a plain PBM, at column "
                        "2 of line 2; accepted is 0 or 1"));
  EXPECT_THAT(Read(std::string("P1 3 2 01\0 001", 14)), HasSubstr("the byte 0x00 was met"));
  EXPECT_THAT(Read("P4 3 2\n\x40"), HasSubstr("fewer pixels than its 3 x 2"));
  EXPECT_THAT(Read("P4 3 2\n\x40\x20P4 3 2"), HasSubstr("6 bytes after its last pixel"));
  EXPECT_EQ(Read("P4 3 2\n\x40\x20\n"), ".x.\n..x\n");
}

TEST(PbmLimits, RefuseWhatTheHeaderAnnouncesBeforeAnyMemoryIsTaken) {
  EXPECT_THAT(Read("P1 99999999 99999999"), HasSubstr("a picture of 99999999 x 99999999 pixels"));
  EXPECT_THAT(Read("P4 4294967297 4294967297\n"), HasSubstr("1 to 16000 pixels a side"));
  EXPECT_THAT(Read("P1 18446744073709551617 1 0"), HasSubstr("1 to 16000 pixels a side"));
  EXPECT_THAT(Read("P1 " + std::string(1000, '9') + " 1 0"), HasSubstr("1 to 16000 pixels a side"));
  EXPECT_THAT(Read("P4 16000 4001\n"), HasSubstr("64000000 in all"));
  EXPECT_THAT(Read("P1 0 5\n"), HasSubstr("a picture of 0 x 5 pixels"));
  EXPECT_THAT(Read("P4 5 0\n"), HasSubstr("a picture of 5 x 0 pixels"));
  EXPECT_THAT(Read("P4 16000 4000\n"), HasSubstr("fewer pixels than its 16000 x 4000"));
  EXPECT_THAT(Read("P1 1 4001 " + std::string(4001, '0')), HasSubstr("a chart of 4001 rows"));
}

TEST(PlainPbm, IsWrittenInLinesOfSeventyCharactersAtMost) {
  const std::string file = ExportPbm(RandomGrid(3, 141, 9), PbmKind::kPlain);
  size_t longest = 0;
  size_t start = 0;
  for (size_t end = file.find('\n'); end != std::string::npos; end = file.find('\n', start)) {
    longest = std::max(longest, end - start);
    start = end + 1;
  }
  EXPECT_EQ(longest, 70U);
}

}  // namespace
}  // namespace rowproof::images
