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
                .format,
            "CSV");
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
              HasSubstr("line 2, column 3: \"C\" was met; accepted is lines of A "
                        "and B, or of . and x, with a comma"));
  EXPECT_THAT(Read("A,B\nA,x\n"),
              HasSubstr("line 2, column 3: \"x\" was met in a file whose cells are "
                        "A and B"));
  EXPECT_THAT(Read("A,B\nAB\n"), HasSubstr("line 2, column 2: \"B\" was met"));
  EXPECT_THAT(Read("AB\nA,B\n"), HasSubstr("line 2, column 2: \",\" was met"));
  EXPECT_THAT(Read("A,B,\nA,B,\n"), HasSubstr("line 1, column 5: an empty cell was met"));
  EXPECT_THAT(Read("A,,B\n"), HasSubstr("line 1, column 3: an empty cell was met"));
  EXPECT_THAT(Read("A,B\n\nA,B\n"), HasSubstr("line 2, column 1: an empty line was met"));
  EXPECT_THAT(Read("\nA,B\n"), HasSubstr("line 1, column 1: an empty line was met"));
  EXPECT_THAT(Read("A B\n"), HasSubstr("line 1, column 2: the byte 0x20 was met"));
  EXPECT_THAT(Read("A;B\n"), HasSubstr("line 1, column 2: \";\" was met"));
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
