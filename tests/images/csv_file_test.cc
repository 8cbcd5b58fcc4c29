#include <string>
#include <vector>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "services/images/chart_file.h"
#include "services/images/formats/csv_import.h"
#include "tests/images/sample_grids.h"

namespace rowproof::images {
namespace {

using ::testing::HasSubstr;

// What was read, drawn; or the sentence of the refusal.
std::string Read(const std::string& file, const ImportSettings& settings = {}) {
  const auto chart = ImportCsv(file, settings);
  if (chart.ok()) return Drawn(chart->cells);
  EXPECT_EQ(chart.status().code(), absl::StatusCode::kInvalidArgument);
  return std::string(chart.status().message());
}

TEST(Csv, IsReadTopRowFirstInEitherPairOfLetters) {
  EXPECT_EQ(Read("A,B,A\nA,A,B\n"), ".x.\n..x\n");
  EXPECT_EQ(Read(".,x,.\n.,.,x\n"), ".x.\n..x\n");
  EXPECT_EQ(Read("a,B,A\nA,a,b"), ".x.\n..x\n");
  EXPECT_EQ(Read(".,X,.\n.,.,x"), ".x.\n..x\n");
}

TEST(Csv, NeedsNoCommas) {
  EXPECT_EQ(Read("ABA\nAAB\n"), ".x.\n..x\n");
  EXPECT_EQ(Read(".x.\n..x"), ".x.\n..x\n");
  EXPECT_EQ(Read("A\nB\n"), ".\nx\n");
}

TEST(Csv, MayHaveAByteOrderMarkOtherLineEndsAndEmptyLinesAtTheEnd) {
  EXPECT_EQ(Read("\xef\xbb\xbf"
                 "A,B\r\nB,A\r\n\r\n\n"),
            ".x\nx.\n");
  EXPECT_EQ(ImportChart("\xef\xbb\xbf"
                        "A,B\r\n",
                        {})
                .value()
                .report.format,
            FileFormat::kCsv);
}

TEST(Csv, MayHaveOtherSignsBetweenCellsAndQuotes) {
  EXPECT_EQ(Read("A;B;A\nA;A;B\n"), ".x.\n..x\n");
  EXPECT_EQ(Read("A\tB\tA\r\nA\tA\tB\r\n"), ".x.\n..x\n");
  EXPECT_EQ(Read("\"A\",B,\"A\"\nA,\"A\",\"B\"\n"), ".x.\n..x\n");
  EXPECT_EQ(Read("\"A\"\n\"B\"\n"), ".\nx\n");
  EXPECT_EQ(ImportChart("A\tB\n", {}).value().report.format, FileFormat::kTsv);
  EXPECT_EQ(ImportChart("A;B\n", {}).value().report.format, FileFormat::kCsv);
}

TEST(Csv, LosesRowAndStitchNumbersAtItsSides) {
  const auto chart = ImportCsv(",3,2,1,\n2,A,B,A,2\n1,B,A,A,1\n,3,2,1,\n,,,,\n", {});
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_EQ(Drawn(chart->cells), ".x.\nx..\n");
  EXPECT_EQ(chart->report.cut, (Margins{1, 1, 1, 2}));
  EXPECT_EQ(chart->report.marked, (MarkedSides{true, true, true, true}));
  EXPECT_EQ(chart->report.width, 5);
  EXPECT_EQ(chart->report.height, 5);
  // Only nothing at the sides is a margin without numbers.
  const auto bare = ImportCsv("A,B,\nA,B,\n", {});
  ASSERT_TRUE(bare.ok()) << bare.status();
  EXPECT_EQ(bare->report.cut, (Margins{0, 0, 1, 0}));
  EXPECT_FALSE(bare->report.marked.any());
  EXPECT_THAT(Read("1,2\n2,3\n"), HasSubstr("The file has no cells; write A and B, or . and x"));
}

TEST(Csv, IsCutAsDeclared) {
  ImportSettings settings;
  settings.crop = {1, 0, 0, 1};
  EXPECT_EQ(Read("ABA\nAAB\nBBB\n", settings), "x.\n.x\n");
  settings.crop = {1, 0, 2, 0};
  EXPECT_THAT(Read("ABA\n", settings),
              HasSubstr("crop.left must be between 0 and 0, to leave some of the 3 (got \"1\")"));
}

TEST(Csv, HasTheColoursThatTheRowOrderNames) {
  using chart::Colour;
  ImportSettings settings;
  settings.row_colours = {Colour::kA, Colour::kC};
  const auto chart = ImportCsv("C,B\nA,A\n", settings);
  ASSERT_TRUE(chart.ok()) << chart.status();
  EXPECT_EQ(chart->picture_colours,
            (std::vector<Colour>{Colour::kA, Colour::kA, Colour::kB, Colour::kC}));
  EXPECT_EQ(Drawn(chart->cells), ".x\n..\n");
  EXPECT_THAT(Read("C,D\nA,A\n", settings), HasSubstr("\"D\" is not one of the colours A to C"));
  EXPECT_THAT(Read("C,B\nA,A\nA,A\n", settings),
              HasSubstr("There are 2 row colours for a chart of 3 rows"));
}

TEST(Csv, IsOneEntryACellUnlessAScaleIsGiven) {
  EXPECT_EQ(Read("AABB\nAABB"), "..xx\n..xx\n");
  ImportSettings settings;
  settings.cell_scale = 2;
  EXPECT_EQ(Read("AABB\nAABB", settings), ".x\n");
  EXPECT_THAT(Read("AABB\nAABB\nAABB", settings),
              HasSubstr("2 pixels per cell do not divide a picture of 4 x 3 pixels"));
}

TEST(Csv, NamesLineAndColumnOfWhatIsWrong) {
  EXPECT_THAT(
      Read("A,B,A\nA,A\n"),
      HasSubstr("Line 2, column 4: the line has 2 cells, but line 1 has 3; make all lines"));
  EXPECT_THAT(Read("A,B\nA,A,B\n"),
              HasSubstr("Line 2, column 5: the line has more cells than the 2"));
  EXPECT_THAT(Read("A,B\nA,C\n"),
              HasSubstr("Line 2, column 3: \"C\" is not one of the colours A to B; name"));
  EXPECT_THAT(
      Read("A,B\nA,x\n"),
      HasSubstr("Line 2, column 3: \"x\" does not belong in a file whose cells are letters"));
  EXPECT_THAT(Read("A,B\nAB\n"), HasSubstr("Line 2, column 2: \"B\" is not a cell"));
  EXPECT_THAT(Read("AB\nA,B\n"), HasSubstr("Line 2, column 2: \",\" is not a cell"));
  EXPECT_THAT(Read("A,,B\n"), HasSubstr("Line 1, entry 2 is empty; give"));
  EXPECT_THAT(Read("A,7,B\n"), HasSubstr("Line 1, entry 2 is a number; give"));
  EXPECT_THAT(Read("A,B\nA,I\n"), HasSubstr("Line 2, column 3: \"I\" is not a cell; write A and "
                                            "B, or . and x"));
  EXPECT_THAT(Read("A,Ab\n"), HasSubstr("Line 1, column 4: \"b\" is not a cell"));
  EXPECT_THAT(Read("A,1A\n"), HasSubstr("Line 1, column 3: \"1\" is not a cell"));
  EXPECT_THAT(Read("A,B\n\nA,B\n"), HasSubstr("Line 2, column 1: the line is empty; delete it."));
  EXPECT_THAT(Read("\nA,B\n"), HasSubstr("Line 1, column 1: the line is empty; delete it."));
  EXPECT_THAT(Read("A B\n"), HasSubstr("Line 1, column 2: the byte 0x20 is not a cell"));
  EXPECT_THAT(Read("A,B\nA;B\n"), HasSubstr("Line 2, column 2: \";\" is not a cell"));
  EXPECT_THAT(Read("A,\"B\n"), HasSubstr("Line 1, column 5: the line ends inside quotes"));
  EXPECT_THAT(Read("A,\"B\"B\n"), HasSubstr("Line 1, column 6: \"B\" follows a closing quote"));
}

TEST(Csv, RefusesControlCharactersAndBytesBeyondAscii) {
  EXPECT_THAT(Read(std::string("A,\0\n", 4)),
              HasSubstr("Line 1, column 3: the byte 0x00 is not a cell"));
  EXPECT_THAT(Read("A,\x1b[31mB\n"), HasSubstr("Line 1, column 3: the byte 0x1b is not a cell"));
  EXPECT_THAT(Read("A,B\rA,B\n"), HasSubstr("Line 1, column 4: the byte 0x0d is not a cell"));
  EXPECT_THAT(Read("A,B\r"), HasSubstr("Line 1, column 4: the byte 0x0d is not a cell"));
  EXPECT_THAT(Read("A,\xc3\xa4\n"), HasSubstr("Line 1, column 3: the byte 0xc3 is not a cell"));
}

TEST(Csv, RefusesNothingAtAll) {
  EXPECT_THAT(Read(""), HasSubstr("The file is empty."));
  EXPECT_THAT(Read("\n\r\n"), HasSubstr("Line 1, column 1: there are no cells"));
  EXPECT_THAT(Read("\xef\xbb\xbf"), HasSubstr("there are no cells"));
}

TEST(Csv, RefusesTenMillionCommasAndAsManyLines) {
  EXPECT_THAT(Read(std::string(10'000'000, ',')), HasSubstr("1 to 16000 a side"));
  EXPECT_THAT(Read("A" + std::string(10'000'000, '\n') + "A"), HasSubstr("1 to 16000 a side"));
  EXPECT_THAT(Read(std::string(16000, 'A') + std::string(4001, '\n') + "A"),
              HasSubstr("64000000 in all"));
  EXPECT_THAT(Read(std::string(4001, 'A')), HasSubstr("The chart has 1 rows and 4001 stitches"));
  EXPECT_THAT(Read(std::string(kMostFileBytes + 1, 'A')), HasSubstr("The file has 16777217 bytes"));
}

}  // namespace
}  // namespace rowproof::images
