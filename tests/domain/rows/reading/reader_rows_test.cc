// Heads of rows, rows that repeat others, sizes, and what stands around the rows.
#include "fmt/format.h"
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/rows/text_rows.h"
#include "services/domain/rows/writing/writer.h"
#include "tests/domain/rows/read_stitches.h"

namespace rowproof::rows {
namespace {

using testing::ElementsAre;

TextDocument Read(std::string_view text, const ReaderSettings& settings = {}) {
  auto document = ReadRows(text, settings);
  EXPECT_TRUE(document.ok()) << document.status();
  if (!document.ok()) return {};
  for (const TextFinding& finding : document->findings) ADD_FAILURE() << Sentence(finding);
  return *std::move(document);
}

// "7 RS A", "27 WS -" for each number of one size.
std::vector<std::string> Heads(const TextDocument& document, int size = 0) {
  std::vector<std::string> heads;
  for (const PlacedRow& row : RowsOfSize(document, size)) {
    heads.push_back(fmt::format("{} {} {}", row.number, row.side ? chart::Name(*row.side) : "-",
                                row.colour ? chart::Name(*row.colour) : "-"));
  }
  return heads;
}

// "9<1": row 9 is worked as the text's line 1 (from 1).
std::vector<std::string> Sources(const TextDocument& document, int size = 0) {
  std::vector<std::string> sources;
  for (const PlacedRow& row : RowsOfSize(document, size)) {
    const auto line = static_cast<size_t>(row.worked);
    sources.push_back(fmt::format("{}<{}", row.number, document.rows[line].at.line));
  }
  return sources;
}

TEST(ReadHeads, SayNumberSideAndColourInManyForms) {
  struct Case {
    const char* head;
    const char* means;
  };
  const Case cases[] = {
      {"Row 7 (RS, A):", "7 RS A"},
      {"Row 7 (RS):", "7 RS -"},
      {"Row 7 [RS]:", "7 RS -"},
      {"Row 7 [WS, B]:", "7 WS B"},
      {"Row 7 (A):", "7 - A"},
      {"Row 7:", "7 - -"},
      {"Row 7.", "7 - -"},
      {"row 7 (rs, a):", "7 RS A"},
      {"ROW 7 (RS; A):", "7 RS A"},
      {"Row 7 (RS) (A):", "7 RS A"},
      {"Row 7 (RS - A):", "7 RS A"},
      {"Row 7 (RS, colour A):", "7 RS A"},
      {"Row 7 (RS, with color A):", "7 RS A"},
      {"Row 7 (right side, yarn B):", "7 RS B"},
      {"Row 7 (wrong side facing):", "7 WS -"},
      {"Row 7 (RS facing, B):", "7 RS B"},
      {"Row 7 - RS (A):", "7 RS A"},
      {"Row 7, RS, A:", "7 RS A"},
      {"Row 7 with B:", "7 - B"},
      {"Row 7 (RS) with B:", "7 RS B"},
      {"Row 7 using colour B:", "7 - B"},
      {"Row 7 (Side A):", "7 RS -"},
      {"Row 7, Side B:", "7 WS -"},
      {"Row 7: (RS, A)", "7 RS A"},
      {"Row 7: [WS]", "7 WS -"},
      {"Row 7 (RS, A)", "7 RS A"},
      {"Row 7 \xe2\x80\x93 RS, A:", "7 RS A"},
      {"Row\xc2\xa0"
       "7\xc2\xa0(RS,\xc2\xa0"
       "A):",
       "7 RS A"},
      {"\xe2\x80\xa2 Row 7 (RS, A):", "7 RS A"},
      {"> Row 7 (RS, A):", "7 RS A"},
      {"   Row 7 (RS, A):", "7 RS A"},
      {"\xef\xbb\xbfRow 7 (RS, A):", "7 RS A"},
      {"Rnd 7 (RS, A):", "7 RS A"},
      {"Round 7 (RS, A):", "7 RS A"},
      {"R7 (RS, A):", "7 RS A"},
      {"7th row (RS, A):", "7 RS A"},
      {"Row 7 (RS, dark blue):", "7 RS C"},
      {"Row 7 (RS, Dark Blue):", "7 RS C"},
      {"Row 7 (WS, MC):", "7 WS D"},
      {"Row 7 with dark blue:", "7 - C"},
      {"Row 7 (RS, A) (this is the widest row):", "7 RS A"},
  };
  const ReaderSettings settings{
      .terms = {},
      .sizes = {},
      .colours = {{"dark blue", chart::Colour::kC}, {"MC", chart::Colour::kD}},
      .definitions = {}};
  for (const Case& head : cases) {
    const TextDocument document = Read(fmt::format("{} sc 3, ssc. (4 sts)", head.head), settings);
    EXPECT_THAT(Heads(document), ElementsAre(head.means)) << head.head;
    ASSERT_EQ(document.rows.size(), 1u);
    EXPECT_EQ(Shown(ExpandSteps(document.rows[0].steps, 0, {4, {}}).runs), "...x") << head.head;
  }
}

TEST(ReadHeads, TakeAColourFromWhereTheRowStarts) {
  EXPECT_THAT(Heads(Read("Row 2 (WS): With B, sc 3.")), ElementsAre("2 WS B"));
  EXPECT_THAT(Heads(Read("Row 2: Join B with sc in first st, sc 2.")), ElementsAre("2 - B"));
  EXPECT_THAT(Heads(Read("Row 2 (RS, B): With B, sc 3.")), ElementsAre("2 RS B"));
}

TEST(ReadHeads, NameSeveralRows) {
  EXPECT_THAT(Heads(Read("Rows 3 and 5 (RS, A): sc 3.")), ElementsAre("3 RS A", "5 RS A"));
  EXPECT_THAT(Heads(Read("Rows 3-5: sc 3.")), ElementsAre("3 - -", "4 - -", "5 - -"));
  EXPECT_THAT(Heads(Read("Rows 3 \xe2\x80\x93 5: sc 3.")), ElementsAre("3 - -", "4 - -", "5 - -"));
  EXPECT_THAT(Heads(Read("Rows 3 to 5: sc 3.")), ElementsAre("3 - -", "4 - -", "5 - -"));
  EXPECT_THAT(Heads(Read("Rows 3, 5, and 7-8: sc 3.")),
              ElementsAre("3 - -", "5 - -", "7 - -", "8 - -"));
  EXPECT_THAT(Heads(Read("Rows 3 & 5: sc 3.")), ElementsAre("3 - -", "5 - -"));
}

TEST(ReadReferences, WorkEarlierRowsAgain) {
  constexpr const char* kRows = "Row 1 (RS, A): sc 3.\nRow 2 (WS, B): ssc 3.\n";
  const auto sources = [&](const std::string& line) { return Sources(Read(kRows + line)); };
  const auto twice = ElementsAre("1<1", "2<2", "3<1", "4<2", "5<1", "6<2");
  EXPECT_THAT(sources("Rows 3-6: rep Rows 1-2 twice."), twice);
  EXPECT_THAT(sources("Rows 3-6: Rep Rows 1 and 2 twice."), twice);
  EXPECT_THAT(sources("Rows 3-6: Repeat rows 1\xe2\x80\x93"
                      "2, 2 times."),
              twice);
  EXPECT_THAT(sources("Rows 3-6: rep Rows 1-2 \xc3\x97 2."), twice);
  EXPECT_THAT(sources("Rows 3-6: rep Rows 1 and 2 two more times."), twice);
  EXPECT_THAT(sources("Rows 3-6: rep Rows 1-2 twice more."), twice);
  EXPECT_THAT(sources("Rows 3-6: rep Rows 1-2."), twice);
  EXPECT_THAT(sources("Rows 3-6: work as Rows 1-2."), twice);
  EXPECT_THAT(sources("Rows 3-6: rep last 2 rows twice."), twice);
  EXPECT_THAT(sources("Rows 3-4: rep Rows 1-2 once more.\nRows 5-6: rep Rows 3-4."), twice);
  EXPECT_THAT(sources("Row 3: rep Row 1."), ElementsAre("1<1", "2<2", "3<1"));
  EXPECT_THAT(sources("Row 3: As Row 1."), ElementsAre("1<1", "2<2", "3<1"));
  EXPECT_THAT(sources("Row 3: same as Row 1. (3 sts)"), ElementsAre("1<1", "2<2", "3<1"));
  EXPECT_THAT(sources("Row 3: Work as for row 1."), ElementsAre("1<1", "2<2", "3<1"));
  EXPECT_THAT(sources("Rows 3, 5 and 7: as Row 1."),
              ElementsAre("1<1", "2<2", "3<1", "5<1", "7<1"));
}

TEST(ReadReferences, KeepSideAndColourUnlessTheyAreSaid) {
  const TextDocument document = Read(
      "Row 1 (RS, A): sc 3.\nRow 2 (WS, B): ssc 3.\nRows 3-4: rep Rows 1-2.\n"
      "Row 5 (WS, C): as Row 1.\nRow 6 (RS): rep Row 2.");
  EXPECT_THAT(Heads(document),
              ElementsAre("1 RS A", "2 WS B", "3 RS A", "4 WS B", "5 WS C", "6 RS B"));
}

TEST(ReadReferences, LeaveMissingAndDoubledRowsAsTheyStand) {
  EXPECT_THAT(Sources(Read("Row 1: sc.\nRow 1: ssc.\nRow 4: as Row 1.\nRow 3: sc.")),
              ElementsAre("1<1", "1<2", "4<2", "3<4"));
}

TEST(ReadSizes, ListNumbersRangesAndTimes) {
  const ReaderSettings settings{.terms = {}, .sizes = {"S", "M"}, .colours = {}, .definitions = {}};
  const TextDocument document = Read(
      "Row 1 (RS, A): sc 3 (5). (3 (5) sts)\nRow 2 (WS, B): ssc 3 (5).\n"
      "Rows - (3-6): rep Rows 1-2 0 (2) times.\nRow 3 (7) (RS, A): sc 3 (5).\n"
      "Row - (8): as Row 2.\n",
      settings);
  EXPECT_THAT(Sources(document, 0), ElementsAre("1<1", "2<2", "3<4"));
  EXPECT_THAT(Sources(document, 1),
              ElementsAre("1<1", "2<2", "3<1", "4<2", "5<1", "6<2", "7<4", "8<2"));
  ASSERT_EQ(document.rows[0].stated.size(), 1u);
  EXPECT_EQ(document.rows[0].stated[0].count.Of(1), 5);
}

TEST(ReadSizes, FollowHeadings) {
  const ReaderSettings settings{
      .terms = {}, .sizes = {"S", "Queen size"}, .colours = {}, .definitions = {}};
  const TextDocument document = Read(
      "Row 1: sc 3 (5).\nSize S:\nRow 2: ssc 3.\nFor size queen size:\nRow 2: ssc 5.\n"
      "All sizes:\nRow 3: sc 3 (5).",
      settings);
  EXPECT_THAT(Sources(document, 0), ElementsAre("1<1", "2<3", "3<7"));
  EXPECT_THAT(Sources(document, 1), ElementsAre("1<1", "2<5", "3<7"));
}

TEST(ReadSizes, AreTakenFromTheTextWhereNoneAreGiven) {
  const TextDocument document =
      Read("Sizes: S (M, Extra Large). The first apart.\nRow 1: sc 3 (5, 7). (3 (5, 7) sts)");
  EXPECT_THAT(document.sizes, ElementsAre("S", "M", "Extra Large"));
  EXPECT_EQ(ExpandSteps(document.rows[0].steps, 2, {7, {}}).stitches, 7);
}

TEST(ReadCounts, StateStitchesSpacesAndKinds) {
  struct Case {
    const char* text;
    std::vector<int> counts;
  };
  const Case cases[] = {{"sc 3. (3 sts)", {3}},
                        {"sc 3. [3 sts]", {3}},
                        {"sc 3 (3 sts).", {3}},
                        {"sc 3. (3)", {3}},
                        {"sc 3 \xe2\x80\x94 3 sts.", {3}},
                        {"sc 3. 3 sts.", {3}},
                        {"sc 3 = 3 sts", {3}},
                        {"sc 3. Total: 3 sts.", {3}},
                        {"sc 3. (total 3 sts)", {3}},
                        {"sc 3. (3 stitches)", {3}},
                        {"sc, ch 2, sk 1, sc. (2 sts, 1 ch-sp)", {2, 1}},
                        {"sc, ch 2, sk 1, sc. (2 sts and 1 ch-2 sp)", {2, 1}},
                        {"sc, ch 2, sk 1, sc. (2 sts, 1 chain space)", {2, 1}},
                        {"sc 3, ssc. (3 sc, 1 ssc)", {3, 1}},
                        {"sc 3, ssc. (3 sc, 1 ssc; 4 sts)", {3, 1, 4}}};
  for (const Case& count : cases) {
    const TextDocument document = Read(fmt::format("Row 2: {}", count.text));
    ASSERT_EQ(document.rows.size(), 1u);
    std::vector<int> counts;
    for (const StatedCount& stated : document.rows[0].stated) counts.push_back(stated.count.Of(0));
    EXPECT_EQ(counts, count.counts) << count.text;
  }
}

TEST(ReadMarks, AreKeptBesideTheStitches) {
  const TextDocument document = Read(
      "Row 2: Join B with sl st in first st, ch 1, sc 3. Fasten off.\n"
      "Row 3: standing sc, sc 2. Turn.\n"
      "Rnd 4: ch 1, sc 3, join with sl st to first sc. Do not turn.");
  const auto& rows = document.rows;
  EXPECT_TRUE(rows[0].has(RowMark::kJoinedWithSlip));
  EXPECT_TRUE(rows[0].has(RowMark::kChainAtStart));
  EXPECT_TRUE(rows[0].has(RowMark::kFastenOff));
  EXPECT_FALSE(rows[0].round);
  EXPECT_TRUE(rows[1].has(RowMark::kStandingStitch));
  EXPECT_TRUE(rows[1].has(RowMark::kTurn));
  EXPECT_FALSE(rows[1].has(RowMark::kJoinedWithSlip));
  EXPECT_TRUE(rows[2].round);
  EXPECT_TRUE(rows[2].has(RowMark::kJoinedToFirst));
  EXPECT_TRUE(rows[2].has(RowMark::kNoTurn));
}

TEST(ReadChainSpaces, OfTheRowBelowAreAsWideAsTheyAre) {
  const TextDocument document = Read(
      "Row 3 (RS, A): sc 2, ch 3, sk 2, sc, ch 2, sk 1, sc 2.\n"
      "Row 4 (WS, A): sc 2, ch 9, sk ch-sp, sc, ch 9, sk ch-sp, sc 2.\n"
      "Row 5 (WS, A): sc in each sc and mdc, ch over each ch-sp across.\n"
      "Row 6 (WS, A): sc in each st, ch 4 and sk each ch-sp.\n");
  const ExpandedText below = ExpandSteps(document.rows[0].steps, 0, {8, {}});
  EXPECT_EQ(Shown(below.runs), "..<3/2>.<2/1>..");
  EXPECT_EQ(below.stitches, 5);
  EXPECT_EQ(below.chain_spaces, 2);
  EXPECT_EQ(below.taken, 8);
  const std::vector<WorkedRun> met = Reversed(below.runs);
  EXPECT_EQ(Shown(ExpandSteps(document.rows[1].steps, 0, {8, met}).runs), "..<9/1>.<9/2>..");
  EXPECT_EQ(Shown(ExpandSteps(document.rows[2].steps, 0, {8, met}).runs), "..<2/1>.<3/2>..");
  EXPECT_EQ(Shown(ExpandSteps(document.rows[3].steps, 0, {8, met}).runs), "..<4/1>.<4/2>..");
}

TEST(ReadFoundation, GivesChainsAndColour) {
  struct Case {
    const char* line;
    int chains;
    const char* colour;
    bool ring;
  };
  const Case cases[] = {
      {"Foundation: with colour B ch 54, one more than the first row has stitches.", 54, "B",
       false},
      {"Foundation chain: Ch 54.", 54, "-", false},
      {"With A, ch 54.", 54, "A", false},
      {"Ch 54.", 54, "-", false},
      {"Chain 54", 54, "-", false},
      {"Foundation: 54 chains with A", 54, "-", false},
      {"Foundation: with colour A ch 53 and join into a ring with a sl st.", 53, "A", true},
  };
  for (const Case& foundation : cases) {
    const TextDocument document = Read(fmt::format("{}\nRow 1: sc 3.", foundation.line));
    ASSERT_TRUE(document.foundation.has_value()) << foundation.line;
    EXPECT_EQ(document.foundation->chains.Of(0), foundation.chains);
    EXPECT_STREQ(document.foundation->colour ? chart::Name(*document.foundation->colour) : "-",
                 foundation.colour)
        << foundation.line;
    EXPECT_EQ(document.foundation->ring, foundation.ring);
  }
  EXPECT_EQ(Read("Row 1: sc in 2nd ch from hook and in each ch across.").rows[0].first_chain, 2);
  EXPECT_EQ(Read("Row 1: sk first ch, sc in each ch across.").rows[0].first_chain, 2);
  EXPECT_EQ(Read("Row 1: sc 3.").rows[0].first_chain, 0);
}

TEST(ReadColours, HaveNamesThatTheTextDeclares) {
  const TextDocument document = Read(
      "Colour A: cream\nColor B - Dark Blue (two balls)\nMC = C\nRow 1 (RS, cream): sc.\n"
      "Row 2 (WS, dark blue): sc.\nRow 3 (RS, MC): sc.");
  EXPECT_THAT(Heads(document), ElementsAre("1 RS A", "2 WS B", "3 RS C"));
}

TEST(ReadColours, HaveNamesThatTheTextLists) {
  const TextDocument document = Read(
      "Colours: A Oat, B Dark Slate. Work each row in the colour given after its number.\n"
      "Row 1 (RS, Oat): sc.\nRow 2 (WS, dark slate): sc.");
  EXPECT_THAT(Heads(document), ElementsAre("1 RS A", "2 WS B"));
}

TEST(ReadTerms, AreKnownFromWordsThatOneSystemHas) {
  const auto terms = [](std::string_view text) {
    const TextDocument document = Read(text);
    return !document.terms.has_value()            ? "unknown"
           : *document.terms == chart::Terms::kUs ? "US"
                                                  : "UK";
  };
  EXPECT_STREQ(terms("Row 2: sc 3."), "US");
  EXPECT_STREQ(terms("Row 2: hdc, dc."), "US");
  EXPECT_STREQ(terms("Row 2: dc 2, mdc."), "US");
  EXPECT_STREQ(terms("Row 2: dc, ch 3, sk 2."), "US");
  EXPECT_STREQ(terms("Row 2: dc, tr, ch 3, miss 2."), "UK");
  EXPECT_STREQ(terms("Row 2: dc 2, mtr."), "UK");
  EXPECT_STREQ(terms("Row 2: dc 2, sdc."), "UK");
  EXPECT_STREQ(terms("Row 2: htr 2."), "UK");
  EXPECT_STREQ(terms("Terms: UK.\nRow 2: dc 2."), "UK");
  EXPECT_STREQ(terms("This pattern is written in US terms.\nRow 2: dc 2."), "US");
  EXPECT_STREQ(terms("Row 2: sl st 3."), "unknown");
}

}  // namespace
}  // namespace rowproof::rows
