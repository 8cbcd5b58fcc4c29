#include <string>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/images/chart_file.h"
#include "services/images/formats/pnm_import.h"
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

TEST(PbmScale, IsFoundUnlessGiven) {
  EXPECT_EQ(Read("P1 4 2 0011 0011"), ".x\n");
  ImportSettings settings;
  settings.cell_scale = 1;
  EXPECT_EQ(Read("P1 4 2 0011 0011", settings), "..xx\n..xx\n");
  settings.cell_scale = 2;
  EXPECT_EQ(Read("P1 4 2 0011 0011", settings), ".x\n");
  EXPECT_THAT(Read("P1 4 2 0011 0010", settings),
              HasSubstr("At 2 pixels per cell the colour changes inside a "
                        "cell, between columns 3 and 4 from the top left"));
}

TEST(PbmDamage, OfTheHeaderIsRefused) {
  for (const std::string file : {"P1", "P13 2 000000", "P4", "P6x"}) {
    EXPECT_THAT(Read(file), HasSubstr("does not start with P1 to P6 and white space")) << file;
  }
  for (const std::string file : {"P1\n", "P1 3", "P4 3 ", "P1 -3 2 0", "P1 3x2 000000",
                                 "P1 3 2x 000000", "P1 0x3 2 0", "P4#"}) {
    EXPECT_THAT(Read(file), HasSubstr("PBM's header is incomplete")) << file;
  }
}

TEST(PbmDamage, OfThePixelsIsRefused) {
  EXPECT_THAT(Read("P1 3 2 01000"), HasSubstr("fewer pixels than the 3 x 2 in its header"));
  EXPECT_THAT(Read("P1 3 2 010 00 # 1"), HasSubstr("fewer pixels than the 3 x 2 in its header"));
  EXPECT_THAT(Read("P1 3 2 0100010"), HasSubstr("more pixels than its header says"));
  EXPECT_THAT(Read("P1 3 2 010\n021"),
              HasSubstr("Line 2, column 2 of the plain PBM (byte 13) must be 0 or 1, not \"2\"."));
  EXPECT_THAT(Read(std::string("P1 3 2 01\0 001", 14)), HasSubstr("not the byte 0x00."));
  EXPECT_THAT(Read("P4 3 2\n\x40"), HasSubstr("fewer pixels than the 3 x 2 in its header"));
  EXPECT_THAT(Read("P4 3 2\n\x40\x20P4 3 2"), HasSubstr("6 bytes after its last pixel"));
  EXPECT_EQ(Read("P4 3 2\n\x40\x20\n"), ".x.\n..x\n");
}

TEST(PbmLimits, RefuseWhatTheHeaderAnnouncesBeforeAnyMemoryIsTaken) {
  EXPECT_THAT(Read("P1 99999999 99999999"),
              HasSubstr("The picture has 99999999 x 99999999 pixels"));
  EXPECT_THAT(Read("P4 4294967297 4294967297\n"), HasSubstr("1 to 16000 a side"));
  EXPECT_THAT(Read("P1 18446744073709551617 1 0"), HasSubstr("1 to 16000 a side"));
  EXPECT_THAT(Read("P1 " + std::string(1000, '9') + " 1 0"), HasSubstr("1 to 16000 a side"));
  EXPECT_THAT(Read("P4 16000 4001\n"), HasSubstr("64000000 in all"));
  EXPECT_THAT(Read("P1 0 5\n"), HasSubstr("The picture has 0 x 5 pixels"));
  EXPECT_THAT(Read("P4 5 0\n"), HasSubstr("The picture has 5 x 0 pixels"));
  EXPECT_THAT(Read("P4 16000 4000\n"), HasSubstr("fewer pixels than the 16000 x 4000"));
  EXPECT_THAT(Read("P1 1 4001 " + std::string(4001, '0')), HasSubstr("The chart has 4001 rows"));
}

TEST(Greymap, IsReadPlainAndRawWithAnyGreatestValue) {
  EXPECT_EQ(Read("P2 3 2 1 1 0 1 1 1 0"), ".x.\n..x\n");
  EXPECT_EQ(Read("P2\n# drawn\n3 2\n9\n9 2 9\n9 9 2\n"), ".x.\n..x\n");
  EXPECT_EQ(Read("P2 3 2 65535 60000 7 60000 60000 60000 7"), ".x.\n..x\n");
  EXPECT_EQ(Read(std::string("P5 3 2 255\n\xc8\x0a\xc8\xc8\xc8\x0a", 17)), ".x.\n..x\n");
  EXPECT_EQ(Read(std::string("P5 2 1 65535\n\x00\x01\xff\xff", 17)), "x.\n");
  EXPECT_EQ(Read(std::string("P5 2 1 256\n\x00\x01\x01\x00", 15)), "x.\n");
}

TEST(Greymap, ScalesItsValuesToTwoHundredAndFiftyFive) {
  // 100 of 200 is 127.5 of 255, rounded up; 1 of 3 is 85.
  EXPECT_EQ(Text(ImportPnm("P2 2 1 200 100 200", {}).value().colour_b), "#808080");
  EXPECT_EQ(Text(ImportPnm("P2 2 1 3 1 3", {}).value().colour_b), "#555555");
  EXPECT_EQ(Text(ImportPnm("P2 2 1 65535 257 65535", {}).value().colour_b), "#010101");
}

TEST(Pixmap, IsReadPlainAndRaw) {
  const auto plain = ImportPnm("P3 2 1 255 250 240 220 10 20 60", {});
  ASSERT_TRUE(plain.ok()) << plain.status();
  EXPECT_EQ(Drawn(plain->cells), ".x\n");
  EXPECT_EQ(Text(plain->colour_a), "#faf0dc");
  EXPECT_EQ(Text(plain->colour_b), "#0a143c");
  EXPECT_EQ(plain->report.format, FileFormat::kPlainPpm);
  EXPECT_EQ(Read(std::string("P6 2 1 255\n\xfa\xf0\xdc\x0a\x14\x3c", 17)), ".x\n");
  EXPECT_EQ(Read(std::string("P6 2 1 1023\n\3\0\3\0\3\0\0\0\0\0\0\0", 24)), ".x\n");
}

TEST(PnmDamage, OfValuesIsRefused) {
  EXPECT_THAT(Read("P2 2 1 9 9 10"), HasSubstr("Line 1, column 2 of the plain PGM (byte "));
  EXPECT_THAT(Read("P2 2 1 9 9 10"), HasSubstr(" must be 0 to 9, by its header, not 10."));
  EXPECT_THAT(Read("P2 2 1 9 9 x"), HasSubstr("must be a whole number, not something else."));
  EXPECT_THAT(Read("P2 2 1 9 9 "), HasSubstr("fewer pixels than the 2 x 1 in its header"));
  EXPECT_THAT(Read("P2 2 1 9 9 1 1"), HasSubstr("more pixels than its header says"));
  EXPECT_THAT(Read(std::string("P5 2 1 9\n\x09\x0a", 11)), HasSubstr("not 10."));
  EXPECT_THAT(Read("P5 2 1 9\n\x09"), HasSubstr("fewer pixels than the 2 x 1 in its header"));
  EXPECT_THAT(Read("P5 2 1 9\n\x09\x09P5"), HasSubstr("2 bytes after its last pixel"));
  EXPECT_THAT(Read("P5 2 1 256\n\x09\x09\x09"),
              HasSubstr("fewer pixels than the 2 x 1 in its header"));
  for (const std::string maxval : {"0", "65536", "99999999999999999999"}) {
    EXPECT_THAT(Read("P5 2 1 " + maxval + "\nxx"), HasSubstr("must be between 1 and 65535"))
        << maxval;
  }
  EXPECT_THAT(Read("P5 2 1"), HasSubstr("The raw PGM's header is incomplete"));
  EXPECT_THAT(Read("P3 2 1 x"), HasSubstr("The plain PPM's header is incomplete"));
}

TEST(PnmLimits, RefuseWhatTheHeaderAnnouncesBeforeAnyMemoryIsTaken) {
  EXPECT_THAT(Read("P6 16001 1 255\n"), HasSubstr("1 to 16000 a side"));
  EXPECT_THAT(Read("P3 4294967297 4294967297 255 0"), HasSubstr("1 to 16000 a side"));
  for (const std::string kind : {"P2", "P3", "P5", "P6"}) {
    EXPECT_THAT(Read(kind + " 16000 4000 255\n1 2 3"), HasSubstr("fewer pixels than the 16000"));
    EXPECT_THAT(Read(kind + " 0 4000 255\n"), HasSubstr("The picture has 0 x 4000 pixels"));
  }
}

TEST(PlainPbm, IsWrittenInLinesOfSeventyCharactersAtMost) {
  const std::string file = FileOf(RandomGrid(3, 141, 9), FileFormat::kPlainPbm);
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
