// Labels that a row leaves out: nothing is said where a maker is certain all the same.
#include <string>
#include <vector>

#include "fmt/format.h"
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/comparing/sentences.h"

namespace rowproof::rows {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

// Ten chart rows of six plain stitches.
chart::Design Plain(chart::Technique technique, chart::Facing facing) {
  chart::Design design;
  design.technique = technique;
  design.facing = facing;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(10, 6);
  return design;
}

chart::Design TwoFace() { return Plain(chart::Technique::kSpike, chart::Facing::kTwoFace); }

// One row for each head; "turn" behind "turn ".
std::string Text(const std::vector<std::string>& heads) {
  std::string text;
  for (size_t row = 0; row < heads.size(); ++row) {
    const bool turn = heads[row].rfind("turn ", 0) == 0;
    text += fmt::format(
        "Row {}{}: {}{}. (6 sts)\n", row + 1, heads[row].substr(turn ? 5 : 0),
        row == 0 ? "sc in 2nd ch from hook and in each ch across" : "sc in each st across",
        turn ? ", turn" : "");
  }
  return text;
}

// Ten rows, those that are not given with nothing in their head.
std::vector<std::string> Heads(const std::vector<std::string>& first, size_t rows = 10) {
  std::vector<std::string> heads = first;
  heads.resize(rows);
  return heads;
}

std::vector<std::string> LeftOut(const chart::Design& design, const std::string& text) {
  const auto compared = CompareRows(design, text);
  EXPECT_TRUE(compared.ok()) << compared.status();
  if (!compared.ok()) return {};
  EXPECT_TRUE(compared->equal());
  EXPECT_EQ(compared->note_count, static_cast<int64_t>(compared->findings.size()));
  std::vector<std::string> found;
  for (const ComparisonFinding& finding : compared->findings) {
    EXPECT_EQ(finding.severity, chart::Severity::kNote);
    found.push_back(
        fmt::format("{} {}-{}", CodeName(finding.code), finding.rows.front(), finding.rows.back()));
  }
  for (const ComparedRow& row : compared->rows) EXPECT_EQ(row.agreement, Agreement::kAgrees);
  return found;
}

TEST(CompareLabelsLeftOut, SayNothingWhereTwoAlternate) {
  EXPECT_THAT(LeftOut(TwoFace(), Text(Heads({" (RS, A)", " (WS, B)"}))), IsEmpty());
  EXPECT_THAT(LeftOut(TwoFace(), Text(Heads({" (RS, A)", " (WS, B)", "", "", " (RS, A)"}))),
              IsEmpty());
}

TEST(CompareLabelsLeftOut, AreSaidOnceForAllRowsWhereNothingTellsThem) {
  EXPECT_THAT(LeftOut(TwoFace(), Text(Heads({}))),
              ElementsAre("side-left-out 1-10", "colour-left-out 1-10"));
  EXPECT_THAT(LeftOut(TwoFace(), Text(Heads({" (RS, A)"}))),
              ElementsAre("side-left-out 2-10", "colour-left-out 2-10"));
  EXPECT_THAT(LeftOut(TwoFace(), Text(Heads({" (RS)", " (WS)"}))),
              ElementsAre("colour-left-out 1-10"));
}

TEST(CompareLabelsLeftOut, AreSaidForEachRunOfRows) {
  EXPECT_THAT(LeftOut(TwoFace(), Text(Heads({"", "", " (RS)", " (WS)"}))),
              ElementsAre("side-left-out 1-2", "colour-left-out 1-10"));
  EXPECT_THAT(
      LeftOut(TwoFace(), Text({" (A)", "", " (A)", "", " (A)", "", " (A)", "", " (A)", " (B)"})),
      ElementsAre("side-left-out 1-10", "colour-left-out 2-2", "colour-left-out 4-4",
                  "colour-left-out 6-6", "colour-left-out 8-8"));
}

TEST(CompareLabelsLeftOut, AreCertainWhereEveryRowIsARightSideRow) {
  const chart::Design one_face = Plain(chart::Technique::kOverlay, chart::Facing::kOneFace);
  EXPECT_THAT(LeftOut(one_face, Text(Heads({" (RS, A)", " (B)"}))), IsEmpty());
  EXPECT_THAT(LeftOut(one_face, Text(Heads({" (A)", " (B)"}))), ElementsAre("side-left-out 1-10"));
  chart::Design tube = one_face;
  tube.form = chart::Form::kTube;
  std::string rounds = "Rnd 1 (A): sc in each ch around. (6 sts)\nRnd 2 (B): sc around. (6 sts)\n";
  for (int round = 3; round <= 10; ++round) {
    rounds += fmt::format("Rnd {}: sc around. (6 sts)\n", round);
  }
  EXPECT_THAT(LeftOut(tube, rounds), IsEmpty());
}

TEST(CompareLabelsLeftOut, AreToldByTheTurn) {
  const std::vector<std::string> turned(9, "turn ");
  std::vector<std::string> heads = {"turn  (RS, A)", "turn  (B)"};
  heads.insert(heads.end(), 8, "turn ");
  EXPECT_THAT(LeftOut(TwoFace(), Text(heads)), IsEmpty());
  heads[0] = "turn  (A)";
  EXPECT_THAT(LeftOut(TwoFace(), Text(heads)), ElementsAre("side-left-out 1-10"));
}

TEST(CompareLabelsLeftOut, OfPairsAreCertainOnceTwoPairsOfEachHaveShown) {
  chart::Design paired = Plain(chart::Technique::kSpike, chart::Facing::kPaired);
  paired.cells = chart::Grid(12, 6);
  EXPECT_THAT(LeftOut(paired, Text(Heads({" (RS, A)", " (RS, B)"}, 12))),
              ElementsAre("side-left-out 3-12"));
  EXPECT_THAT(LeftOut(paired, Text(Heads({" (RS, A)", " (RS, B)", " (WS)", " (WS)"}, 12))),
              ElementsAre("side-left-out 5-12"));
  EXPECT_THAT(LeftOut(paired, Text(Heads({" (RS, A)", " (RS, B)", " (WS)", " (WS)", " (RS)",
                                          " (RS)", " (WS)", " (WS)"},
                                         12))),
              IsEmpty());
}

TEST(CompareLabelsLeftOut, OfInsetFollowTheRowBelowInItsChartRow) {
  const chart::Design inset = Plain(chart::Technique::kInset, chart::Facing::kTwoFace);
  EXPECT_THAT(LeftOut(inset, Text(Heads({" (RS, A)", " (WS)", " (B)"}, 20))), IsEmpty());
  EXPECT_THAT(LeftOut(inset, Text(Heads({" (RS, A)", " (WS)", " (RS)", " (B)"}, 20))),
              ElementsAre("colour-left-out 3-3"));
}

TEST(CompareLabelsLeftOut, OfRowsThatRepeatOthersAreThose) {
  const std::string text = Text({" (RS, A)", " (WS, B)"}) + "Rows 3-10: rep Rows 1-2.\n";
  const auto compared = CompareRows(TwoFace(), text);
  ASSERT_TRUE(compared.ok());
  for (const ComparisonFinding& finding : compared->findings) {
    EXPECT_NE(finding.code, ComparisonCode::kSideLeftOut);
    EXPECT_NE(finding.code, ComparisonCode::kColourLeftOut);
  }
}

TEST(CompareLabelsLeftOut, OfARowThatIsAtFaultAreThoseOfTheChart) {
  const auto compared =
      CompareRows(TwoFace(), Text({" (RS, A)", " (RS, A)", "", "", "", "", "", "", "", ""}));
  ASSERT_TRUE(compared.ok());
  ASSERT_EQ(compared->findings.size(), 2u);
  EXPECT_EQ(compared->findings[0].code, ComparisonCode::kWrongColour);
  EXPECT_EQ(compared->findings[1].code, ComparisonCode::kWrongSide);
}

TEST(CompareLabelsLeftOut, SayWhatIsMissing) {
  const auto compared = CompareRows(TwoFace(), Text(Heads({" (RS, A)"})));
  ASSERT_TRUE(compared.ok());
  ASSERT_EQ(compared->findings.size(), 2u);
  EXPECT_EQ(Sentence(compared->findings[0], *compared),
            "Rows 2 to 10: name the side, RS or WS; the other rows leave it open.");
  EXPECT_EQ(Sentence(compared->findings[1], *compared),
            "Rows 2 to 10: name the colour; the other rows leave it open.");
  EXPECT_EQ(compared->findings[0].corrected, "Row 2 (WS, B): sc 6. (6 sts)");
}

}  // namespace
}  // namespace rowproof::rows
