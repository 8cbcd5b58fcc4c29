// Texts made to cost as much as they can.
#include <cstdint>
#include <string>

#include "fmt/format.h"
#include "gtest/gtest.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/comparing/size.h"
#include "services/domain/rows/writing/row_sequence.h"

namespace rowproof::rows {
namespace {

// One-face, one stitch wide, with rows that all differ from what a text of `sc` says.
chart::Design Tall(int rows, int stitches) {
  chart::Design design;
  design.facing = chart::Facing::kOneFace;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(rows, stitches);
  for (int row = 3; row <= rows; row += 2) design.cells.set(row, 1 + row % stitches, true);
  return design;
}

int64_t Bytes(const Comparison& compared) {
  size_t bytes = 0;
  for (const ComparedRow& row : compared.rows) bytes += row.text.size() + row.chart.size();
  for (const ComparisonFinding& finding : compared.findings) bytes += finding.corrected.size();
  return static_cast<int64_t>(bytes);
}

TEST(CompareHostileText, KeepsToTheMostFindingsAndSaysHowManyThereAre) {
  std::string text;
  for (int row = 1; row <= 3000; ++row) text += fmt::format("Row {} (WS, C): sc across.\n", row);
  const auto compared = CompareRows(Tall(3000, 7), text);
  ASSERT_TRUE(compared.ok()) << compared.status();
  EXPECT_EQ(compared->findings.size(), static_cast<size_t>(kMostComparisonFindings));
  // Sides and colours of all rows, stitches of each second one from row 3 on.
  EXPECT_EQ(compared->error_count, 3000 + 3000 + 1499);
}

TEST(CompareHostileText, ShowsALineOfManyRowsOnce) {
  std::string line = "Rows 1-4000 (RS): ";
  for (int i = 0; i < 20'000; ++i) line += "[sc] 1 x, ";
  const auto compared = CompareRows(Tall(4000, 5), line + "sc.\n");
  ASSERT_TRUE(compared.ok()) << compared.status();
  EXPECT_EQ(compared->rows.size(), 4000U);
  EXPECT_FALSE(compared->equal());
  EXPECT_LT(Bytes(*compared), 2'000'000);
}

TEST(CompareHostileText, ShowsCutCharactersWhole) {
  const std::string line =
      fmt::format("Rows 1-3 (RS): sc across ({:x<50}\xc3\xa9\xc3\xa9{:x<200}).\n", "", "");
  for (size_t shift = 0; shift < 4; ++shift) {
    const auto compared = CompareRows(Tall(3, 5), fmt::format("{:{}}{}", "", shift, line));
    ASSERT_TRUE(compared.ok()) << compared.status();
  }
}

TEST(CompareHostileText, ManyRowsOutOfPlaceCostNoMoreThanTheirShare) {
  // Every row but the first stands before its place, and none reads as a row that is missing.
  std::string text;
  for (int row = 4000; row >= 1; --row) text += fmt::format("Row {}: sc 2, ssc, sc 2.\n", row);
  const auto compared = CompareRows(Tall(4000, 5), text);
  ASSERT_TRUE(compared.ok()) << compared.status();
  EXPECT_GE(compared->error_count, 3999);
}

TEST(CompareHostileText, StopsWhereTheWorkRunsOut) {
  const chart::Design design = Tall(400, 300);
  std::string text;
  for (int row = 1; row <= 400; ++row) text += fmt::format("Row {}: sc 2, ssc across.\n", row);
  const auto document = ReadRows(text);
  ASSERT_TRUE(document.ok());
  const RowSequences sequences = SequenceRows(design, chart::Hand::kRight);
  ComparisonWork work{10'000};
  ChartRows chart(design, sequences, 0, chart::Hand::kRight, work);
  const SizeComparison compared =
      CompareSize(*document, chart, {design.technique, chart::Terms::kUs}, work);
  EXPECT_TRUE(work.ran_out());
  // One row more at most than the work was for.
  EXPECT_GT(work.left, -10'000);
  EXPECT_LT(compared.faults.size(), 100U);
}

TEST(CompareHostileText, RefusesWhatReaderAndWriterRefuse) {
  EXPECT_FALSE(CompareRows(Tall(3, 5), std::string("Row 1: sc\x01", 10)).ok());
  chart::Design unwritable = Tall(3, 5);
  unwritable.cells.set(1, 1, true);
  EXPECT_FALSE(CompareRows(unwritable, "Row 1: sc across.").ok());
  chart::Design malformed = Tall(3, 5);
  malformed.stitch_band = chart::Band{4, 9};
  EXPECT_FALSE(CompareRows(malformed, "Row 1: sc across.").ok());
}

}  // namespace
}  // namespace rowproof::rows
