#include "services/domain/rows/text_words.h"

#include "gtest/gtest.h"
#include "services/domain/rows/reading/reader.h"
#include "services/domain/rows/text_counts.h"
#include "services/domain/rows/writing/writer.h"
#include "tests/domain/rows/random_design.h"

namespace rowproof::rows {
namespace {

TextDocument Read(const std::string& text, const ReaderSettings& settings = {}) {
  auto document = ReadRows(text, settings);
  EXPECT_TRUE(document.ok()) << document.status();
  for (const TextFinding& finding : document->findings) ADD_FAILURE() << Sentence(finding);
  return *std::move(document);
}

// The words of one row's body.
std::string WordsOf(const std::string& body, chart::Terms terms = chart::Terms::kUs) {
  ReaderSettings settings;
  settings.terms = terms;
  return Words(Read("Row 2: " + body, settings).rows.at(0), terms);
}

TEST(TextWords, AreOnePlainFormForEachWayToWriteTheSame) {
  for (const char* body : {"sc in next 2 sts, *ssc, sc; rep from * 2 more times, sc",
                           "2 sc, (1 ssc, 1 sc) x 3, 1 sc", "sc 2, [ssc, sc 1] thrice, sc."}) {
    EXPECT_EQ(WordsOf(body), "sc 2, [ssc, sc] 3 times, sc") << body;
  }
  EXPECT_EQ(WordsOf("sc in BLO of each st across"), "sc in each st across");
  EXPECT_EQ(WordsOf("sc, *ssc, sc; rep from * to last 2 sts, sc 2"),
            "sc, [ssc, sc] to last 2 sts, sc 2");
  EXPECT_EQ(WordsOf("sc 2, ch 3, sk next 2 sts, sc"), "sc 2, ch 3, sk 2 sts, sc");
  EXPECT_EQ(WordsOf("sc in 2nd ch from hook and in each ch across"),
            "starting in 2nd ch from hook, sc, sc in each st across");
  EXPECT_EQ(Words(Read("Row 1: sc 3.\nRow 2: same as Row 1.").rows.at(1), chart::Terms::kUs),
            "as Row 1");
}

TEST(TextWords, AreInTheTermsAskedFor) {
  EXPECT_EQ(WordsOf("dc 2, mtr, miss 2 sts", chart::Terms::kUk), "dc 2, mtr, miss 2 sts");
}

// The property that makes them trustworthy: read again, they say the same.
TEST(TextWords, ReadAgainGiveTheSameSteps) {
  std::mt19937 random(20264);
  int rows = 0;
  for (int round = 0; round < 400; ++round) {
    const chart::Design design = RandomDesign(random);
    WriterSettings writing;
    writing.terms = round % 2 == 0 ? chart::Terms::kUs : chart::Terms::kUk;
    writing.style = round % 3 == 0 ? RepeatStyle::kAsterisk : RepeatStyle::kBrackets;
    const auto written = WriteRows(design, writing);
    ASSERT_TRUE(written.ok()) << written.status();
    ReaderSettings reading;
    reading.terms = writing.terms;
    for (const chart::Size& size : design.sizes) reading.sizes.push_back(size.name);
    for (const WrittenRow& line : written->rows) {
      if (line.kind != WrittenRow::Kind::kWorked || !line.heading.empty()) continue;
      const TextRow row = Read(line.text, reading).rows.at(0);
      const std::string words = Words(row, writing.terms);
      const TextRow again = Read("Row 2: " + words, reading).rows.at(0);
      ASSERT_EQ(Words(again, writing.terms), words) << line.text;
      ASSERT_EQ(again.steps.size(), row.steps.size()) << line.text << '\n' << words;
      EXPECT_EQ(again.first_chain, row.first_chain);
      ++rows;
    }
  }
  EXPECT_GT(rows, 2000);
}

TEST(TextNumbers, ListRangesAndSizes) {
  EXPECT_EQ(Numbers(Read("Row 7: sc 3.").rows.at(0)), "7");
  const TextDocument rows = Read(
      "Row 1: sc.\nRow 2: sc.\nRows 3-6: rep Rows 1-2.\n"
      "Rows 7, 9 and 11: as Row 2.");
  EXPECT_EQ(Numbers(rows.rows.at(2)), "3-6");
  EXPECT_EQ(Numbers(rows.rows.at(3)), "7, 9, 11");
  EXPECT_EQ(Numbers(Read("Sizes: S (M).\nRow 5 (9): sc.").rows.at(0)), "5 (9)");
}

// What the writer says of its rows is what their text comes to, in every size.
TEST(TextCounts, AreTheCountsThatTheWriterStates) {
  std::mt19937 random(20265);
  int lines = 0;
  for (int round = 0; round < 300; ++round) {
    const chart::Design design = RandomDesign(random);
    const auto written = WriteRows(design);
    ASSERT_TRUE(written.ok()) << written.status();
    std::string text;
    for (const WrittenRow& line : written->rows) {
      if (!line.heading.empty()) text += line.heading + '\n';
      text += line.text + '\n';
    }
    ReaderSettings reading;
    for (const chart::Size& size : design.sizes) reading.sizes.push_back(size.name);
    const TextDocument document = Read(text, reading);
    const TextCounts counts = CountRows(document);
    ASSERT_TRUE(counts.complete);
    ASSERT_EQ(counts.lines.size(), written->rows.size());
    for (size_t line = 0; line < written->rows.size(); ++line) {
      const WrittenRow& row = written->rows[line];
      for (size_t size = 0; size < design.sizes.size(); ++size) {
        if (row.kind == WrittenRow::Kind::kRepeat || row.numbers[size] == kNotWorked) {
          EXPECT_FALSE(counts.lines[line][size].has_value());
          continue;
        }
        // The foundation is not in the text, so "across" it is not known.
        if (row.number == design.first_row_number) continue;
        ASSERT_TRUE(counts.lines[line][size].has_value()) << row.text;
        EXPECT_EQ(counts.lines[line][size]->stitches, row.stitch_counts[size]) << row.text;
        EXPECT_EQ(counts.lines[line][size]->chain_spaces, row.chain_space_counts[size]) << row.text;
        ++lines;
      }
    }
  }
  EXPECT_GT(lines, 1000);
}

TEST(TextCounts, StartFromTheFoundationAndFromStatedCounts) {
  const auto counts =
      CountRows(Read("Ch 10.\nRow 1: sc in 2nd ch from hook and in each ch across.\n"
                     "Row 2: sc 2, *ssc, sc; rep from * to last st, sc."));
  EXPECT_EQ(counts.lines[0][0]->stitches, 9);
  EXPECT_EQ(counts.lines[1][0]->stitches, 9);
  const auto stated =
      CountRows(Read("Row 1: sc in each ch across. (7 sts)\n"
                     "Row 2: sc in each st across.\nRow 3: sc 2."));
  EXPECT_FALSE(stated.lines[0][0].has_value());
  EXPECT_EQ(stated.lines[1][0]->stitches, 7);
}

TEST(TextCounts, EndWhereTheWorkRunsOut) {
  std::string text;
  for (int row = 1; row <= 50; ++row) text += "Row " + std::to_string(row) + ": sc 4000.\n";
  const auto counts = CountRows(Read(text), 20'000);
  EXPECT_FALSE(counts.complete);
  EXPECT_TRUE(counts.lines[0][0].has_value());
  EXPECT_FALSE(counts.lines[49][0].has_value());
}

}  // namespace
}  // namespace rowproof::rows
