// A text that names its sizes beside sizes that were given: never taken in another order unseen.
#include <string>
#include <vector>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/reading/reader.h"
#include "tests/domain/rows/chart_rows.h"

namespace rowproof::rows {
namespace {

using testing::ElementsAre;
using testing::StartsWith;

TextDocument Read(const std::string& text, std::vector<std::string> sizes) {
  ReaderSettings settings;
  settings.sizes = std::move(sizes);
  const auto document = ReadRows(text, settings);
  EXPECT_TRUE(document.ok()) << document.status();
  return document.ok() ? *document : TextDocument();
}

std::vector<std::string> Faults(const std::string& text, std::vector<std::string> sizes) {
  std::vector<std::string> sentences;
  for (const TextFinding& finding : Read(text, std::move(sizes)).findings) {
    sentences.push_back(std::string(CodeName(finding.code)) + ": " + Sentence(finding));
  }
  return sentences;
}

TEST(ReadSizesInAnotherOrder, PutTheListsInTheOrderThatWasGiven) {
  const TextDocument document = Read(
      "Foundation: ch 12 (4, 8).\nSizes: L (s, M).\n"
      "Row 1 (3, -): sc 11 (3, 7), [ssc, sc] 30 (10, 20) times. (71 (23, 47) sts)\n"
      "Size S:\nRow 9: sc 5.\n",
      {"S", "M", "L"});
  EXPECT_TRUE(document.findings.empty());
  EXPECT_THAT(document.sizes, ElementsAre("S", "M", "L"));
  EXPECT_THAT(document.foundation->chains.list(), ElementsAre(4, 8, 12));
  const TextRow& row = document.rows[0];
  EXPECT_THAT(row.numbers[0].first.list(), ElementsAre(3, kNotWorked, 1));
  EXPECT_THAT(row.numbers[0].last.list(), ElementsAre(3, kNotWorked, 1));
  EXPECT_THAT(row.steps[0].count.list(), ElementsAre(3, 7, 11));
  EXPECT_THAT(row.steps[1].count.list(), ElementsAre(10, 20, 30));
  EXPECT_THAT(row.stated[0].count.list(), ElementsAre(23, 47, 71));
  EXPECT_EQ(document.rows[1].only_size, 0);
}

TEST(ReadSizesInAnotherOrder, TakeWhatStandsBehindTheListForProse) {
  const std::string rows = "Row 1: sc 11 (3).";
  EXPECT_THAT(
      Read("Sizes: L (S) to fit 30 (20) cm.\n" + rows, {"S", "L"}).rows[0].steps[0].count.list(),
      ElementsAre(3, 11));
  EXPECT_THAT(
      Read("Sizes: S (L) to fit 20 (30) cm.\n" + rows, {"S", "L"}).rows[0].steps[0].count.list(),
      ElementsAre(11, 3));
  EXPECT_THAT(
      Read("An invented hat. Sizes: L, S.\n" + rows, {"S", "L"}).rows[0].steps[0].count.list(),
      ElementsAre(3, 11));
}

TEST(ReadSizesInAnotherOrder, KnowNamesWithBracketsAndCommasAsTheWriterWritesThem) {
  const std::vector<std::string> sizes = {"S (to 3, slim)", "M. wide", "L"};
  const TextDocument document = Read(
      "Sizes: S (to 3, slim) (M. wide, L). Where the sizes differ...\nRow 1: sc 1 (2, 3).", sizes);
  EXPECT_TRUE(document.findings.empty());
  EXPECT_THAT(document.rows[0].steps[0].count.list(), ElementsAre(1, 2, 3));
}

TEST(ReadSizesInAnotherOrder, RefuseOtherNames) {
  const std::vector<std::string> sizes = {"S", "M", "L"};
  for (const char* const line : {"Sizes: Small (M, L).", "Sizes: S (M).", "Sizes: S (M, M).",
                                 "Sizes: M (L, S, XL).", "Sizes: S (M, L, XL)."}) {
    EXPECT_THAT(
        Faults(line, sizes),
        ElementsAre(StartsWith("unknown-size: Line 1, column 8: expected each size once: ")))
        << line;
  }
  EXPECT_THAT(
      Faults("Sizes: S (M, L).", {"one size"}),
      ElementsAre("unknown-size: Line 1, column 8: expected each size once: one size, found "
                  "\"S\"."));
}

TEST(ReadSizesInAnotherOrder, AskNothingWhereThereIsNoOrder) {
  EXPECT_THAT(Faults("Sizes: 40 cm wide.\nRow 1: sc 3.", {"one size"}), ElementsAre());
  EXPECT_THAT(Faults("Sizes:\nas you like\nRow 1: sc 3.", {"S", "M"}), ElementsAre());
}

TEST(ReadSizesInAnotherOrder, RefuseASecondOrder) {
  const std::string text = "Sizes: S (M).\nSizes: M (S).\nRow 1: sc 3 (5).";
  for (const auto& sizes : {std::vector<std::string>{}, std::vector<std::string>{"S", "M"},
                            std::vector<std::string>{"M", "S"}}) {
    EXPECT_THAT(Faults(text, sizes), ElementsAre(StartsWith("contradiction: Line 2, column 8: ")));
  }
  EXPECT_THAT(Faults("Sizes: S (M).\nSizes: s (m).\nRow 1: sc 3 (5).", {}), ElementsAre());
}

// The chart's sizes in one order, the text's lists in every other.
TEST(CompareSizesInAnotherOrder, AgreeWhereTheTextSaysItsOrder) {
  chart::Design design = Working({"...x.......", "..x..x.x...", "....x...x..", "..x..x.....",
                                  "...x..x....", ".....x..x..", "...........", "..........."});
  design.stitch_band = chart::Band{5, 8};
  design.sizes = {{"S", 1, 1}, {"M", 2, 1}, {"L", 3, 1}};
  chart::Design other = design;
  other.sizes = {{"L", 3, 1}, {"S", 1, 1}, {"M", 2, 1}};
  std::string text;
  for (const std::string& line : Texts(other)) text += line + '\n';
  const auto said = CompareRows(design, "Sizes: L (S, M).\n" + text);
  ASSERT_TRUE(said.ok());
  EXPECT_TRUE(said->equal() && said->findings.empty());
  EXPECT_THAT(said->sizes, ElementsAre("S", "M", "L"));
  const auto unsaid = CompareRows(design, text);
  ASSERT_TRUE(unsaid.ok());
  EXPECT_FALSE(unsaid->equal());
}

}  // namespace
}  // namespace rowproof::rows
