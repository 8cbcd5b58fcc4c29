// Text that cannot be read: one finding a row, at the line and column, with what would fit; and the
// rows around it are read all the same.

#include "fmt/format.h"
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/rows/text_rows.h"
#include "tests/domain/rows/read_stitches.h"

namespace rowproof::rows {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

struct Fault {
  const char* row;  // the second of three lines
  TextFindingCode code;
  int column;
  const char* met;
};

constexpr auto kUnreadable = TextFindingCode::kUnreadable;
constexpr auto kTwoReadings = TextFindingCode::kTwoReadings;
constexpr auto kTooMuch = TextFindingCode::kTooMuch;

TEST(ReadFaults, NameLineColumnAndWhatWasMet) {
  const Fault faults[] = {
      {"Row 2: sc 3, sx, sc 2.", kUnreadable, 14, "sx"},
      {"Row 2: sc 4, [sx, sc 2] 9 times.", kUnreadable, 15, "sx"},
      {"Row 2: sc 4, [ssc, sc 2], sc 3.", kUnreadable, 25, ","},
      {"Row 2: sc 4, [ssc, sc 2] 9, sc 3.", kUnreadable, 26, "9"},
      {"Row 2: sc 4, [ssc, sc 2 9 times.", kUnreadable, 14, "["},
      {"Row 2: sc 4, ssc, sc 2] 9 times.", kUnreadable, 23, "]"},
      {"Row 2: sc 4, [ssc, sc 2) 9 times.", kUnreadable, 14, "["},
      {"Row 2: sc 3 ssc 2.", kUnreadable, 13, "ssc"},
      {"Row 2: sc 3, 5, ssc.", kUnreadable, 14, "5"},
      {"Row 2: sc 3, *ssc, sc 3.", kUnreadable, 25, ""},
      {"Row 2: sc 3, *ssc; rep from ** across.", kUnreadable, 29, "**"},
      {"Row 2: sc 3, *ssc; rep from *, sc.", kUnreadable, 32, "sc"},
      {"Row 2: sc 3, ssc; rep from * across.", kUnreadable, 19, "rep"},
      {"Row 2: *ssc, sc; rep from * 3 times.", kTwoReadings, 29, "3"},
      {"Row 2: *ssc, sc; rep from * twice.", kTwoReadings, 29, "twice"},
      {"Row 2: [ssc, sc] 3 more times.", kTwoReadings, 18, "3"},
      {"Row 2: 3 sc in next st.", kTwoReadings, 10, "sc"},
      {"Row 2: 2 sc in next 3 sts.", kTwoReadings, 10, "sc"},
      {"Row 2: sc 3 in each st across.", kTwoReadings, 8, "sc"},
      {"Row 2: (sc, ssc) in next st.", kUnreadable, 18, "in"},
      {"Row 2: sc 3, sc in same st.", kUnreadable, 20, "same"},
      {"Row 2: sc in ch-3 sp.", kUnreadable, 14, "ch"},
      {"Row 2: [sc in each st across] 3 times.", kUnreadable, 8, "["},
      {"Row 2: [[ssc, sc] to last 2 sts] across.", kUnreadable, 8, "["},
      {"Row 2: [ch 3] across.", kUnreadable, 8, "["},
      {"Row 2: sc, [ch 3] across.", kUnreadable, 12, "["},
      {"Row 2: ch 1 (counts as a st), sc 3.", kUnreadable, 14, "counts"},
      {"Row 2: ch 2, sc 3.", kTwoReadings, 8, "ch"},
      {"Row 2: sc 3. (3 sts) sc 2.", kUnreadable, 22, "sc"},
      {"Row 2: sc 3, with B, sc 2.", kUnreadable, 14, "with"},
      {"Row 2: sc 3, standing sc.", kUnreadable, 14, "standing"},
      {"Row 2: sc 3, ssc. 4 sc.", kTwoReadings, 19, "4"},
      {"Row 2: .", kUnreadable, 9, ""},
      {"Row 2 sc 3.", kUnreadable, 7, "sc"},
      {"Row 2 (RS, A): with B, sc 3.", TextFindingCode::kContradiction, 16, "with"},
      {"Row 2 (RS, A): side B, sc 3.", TextFindingCode::kContradiction, 16, "side"},
      {"Row 2 (RS, puce): sc 3.", TextFindingCode::kUnknownColour, 12, "puce"},
      {"Row 2: with puce, sc 3.", TextFindingCode::kUnknownColour, 13, "puce"},
      {"Row 2: sc 3 (5, 7).", TextFindingCode::kWrongList, 11, "3"},
      {"Row 2 (3, 4): sc 3.", TextFindingCode::kWrongList, 5, "2"},
      {"Row 2: sc 3 (5).", TextFindingCode::kWrongList, 11, "3"},
      {"Rows 2-100000: sc 3.", kTooMuch, 8, "100000"},
      {"Rows 2-99999: sc 3.", kTooMuch, 6, "2"},
      {"Rows 9-2: sc 3.", kUnreadable, 6, "9"},
      {"Row 2: sc 5000.", kTooMuch, 1, "Row"},
      {"Row 2: sc 999999999999999999999.", kTooMuch, 11, "999999999999999999999"},
      {"Row 2: sk 0 ch-sps.", kUnreadable, 11, "0"},
      {"Rows 2-9: rep Row 1 twice.", TextFindingCode::kRowsDoNotAddUp, 1, "8 rows"},
      {"Rows 2-4: rep Rows 1-1 twice.", TextFindingCode::kRowsDoNotAddUp, 1, "3 rows"},
      {"Row 2: rep Row 7.", TextFindingCode::kUnknownSource, 1, "Row 7"},
      {"Row 2: as Row 2.", TextFindingCode::kUnknownSource, 1, "Row 2"},
      {"Next row: sc 3.", kUnreadable, 1, "Next"},
      {"\xe2\x80\xa2\xc2\xa0Row 2: sc\xc2\xa0"
       "3, \xe2\x80\x9csx\xe2\x80\x9d.",
       kUnreadable, 16, "\xe2\x80\x9c"},
  };
  for (const Fault& fault : faults) {
    const auto document = ReadRows(fmt::format("Row 1: sc 9.\n{}\nRow 3: ssc 9.\n", fault.row));
    ASSERT_TRUE(document.ok());
    ASSERT_EQ(document->findings.size(), 1u) << fault.row;
    const TextFinding& finding = document->findings[0];
    EXPECT_EQ(finding.code, fault.code) << fault.row << "\n" << Sentence(finding);
    EXPECT_EQ(finding.severity, chart::Severity::kError);
    EXPECT_EQ(finding.at, (TextPlace{2, fault.column})) << fault.row << "\n" << Sentence(finding);
    EXPECT_EQ(finding.met, fault.met) << fault.row << "\n" << Sentence(finding);
    EXPECT_FALSE(finding.fits.empty());
    // The rows around it are read.
    ASSERT_EQ(document->rows.size(), 3u) << fault.row;
    EXPECT_EQ(document->rows[0].body, TextRow::Body::kSteps);
    EXPECT_EQ(document->rows[2].body, TextRow::Body::kSteps);
    EXPECT_EQ(finding.row, 1);
  }
}

TEST(ReadFaults, PointIntoTheLineThatARowGoesOnIn) {
  const auto document = ReadRows("Row 1: sc 9,\n  ssc,\n  sx 2.\n\nRow 2: sc.");
  ASSERT_TRUE(document.ok());
  ASSERT_EQ(document->findings.size(), 1u);
  EXPECT_EQ(document->findings[0].at, (TextPlace{3, 3}));
  EXPECT_EQ(document->rows.size(), 2u);
}

TEST(ReadFaults, AreSaidInOneSentence) {
  EXPECT_THAT(
      Faults("Row 1: sc 3, sx."),
      ElementsAre("Line 1, column 14: expected a stitch, a bracket, an asterisk or the row's "
                  "end, found \"sx\"."));
  EXPECT_THAT(Faults("Row 1: sc 3.\nWork loosely.\nRow 2: sc 3."),
              ElementsAre("Line 2, column 1: \"Work loosely.\" is not a row; it was ignored."));
}

TEST(ReadFaults, DoNotIncludeProseAroundTheRows) {
  EXPECT_THAT(Faults("A mat (an invented pattern)\nRows are numbered from the bottom.\n"
                     "Row 1 is a RS row.\nGauge: 14 sts in 10 cm.\n\nRow 1: sc 3.\n\nBlock it.\n"),
              IsEmpty());
}

TEST(ReadFaults, OfTermsAreOneForTheText) {
  EXPECT_THAT(Faults("Row 2: dc 3, tr.\nRow 3: tr 4.\nRow 4: dc 4."),
              ElementsAre(testing::StartsWith("Line 1, column 8: expected ")));
  // A word that only the other system has is read as what it says, with a warning.
  ReaderSettings uk;
  uk.terms = chart::Terms::kUk;
  const auto document = ReadRows("Row 2: dc 3, ssc.", uk);
  ASSERT_TRUE(document.ok());
  EXPECT_TRUE(document->complete());
  ASSERT_EQ(document->findings.size(), 1u);
  EXPECT_EQ(document->findings[0].code, TextFindingCode::kMixedTerms);
  EXPECT_EQ(document->findings[0].at, (TextPlace{1, 14}));
  EXPECT_EQ(Shown(ExpandSteps(document->rows[0].steps, 0, {4, {}}).runs), "...x");
  // Both systems and no declaration: what dc means is not certain.
  const auto both = ReadRows("Row 2: sc 3.\nRow 3: dc 3.\nRow 4: htr 3.\n");
  ASSERT_TRUE(both.ok());
  EXPECT_FALSE(both->terms.has_value());
  EXPECT_EQ(both->rows[0].body, TextRow::Body::kSteps);
  EXPECT_EQ(both->rows[1].body, TextRow::Body::kUnread);
  EXPECT_EQ(both->rows[2].body, TextRow::Body::kSteps);
  EXPECT_EQ(both->error_count, 1);
  // The text says other terms than were declared beside it.
  EXPECT_THAT(Faults("Terms: US.\nRow 2: dc 3.", uk),
              ElementsAre(testing::StartsWith(
                  "Line 1, column 1: expected the terms declared with the text")));
}

TEST(ReadFaults, OfAnUnknownSizeLeaveItsRowsOut) {
  const ReaderSettings settings{.terms = {}, .sizes = {"S", "M"}, .colours = {}, .definitions = {}};
  const auto document = ReadRows("Size XS:\nRow 1: sc 3.\nAll sizes:\nRow 2: sc 3.", settings);
  ASSERT_TRUE(document.ok());
  ASSERT_EQ(document->findings.size(), 1u);
  EXPECT_EQ(document->findings[0].code, TextFindingCode::kUnknownSize);
  EXPECT_EQ(RowsOfSize(*document, 0).size(), 1u);
}

TEST(ReadLimits, RefuseNestedCountsAtOnce) {
  // That it ends is what is tested: worked out, each of these would take hours or all memory.
  EXPECT_THAT(Faults("Row 1: [[[ssc, sc] 9999 times] 9999 times] 9999 times."),
              ElementsAre("Line 1, column 1: expected a row of at most 4000 stitches, found "
                          "\"Row\"."));
  EXPECT_THAT(Faults("Row 1: [[[ch 3, sk 1] 9999 times] 9999 times] 9999 times."),
              ElementsAre(testing::HasSubstr("at most 4000 stitches")));
  // Nothing, very often: it takes no time either.
  EXPECT_EQ(ReadBody("[[[sc 0] 9999 times] 9999 times] 9999 times, ssc"), "x");
  EXPECT_EQ(ReadBody("[[[sc 5] 9999 times] 9999 times] 0 times, ssc"), "x");
  // Twelve levels are read, thirteen are not, whatever they hold.
  const auto nested = [](int levels) {
    std::string text = "sc";
    for (int i = 0; i < levels; ++i) text = "[" + text + "] 2 times";
    return text;
  };
  EXPECT_THAT(Faults("Row 1: " + nested(11)), IsEmpty());
  EXPECT_THAT(Faults("Row 1: " + nested(12)),
              ElementsAre(testing::HasSubstr("at most 4000 stitches")));
  EXPECT_THAT(Faults("Row 1: " + nested(13)),
              ElementsAre(testing::HasSubstr("at most 12 repeats within each other")));
  EXPECT_THAT(Faults("Row 1: " + std::string(200'000, '[')),
              ElementsAre(testing::HasSubstr("a bracket that is closed")));
  EXPECT_THAT(Faults("Row 1: " + std::string(200'000, '*') + "sc"), testing::SizeIs(1));
  EXPECT_THAT(Faults("Row 1: " + std::string(3'000'000, '[')),
              ElementsAre(testing::HasSubstr("a row of at most 262144 bytes")));
  EXPECT_THAT(Faults("Row 1: sc.\n\n" + std::string(3'000'000, '[') + "\nRow 2: sc."),
              ElementsAre(testing::HasSubstr("is not a row; it was ignored")));
}

TEST(ReadLimits, HoldForRepeatsToTheEnd) {
  const auto expand = [](std::string_view body) {
    const auto document = ReadRows(fmt::format("Row 2: {}", body));
    EXPECT_TRUE(document->complete());
    return ExpandSteps(document->rows[0].steps, 0, {2'000'000'000, {}}).fit;
  };
  EXPECT_EQ(expand("sc in each st across."), ExpandedText::Fit::kTooMuch);
  EXPECT_EQ(expand("[ssc, sc] across."), ExpandedText::Fit::kTooMuch);
  EXPECT_EQ(expand("[sc 0, ssc] across."), ExpandedText::Fit::kTooMuch);
}

TEST(ReadLimits, HoldForTheWholeText) {
  const auto status = [](std::string_view text) { return ReadRows(text).status(); };
  EXPECT_EQ(status(std::string(kLongestText + 1, ' ')).code(), absl::StatusCode::kInvalidArgument);
  EXPECT_TRUE(status(std::string(kLongestText, ' ')).ok());
  EXPECT_EQ(status("Row 1: sc\x01").code(), absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(status(std::string_view("Row 1: sc\0", 10)).code(), absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(status("Row 1: \xff").code(), absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(status("Row 1: \xc2\x85").code(), absl::StatusCode::kInvalidArgument);
  EXPECT_TRUE(status("Row 1: sc.\r\n\tRow 2: sc.\f").ok());
  std::string rows;
  for (int i = 0; i < kMostTextRows + 5; ++i) rows += "Row 1: sx\n";
  const auto document = ReadRows(rows);
  ASSERT_TRUE(document.ok());
  EXPECT_EQ(document->findings.size(), static_cast<size_t>(kMostTextFindings));
  EXPECT_EQ(document->error_count, kMostTextRows + 1);
  std::string repeats = "Row 1: sc.\n";
  for (int i = 0; i < 1000; ++i) repeats += "Rows 2-4001: rep Row 1.\n";
  const auto many = ReadRows(repeats);
  ASSERT_TRUE(many.ok());
  EXPECT_LE(RowsOfSize(*many, 0).size(), 2u * chart::kMostRows);
}

TEST(ReadTypography, IsUndone) {
  // Each line is the same row.
  const char* rows[] = {
      "Row 7 (RS, A): sc 3, [ssc, sc 3] 2 times, sc 2. (13 sts)",
      "Row\xc2\xa0"
      "7 (RS, A): sc\xc2\xa0"
      "3, [ssc, sc\xe2\x80\xaf"
      "3] 2\xc2\xa0times, sc 2. (13 sts)",
      "Row 7 (RS, A): sc 3, [ssc, sc 3] \xc3\x97 2, sc 2. (13 sts)",
      "Row 7 (RS, A): sc 3, [ssc, sc 3] \xc3\x97"
      "2, sc 2 \xe2\x80\x93 13 sts",
      "Row 7 (RS, A): sc 3, [ssc, sc 3] 2\xc3\x97, sc 2 \xe2\x80\x94 13 sts",
      "Row 7 (RS, A): sc 3, [ssc, sc 3] x 2, sc 2. (13 sts)",
      "Row 7 \xe2\x80\x93 RS, A: sc 3, [ssc, sc 3] 2 times, sc 2. (13 sts)",
      "Row 7 (RS, A): sc 3, \xe2\x88\x97ssc, sc 3; rep from \xe2\x88\x97 once more, sc 2. (13 sts)",
      "Row 7 (RS, A): sc\xc2\xad 3, [ssc, s\xe2\x80\x8b"
      "c 3] 2 times, sc 2. (13 sts)",
      "\tRow 7\t(RS, A):\tsc 3, [ssc, sc 3] 2 times, sc 2. (13 sts)\r",
      "Row 7 (RS, A): sc 3, [ssc, sc 3] 2 times, sc 2. (13 sts; don\xe2\x80\x99t turn yet)",
  };
  for (const char* text : rows) {
    const auto document = ReadRows(text);
    ASSERT_TRUE(document.ok());
    ASSERT_TRUE(document->findings.empty()) << text << Sentence(document->findings[0]);
    ASSERT_EQ(document->rows.size(), 1u);
    EXPECT_EQ(Shown(ExpandSteps(document->rows[0].steps, 0, {13, {}}).runs), "...x...x.....");
    EXPECT_EQ(document->rows[0].colour, chart::Colour::kA) << text;
    EXPECT_EQ(document->rows[0].side, chart::Side::kRightSide) << text;
    EXPECT_EQ(document->rows[0].numbers[0].first.Of(0), 7) << text;
  }
}

}  // namespace
}  // namespace rowproof::rows
