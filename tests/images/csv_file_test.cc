#include <string>
#include <vector>

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
            "CSV");
}

TEST(Csv, MayHaveOtherSignsBetweenCellsAndQuotes) {
  EXPECT_EQ(Read("A;B;A\nA;A;B\n"), ".x.\n..x\n");
  EXPECT_EQ(Read("A\tB\tA\r\nA\tA\tB\r\n"), ".x.\n..x\n");
  EXPECT_EQ(Read("\"A\",B,\"A\"\nA,\"A\",\"B\"\n"), ".x.\n..x\n");
  EXPECT_EQ(Read("\"A\"\n\"B\"\n"), ".\nx\n");
  EXPECT_EQ(ImportChart("A\tB\n", {}).value().report.format, "TSV");
  EXPECT_EQ(ImportChart("A;B\n", {}).value().report.format, "CSV");
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
  EXPECT_THAT(Read("1,2\n2,3\n"), HasSubstr("a file without a cell was met"));
}

TEST(Csv, IsCutAsDeclared) {
  ImportSettings settings;
  settings.crop = {1, 0, 0, 1};
  EXPECT_EQ(Read("ABA\nAAB\nBBB\n", settings), "x.\n.x\n");
  settings.crop = {1, 0, 2, 0};
  EXPECT_THAT(Read("ABA\n", settings), HasSubstr("crop.left: \"1\""));
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
  EXPECT_THAT(Read("C,D\nA,A\n", settings), HasSubstr("\"D\" was met; accepted is A to C"));
  EXPECT_THAT(Read("C,B\nA,A\nA,A\n", settings),
              HasSubstr("row_colours: 2 colours were given for a chart of 3 rows"));
}

TEST(Csv, IsOneEntryACellUnlessAScaleIsGiven) {
  EXPECT_EQ(Read("AABB\nAABB"), "..xx\n..xx\n");
  ImportSettings settings;
  settings.cell_scale = 2;
  EXPECT_EQ(Read("AABB\nAABB", settings), ".x\n");
  EXPECT_THAT(Read("AABB\nAABB\nAABB", settings),
              HasSubstr("cell_scale: 2 pixels a cell were given for a picture of 4 x 3"));
}

TEST(Csv, NamesLineAndColumnOfWhatIsWrong) {
  EXPECT_THAT(
      Read("A,B,A\nA,A\n"),
      HasSubstr("csv: line 2, column 4: the end of the line was met after 2 cells, where line "
                "1 has 3"));
  EXPECT_THAT(Read("A,B\nA,A,B\n"), HasSubstr("line 2, column 5: more cells were met than the 2"));
  EXPECT_THAT(Read("A,B\nA,C\n"),
              HasSubstr("line 2, column 3: \"C\" was met; accepted is A to B: more colours"));
  EXPECT_THAT(Read("A,B\nA,x\n"),
              HasSubstr("line 2, column 3: \"x\" was met in a file whose cells are letters"));
  EXPECT_THAT(Read("A,B\nAB\n"), HasSubstr("line 2, column 2: \"B\" was met"));
  EXPECT_THAT(Read("AB\nA,B\n"), HasSubstr("line 2, column 2: \",\" was met"));
  EXPECT_THAT(Read("A,,B\n"), HasSubstr("csv: an empty cell was met in line 1, entry 2"));
  EXPECT_THAT(Read("A,7,B\n"), HasSubstr("csv: a number was met in line 1, entry 2"));
  EXPECT_THAT(Read("A,B\nA,I\n"), HasSubstr("line 2, column 3: \"I\" was met; accepted is lines of "
                                            "A and B, or of . and x"));
  EXPECT_THAT(Read("A,Ab\n"), HasSubstr("line 1, column 4: \"b\" was met"));
  EXPECT_THAT(Read("A,1A\n"), HasSubstr("line 1, column 3: \"1\" was met"));
  EXPECT_THAT(Read("A,B\n\nA,B\n"), HasSubstr("line 2, column 1: an empty line was met"));
  EXPECT_THAT(Read("\nA,B\n"), HasSubstr("line 1, column 1: an empty line was met"));
  EXPECT_THAT(Read("A B\n"), HasSubstr("line 1, column 2: the byte 0x20 was met"));
  EXPECT_THAT(Read("A,B\nA;B\n"), HasSubstr("line 2, column 2: \";\" was met"));
  EXPECT_THAT(Read("A,\"B\n"), HasSubstr("line 1, column 5: the end of the line was met inside"));
  EXPECT_THAT(Read("A,\"B\"B\n"), HasSubstr("line 1, column 6: \"B\" was met after a quote"));
}

TEST(Csv, RefusesControlCharactersAndBytesBeyondAscii) {
  EXPECT_THAT(Read(std::string("A,\0\n", 4)), HasSubstr("line 1, column 3: the byte 0x00 was met"));
  EXPECT_THAT(Read("A,\x1b[31mB\n"), HasSubstr("line 1, column 3: the byte 0x1b was met"));
  EXPECT_THAT(Read("A,B\rA,B\n"), HasSubstr("line 1, column 4: the byte 0x0d was met"));
  EXPECT_THAT(Read("A,B\r"), HasSubstr("line 1, column 4: the byte 0x0d was met"));
  EXPECT_THAT(Read("A,\xc3\xa4\n"), HasSubstr("line 1, column 3: the byte 0xc3 was met"));
}

TEST(Csv, RefusesNothingAtAll) {
  EXPECT_THAT(Read(""), HasSubstr("csv: a file of 0 bytes was met"));
  EXPECT_THAT(Read("\n\r\n"), HasSubstr("csv: line 1, column 1: no cell was met"));
  EXPECT_THAT(Read("\xef\xbb\xbf"), HasSubstr("no cell was met"));
}

TEST(Csv, RefusesTenMillionCommasAndAsManyLines) {
  EXPECT_THAT(Read(std::string(10'000'000, ',')), HasSubstr("1 to 16000 pixels a side"));
  EXPECT_THAT(Read("A" + std::string(10'000'000, '\n') + "A"),
              HasSubstr("1 to 16000 pixels a side"));
  EXPECT_THAT(Read(std::string(16000, 'A') + std::string(4001, '\n') + "A"),
              HasSubstr("64000000 in all"));
  EXPECT_THAT(Read(std::string(4001, 'A')), HasSubstr("a chart of 1 rows and 4001 stitches"));
  EXPECT_THAT(Read(std::string(kMostFileBytes + 1, 'A')), HasSubstr("a file of 16777217 bytes"));
}

}  // namespace
}  // namespace rowproof::images
