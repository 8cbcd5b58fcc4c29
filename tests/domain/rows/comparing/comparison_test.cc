// Each kind of fault by itself, as findings.
#include "services/domain/rows/comparing/comparison.h"

#include <set>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "gtest/gtest.h"
#include "services/domain/rows/comparing/sentences.h"
#include "tests/domain/rows/chart_rows.h"

namespace rowproof::rows {
namespace {

using Found = std::vector<std::string>;

// Spike, one-face, six rows of six stitches.
chart::Design Small() {
  chart::Design design = Working({".x..x.", "..x...", ".x....", "....x.", "......", "......"});
  design.facing = chart::Facing::kOneFace;
  return design;
}

constexpr char kRow1[] = "Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (6 sts)\n";
constexpr char kRow2[] = "Row 2 (RS, B): sc in each st across. (6 sts)\n";
constexpr char kRow3[] = "Row 3 (RS, A): sc, ssc, sc 4. (6 sts)\n";
constexpr char kRow4[] = "Row 4 (RS, B): sc 4, ssc, sc. (6 sts)\n";
constexpr char kRow5[] = "Row 5 (RS, A): sc 3, ssc, sc 2. (6 sts)\n";
constexpr char kRow6[] = "Row 6 (RS, B): sc, ssc, sc 2, ssc, sc. (6 sts)\n";

std::string Text(const std::vector<const char*>& rows) {
  std::string text;
  for (const char* row : rows) text += row;
  return text;
}

Comparison Compared(const chart::Design& design, const std::string& text,
                    const ComparisonSettings& settings = {}) {
  const auto compared = CompareRows(design, text, settings);
  EXPECT_TRUE(compared.ok()) << compared.status();
  return compared.ok() ? *compared : Comparison();
}

// "wrong-stitch rows 3 stitches 2-2 off 1": all but notes.
Found Findings(const Comparison& compared) {
  Found found;
  for (const ComparisonFinding& finding : compared.findings) {
    if (finding.severity == chart::Severity::kNote) continue;
    std::string says = CodeName(finding.code);
    for (const int row : finding.rows) says += fmt::format(" {}", row);
    if (finding.stitch > 0) says += fmt::format(" @{}-{}", finding.stitch, finding.last_stitch);
    if (finding.off_by.front() != 0) says += fmt::format(" off {}", finding.off_by.front());
    if (finding.other_row != 0) says += fmt::format(" other {}", finding.other_row);
    found.push_back(says);
  }
  return found;
}

Found Findings(const chart::Design& design, const std::string& text,
               const ComparisonSettings& settings = {}) {
  return Findings(Compared(design, text, settings));
}

TEST(CompareRows, FindsNothingInARightText) {
  const Comparison compared = Compared(Small(), Text({kRow1, kRow2, kRow3, kRow4, kRow5, kRow6}));
  EXPECT_EQ(Findings(compared), Found());
  EXPECT_TRUE(compared.equal());
  ASSERT_EQ(compared.rows.size(), 6U);
  EXPECT_EQ(compared.rows[2].text + "\n", kRow3);
  EXPECT_EQ(compared.rows[2].chart + "\n", kRow3);
  EXPECT_EQ(compared.rows[2].chart_row, 3);
}

TEST(CompareRows, NamesTheStitchInTheChartsOwnNumbers) {
  const char wrong[] = "Row 3 (RS, A): sc, ssc, sc 2, ssc, sc. (6 sts)\n";
  EXPECT_EQ(Findings(Small(), Text({kRow1, kRow2, wrong, kRow4, kRow5, kRow6})),
            Found{"wrong-stitch 3 @5-5 off 1"});
  chart::Design turned = Small();
  turned.facing = chart::Facing::kTwoFace;
  const char wrong_side[] = "Row 4 (WS, B): sc, ssc, sc 2, ssc, sc. (6 sts)\n";
  EXPECT_EQ(Findings(turned, Text({kRow1, "Row 2 (WS, B): sc across. (6 sts)\n", kRow3, wrong_side,
                                   kRow5, "Row 6 (WS, B): sc, ssc, sc 2, ssc, sc. (6 sts)\n"})),
            Found{"wrong-stitch 4 @2-2 off 1"});
}

TEST(CompareRows, SaysByHowManyStitchesARepeatMissesTheEnd) {
  const auto found = [](const char* row) {
    return Findings(Small(), Text({kRow1, kRow2, kRow3, kRow4, kRow5, row}));
  };
  EXPECT_EQ(found("Row 6 (RS, B): *sc, ssc, sc 2; rep from * across. (6 sts)\n"),
            Found{"leaves-stitches-over 6 off -2"});
  EXPECT_EQ(found("Row 6 (RS, B): sc, *ssc, sc 2, ssc, sc 2; rep from * across. (6 sts)\n"),
            Found{"runs-short 6 off 1"});
  EXPECT_EQ(found("Row 6 (RS, B): [sc, ssc, sc] 5 times. (6 sts)\n"),
            Found{"runs-short 6 @6-6 off 9"});
  EXPECT_EQ(found("Row 6 (RS, B): [sc, ssc, sc] 3 times. (6 sts)\n"),
            Found{"doubled-group 6 @6-6 off 3"});
  EXPECT_EQ(found("Row 6 (RS, B): sc, ssc, sc 3, ssc, sc. (6 sts)\n"),
            Found{"wrong-count 6 @5-5 off 1"});
}

TEST(CompareRows, TellsRowsThatAreMissingDoubledMisplacedOrWronglyNumbered) {
  EXPECT_EQ(Findings(Small(), Text({kRow1, kRow2, kRow5, kRow6})), Found{"missing-row 3 4"});
  EXPECT_EQ(Findings(Small(), Text({kRow1, kRow2, kRow3, kRow4, kRow4, kRow5, kRow6})),
            Found{"doubled-row 4"});
  EXPECT_EQ(Findings(Small(), Text({kRow1, kRow2, kRow3, kRow5, kRow4, kRow6})),
            Found{"misplaced-row 5"});
  EXPECT_EQ(Findings(Small(), Text({kRow1, kRow2, kRow3, "Row 3 (RS, B): sc 4, ssc, sc. (6 sts)\n",
                                    kRow5, kRow6})),
            Found{"wrong-number 4 other 3"});
  const Comparison more = Compared(
      Small(), Text({kRow1, kRow2, kRow3, kRow4, kRow5, kRow6, "Rows 7-8: rep Rows 5-6.\n"}));
  EXPECT_EQ(Findings(more), Found{"row-too-many 7 8"});
  ASSERT_EQ(more.rows.size(), 8U);
  EXPECT_EQ(more.rows.back().agreement, Agreement::kTooMany);
  EXPECT_EQ(more.rows.back().number, 8);
  EXPECT_EQ(more.rows.back().chart, "");
}

TEST(CompareRows, RecognisesARowCopiedOverAnother) {
  const char copied[] = "Row 6 (RS, B): sc 4, ssc, sc. (6 sts)\n";
  EXPECT_EQ(Findings(Small(), Text({kRow1, kRow2, kRow3, kRow4, kRow5, copied})),
            Found{"wrong-stitch 6 @2-2 off 1"});
  const char other[] = "Row 5 (RS, A): sc 4, ssc, sc. (6 sts)\n";
  EXPECT_EQ(Findings(Small(), Text({kRow1, kRow2, kRow3, kRow4, other, kRow6})),
            Found{"reads-as-other-row 5 @4-5 off 2 other 4"});
}

TEST(CompareRows, LooksAtEachRowAsIfTheOthersWereRight) {
  chart::Design mat = Working({".....", "..x..", "....."});
  mat.technique = chart::Technique::kInset;
  const std::string rest =
      "Row 2 (WS, A): sc in each sc, ch 2 over each ch-sp. (4 sts, 1 ch-sp)\n"
      "Row 3 (RS, B): sc 2, mdc, sc 2. (5 sts)\nRow 4 (WS, B): sc across. (5 sts)\n"
      "Row 5 (RS, A): sc across. (5 sts)\nRow 6 (WS, A): sc across. (5 sts)\n";
  EXPECT_EQ(Findings(mat, "Row 1 (RS, A): sc 2, ch 2, sk 1, sc 2. (4 sts, 1 ch-sp)\n" + rest),
            Found());
  EXPECT_EQ(Findings(mat, "Row 1 (RS, A): sc 3, ch 2, sk 1, sc. (4 sts, 1 ch-sp)\n" + rest),
            Found{"wrong-stitch 1 @3-4 off 2"});
}

TEST(CompareRows, TakesOtherChainsThroughoutForTheTextsOwnWay) {
  chart::Design mat = Working({".......", "..x..x.", "...x...", "......."});
  mat.technique = chart::Technique::kInset;
  const auto pattern = WriteRows(mat);
  ASSERT_TRUE(pattern.ok());
  std::string text;
  for (const WrittenRow& row : pattern->rows) text += row.text + '\n';
  EXPECT_EQ(Findings(mat, text), Found());
  std::string longer = text;
  for (size_t at = 0; (at = longer.find("ch 2", at)) != std::string::npos;) longer[at + 3] = '3';
  const Comparison compared = Compared(mat, longer);
  EXPECT_TRUE(compared.equal());
  EXPECT_EQ(Findings(compared), Found{"other-chains 1 2 3 4 off 1"});
  // Rows that follow the one below have its chains, whatever they are.
  std::string follows;
  for (const WrittenRow& row : pattern->rows) {
    const bool spaces = row.text.find("sk ch-sp") != std::string::npos;
    follows += !spaces ? row.text + '\n'
                       : row.text.substr(0, row.text.find(": ")) +
                             ": sc in each sc, ch over each ch-sp.\n";
  }
  EXPECT_EQ(Findings(mat, follows), Found());
  for (size_t at = 0; (at = follows.find("ch 2", at)) != std::string::npos;) follows[at + 3] = '3';
  EXPECT_EQ(Findings(mat, follows),
            Found({"wrong-chains 1 @4-4 off 1", "wrong-chains 3 @2-2 off 1"}));
  // In one row alone it is a fault.
  std::string once = text;
  once[once.find("ch 2") + 3] = '3';
  EXPECT_EQ(Findings(mat, once), Found{"wrong-chains 1 @4-4 off 1"});
}

TEST(CompareRows, ChecksTheFoundationAgainstTheFirstRow) {
  const std::string rest = Text({kRow2, kRow3, kRow4, kRow5, kRow6});
  const std::string third =
      "Row 1 (RS, A): sc in 3rd ch from hook and in each ch across. (6 sts)\n";
  EXPECT_EQ(Findings(Small(), "Foundation: ch 7.\n" + (kRow1 + rest)), Found());
  EXPECT_EQ(Findings(Small(), "Foundation: ch 6.\n" + (kRow1 + rest)),
            Found{"wrong-foundation 0 off -1"});
  EXPECT_EQ(Findings(Small(), "Foundation: ch 8.\n" + third + rest), Found());
  EXPECT_EQ(Findings(Small(), "Foundation: ch 7.\n" + third + rest), Found{"into-chain 1 off -1"});
  EXPECT_EQ(Findings(Small(), third + rest), Found{"into-chain 1 off -1"});
  EXPECT_EQ(Findings(Small(), "Foundation: ch 7, join into a ring.\n" + (kRow1 + rest)),
            Found{"wrong-foundation 0"});
  const Comparison other = Compared(Small(), "Foundation: with B, ch 7.\n" + (kRow1 + rest));
  EXPECT_TRUE(other.equal());
  EXPECT_EQ(other.warning_count, 1);
  chart::Design declared = Small();
  declared.foundation_colour = chart::Colour::kA;
  EXPECT_FALSE(Compared(declared, "Foundation: with B, ch 7.\n" + (kRow1 + rest)).equal());
}

TEST(CompareRows, KnowsAFoundationThatIsWrittenAsARow) {
  chart::Design declared = Small();
  declared.foundation_colour = chart::Colour::kB;
  const std::string rows =
      Text({"Row 1 (RS, A): sc across. (6 sts)\n", kRow2, kRow3, kRow4, kRow5, kRow6});
  EXPECT_EQ(Findings(declared,
                     "Row 0 (RS, B): sc in 2nd ch from hook and in each ch across. (6 "
                     "sts)\n" +
                         rows),
            Found());
  EXPECT_EQ(Findings(declared,
                     "Row 0 (RS, A): sc in 2nd ch from hook and in each ch across. (6 "
                     "sts)\n" +
                         rows),
            Found{"row-too-many 0"});
}

TEST(CompareRows, ComparesATubesRounds) {
  chart::Design tube = Small();
  tube.form = chart::Form::kTube;
  const std::string rounds =
      "Rnd 1 (A): sc in each ch around. (6 sts)\nRnd 2 (B): sc around. (6 sts)\n"
      "Rnd 3 (A): sc, ssc, sc 4. (6 sts)\nRnd 4 (B): sc 4, ssc, sc. (6 sts)\n"
      "Rnd 5 (A): sc 3, ssc, sc 2. (6 sts)\nRnd 6 (B): sc, ssc, sc 2, ssc, sc. (6 sts)\n";
  EXPECT_EQ(Findings(tube, "Foundation: ch 6, join into a ring.\n" + rounds), Found());
  const Comparison flat = Compared(tube, "Foundation: ch 7, join into a ring.\n" + rounds);
  EXPECT_EQ(Findings(flat), Found{"wrong-foundation 0 off 1"});
}

TEST(CompareRows, WarnsOfATurnThatDoesNotFitTheSides) {
  const std::string rest = Text({kRow1, kRow2, kRow3, kRow4, kRow5});
  const Comparison compared = Compared(Small(), rest + kRow6);
  EXPECT_EQ(compared.warning_count, 0);
  const std::string turned =
      Text({kRow1, kRow2, kRow3, "Row 4 (RS, B): sc 4, ssc, sc. Turn. (6 sts)\n", kRow5, kRow6});
  EXPECT_EQ(Findings(Small(), turned), Found{"turn-does-not-fit 4"});
  EXPECT_TRUE(Compared(Small(), turned).equal());
}

TEST(CompareRows, LeavesARowThatCannotBeReadToTheReader) {
  const Comparison compared = Compared(
      Small(),
      Text({kRow1, kRow2, kRow3, "Row 4 (RS, B): sc 4, xyz, sc. (6 sts)\n", kRow5, kRow6}));
  EXPECT_EQ(Findings(compared), Found());
  EXPECT_EQ(compared.reading.size(), 1U);
  EXPECT_FALSE(compared.equal());
  EXPECT_EQ(compared.rows[3].agreement, Agreement::kNotRead);
  EXPECT_EQ(compared.rows[4].agreement, Agreement::kAgrees);
}

TEST(CompareRows, CorrectsInTheWordsOfTheText) {
  ComparisonSettings settings;
  settings.colours = {{"sand", chart::Colour::kA}, {"slate", chart::Colour::kB}};
  const Comparison compared = Compared(
      Small(),
      "UK terms.\nRow 1 (RS, sand): dc in 2nd ch from hook and in each ch across.\n"
      "Row 2 (RS, slate): dc 6.\nRow 3 (RS, sand): dc, sdc, dc 4.\nRow 4 (RS, slate): dc 5, sdc.\n"
      "Row 5 (RS, sand): dc 3, sdc, dc 2.\nRow 6 (RS, slate): dc, sdc, dc 2, sdc, dc.\n",
      settings);
  ASSERT_EQ(Findings(compared), Found{"wrong-stitch 4 @5-6 off 2"});
  EXPECT_EQ(compared.findings[0].corrected, "Row 4 (RS, slate): dc 4, sdc, dc. (6 sts)");
  EXPECT_EQ(compared.findings[0].text_says, "dc");
  EXPECT_EQ(compared.findings[0].chart_says, "sdc");
  EXPECT_EQ(compared.note_count, 1);  // no closing counts
}

TEST(CompareRows, ReadsALeftHandedTextForALeftHandedMaker) {
  WriterSettings written;
  written.hand = chart::Hand::kLeft;
  ComparisonSettings settings;
  settings.hand = chart::Hand::kLeft;
  const auto left = WriteRows(Small(), written);
  ASSERT_TRUE(left.ok());
  std::string text;
  for (const WrittenRow& row : left->rows) text += row.text + '\n';
  EXPECT_EQ(Findings(Small(), text, settings), Found());
  const Comparison right = Compared(Small(), text);
  EXPECT_EQ(Findings(right), Found{"wrong-edge 3 4 5 off 2"});
  EXPECT_NE(Sentence(right.findings[0], right).find("left-handed"), std::string::npos);
}

TEST(CompareRows, SaysInWhichSizesAndByHowMuch) {
  chart::Design design = Small();
  design.stitch_band = chart::Band{2, 4};
  design.sizes = {{"S", 1, 1}, {"M", 2, 1}, {"L", 3, 1}};
  const auto pattern = WriteRows(design);
  ASSERT_TRUE(pattern.ok());
  std::string text;
  for (const WrittenRow& row : pattern->rows) text += row.text + '\n';
  EXPECT_EQ(Findings(design, text), Found());
  const size_t row = text.find("Row 6");
  text = text.substr(0, row) +
         "Row 6 (RS, B): sc, [ssc, sc 2] 1 (1, 2) times, ssc, sc. (6 (9, 12) sts)\n";
  const Comparison compared = Compared(design, text);
  ASSERT_EQ(compared.findings.size(), 1U);
  EXPECT_EQ(compared.findings[0].code, ComparisonCode::kDroppedGroup);
  EXPECT_EQ(compared.findings[0].sizes, (std::vector<int>{1, 2}));
  EXPECT_EQ(compared.findings[0].off_by, (std::vector<int>{-3, -3}));
  EXPECT_NE(Sentence(compared.findings[0], compared).find("(sizes M and L)"), std::string::npos);
}

TEST(CompareRows, HasAnOwnNameForEachCode) {
  std::set<std::string> names;
  for (size_t code = 0; code < kComparisonCodes; ++code) {
    names.insert(CodeName(static_cast<ComparisonCode>(code)));
  }
  EXPECT_EQ(names.size(), kComparisonCodes);
  EXPECT_STREQ(CodeName(ComparisonCode::kOtherChains), "other-chains");
  EXPECT_STREQ(CodeName(ComparisonCode::kColoursExchanged), "colours-exchanged");
}

}  // namespace
}  // namespace rowproof::rows
