// ChartService's methods about a designer's own text.
#include "services/domain/rows/comparing/comparison.h"
#include "tests/rpc/chart_service_fixture.h"

namespace rowproof::rpc {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

class TextMethods : public ChartServiceTest {
 protected:
  v1::TextRows Read(const std::string& text) {
    v1::ReadRowsRequest request;
    request.set_text(text);
    return Ask(&Stub::ReadRows, request);
  }
};

TEST_F(TextMethods, ReadNumbersSideColourStitchesAndCounts) {
  const auto read = Read(
      "Mill Race mat (an invented pattern). US terms. Sizes: S (M).\nColour A: slate\n"
      "Special stitch: ls = drop\n\nFoundation: with A, ch 10 (14).\n\n"
      "Row 1 (RS, slate): sc in 2nd ch from hook and in each ch across. (9 (13) sts)\n"
      "Row 2 (WS, B): sc 2, *ls, sc; rep from * to last st, sc. (9 (13) sts)\n"
      "Rows 3 and 4: rep Rows 1-2\n");
  EXPECT_EQ(read.terms(), v1::TERMS_US);
  EXPECT_TRUE(read.terms_declared());
  EXPECT_THAT(read.sizes(), ElementsAre("S", "M"));
  ASSERT_EQ(read.colour_names_size(), 1);
  EXPECT_EQ(read.colour_names(0).name(), "slate");
  ASSERT_EQ(read.definitions_size(), 1);
  EXPECT_EQ(read.definitions(0).meaning(), v1::STITCH_MEANING_DROP);
  EXPECT_THAT(read.foundation().chains(), ElementsAre(10, 14));
  ASSERT_EQ(read.rows_size(), 3);
  const v1::TextRow& second = read.rows(1);
  EXPECT_EQ(second.numbers(), "2");
  EXPECT_EQ(second.place().line(), 8);
  EXPECT_EQ(second.side(), v1::SIDE_WRONG);
  EXPECT_EQ(second.colour(), v1::COLOUR_B);
  EXPECT_EQ(second.kind(), v1::TEXT_ROW_KIND_STITCHES);
  EXPECT_EQ(second.says(), "sc 2, [drop, sc] to last st, sc");
  ASSERT_EQ(second.stated_size(), 1);
  EXPECT_EQ(second.stated(0).what(), "sts");
  EXPECT_THAT(second.stated(0).counts(), ElementsAre(9, 13));
  ASSERT_EQ(second.counts_size(), 2);
  EXPECT_EQ(second.counts(1).size(), "M");
  EXPECT_EQ(second.counts(1).stitch_count(), 13);
  EXPECT_EQ(read.rows(2).kind(), v1::TEXT_ROW_KIND_REPEAT);
  EXPECT_EQ(read.rows(2).says(), "as Rows 1-2");
  EXPECT_THAT(read.findings(), IsEmpty());
}

TEST_F(TextMethods, ReadWhatCannotBeReadAsFindingsWithTheirPlace) {
  const auto read = Read("Terms: US\nRow 1 (RS, A): sc 2, [ssc, sc.\nRow 2 (WS, B): sc 4.\n");
  EXPECT_EQ(read.error_count(), 1);
  ASSERT_EQ(read.findings_size(), 1);
  EXPECT_EQ(read.findings(0).code(), v1::TEXT_FINDING_CODE_UNREADABLE_ROW);
  EXPECT_EQ(read.findings(0).severity(), v1::SEVERITY_ERROR);
  EXPECT_EQ(read.findings(0).place().line(), 2);
  EXPECT_EQ(read.findings(0).place().column(), 22);
  EXPECT_EQ(read.findings(0).met(), "[");
  ASSERT_EQ(read.rows_size(), 2);
  EXPECT_EQ(read.rows(0).kind(), v1::TEXT_ROW_KIND_UNSPECIFIED);
  EXPECT_EQ(read.rows(0).says(), "");
  EXPECT_EQ(read.rows(1).says(), "sc 4");
}

TEST_F(TextMethods, TakeWhatIsKnownOfATextBesideItsWords) {
  v1::ReadRowsRequest request;
  request.set_text("Row 1 (RS, oatmeal): dc 2 (3), xs.");
  request.set_terms(v1::TERMS_UK);
  request.add_sizes("S");
  request.add_sizes("M");
  auto* name = request.add_colour_names();
  name->set_name("oatmeal");
  name->set_colour(v1::COLOUR_C);
  auto* stitch = request.add_definitions();
  stitch->set_name("xs");
  stitch->set_meaning(v1::STITCH_MEANING_PLAIN);
  const auto read = Ask(&Stub::ReadRows, request);
  EXPECT_THAT(read.findings(), IsEmpty());
  EXPECT_EQ(read.rows(0).colour(), v1::COLOUR_C);
  EXPECT_EQ(read.rows(0).says(), "dc 2 (3), plain");
  EXPECT_EQ(read.rows(0).counts(1).stitch_count(), 4);
}

TEST_F(TextMethods, RefuseATextAndItsSettingsByTheirField) {
  v1::ReadRowsRequest request;
  request.set_text("Row 1: sc\x01.");
  ExpectWrongField(&Stub::ReadRows, request, "text", "a control character at byte 10",
                   "without control characters");
  request.set_text(std::string((4 << 20) + 1, 'a'));
  ExpectWrongField(&Stub::ReadRows, request, "text", "4194305", "4194304");
  request.set_text("Row 1: sc.");
  request.set_terms(static_cast<v1::Terms>(7));
  ExpectWrongField(&Stub::ReadRows, request, "terms", "\"7\"", "US or UK");
  request.clear_terms();
  for (int n = 0; n < 21; ++n) request.add_sizes("S" + std::to_string(n));
  ExpectWrongField(&Stub::ReadRows, request, "sizes", "\"21\"", "at most 20");
  request.clear_sizes();
  for (int n = 0; n < 65; ++n) {
    auto* name = request.add_colour_names();
    name->set_name("oat" + std::to_string(n));
    name->set_colour(v1::COLOUR_A);
  }
  ExpectWrongField(&Stub::ReadRows, request, "colour_names", "\"65\"", "at most 64");
  request.clear_colour_names();
  request.add_colour_names()->set_name("oat");
  ExpectWrongField(&Stub::ReadRows, request, "colour_names[0].colour", "unspecified", "A to H");
  request.mutable_colour_names(0)->set_colour(v1::COLOUR_A);
  request.mutable_colour_names(0)->set_name(std::string(41, 'a'));
  ExpectWrongField(&Stub::ReadRows, request, "colour_names[0].name", "41", "40");
  request.clear_colour_names();
  auto* stitch = request.add_definitions();
  stitch->set_name("xs");
  ExpectWrongField(&Stub::ReadRows, request, "definitions[0].meaning", "\"0\"", "drop or plain");
  stitch->set_meaning(v1::STITCH_MEANING_DROP);
  stitch->set_name("x7");
  ExpectWrongField(&Stub::ReadRows, request, "definitions[0].name", "\"x7\"", "letters");
}

std::string RowsOf(const v1::WrittenRows& written) {
  std::string text;
  for (const auto& row : written.rows()) text += row.text() + '\n';
  return text;
}

class Comparing : public TextMethods {
 protected:
  Comparing() {
    *asked_.mutable_design() = Picture(kMotif);
    asked_.mutable_design()->set_facing(v1::FACING_TWO_FACE);
    v1::WriteRowsRequest writing;
    *writing.mutable_design() = asked_.design();
    writing.mutable_settings()->set_every_row(true);
    asked_.set_text(RowsOf(Ask(&Stub::WriteRows, writing)));
  }
  void Exchange(const std::string& from, const std::string& to) {
    std::string& text = *asked_.mutable_text();
    const size_t at = text.find(from);
    ASSERT_NE(at, std::string::npos) << from << " in\n" << text;
    text.replace(at, from.size(), to);
  }
  v1::TextComparison Compare() { return Ask(&Stub::CompareRows, asked_); }

  v1::CompareRowsRequest asked_;
};

TEST_F(Comparing, SaysThatTheWrittenRowsEqualTheirChart) {
  const auto comparison = Compare();
  EXPECT_TRUE(comparison.equal());
  EXPECT_EQ(comparison.error_count(), 0);
  EXPECT_EQ(comparison.terms(), v1::TERMS_US);
  EXPECT_EQ(comparison.comparison_version(), rows::kComparisonVersion);
  ASSERT_EQ(comparison.rows_size(), 5);
  for (int row = 0; row < 5; ++row) {
    EXPECT_EQ(comparison.rows(row).number(), row + 1);
    EXPECT_EQ(comparison.rows(row).agreement(), v1::ROW_AGREEMENT_AGREES);
    EXPECT_EQ(comparison.rows(row).text(), comparison.rows(row).chart());
  }
}

TEST_F(Comparing, NamesAFaultByRowStitchPlaceBothReadingsAndCorrection) {
  Exchange("Row 3 (RS, A): sc 2, ssc, sc 2.", "Row 3 (RS, A): sc 2, sc, ssc, sc.");
  const auto comparison = Compare();
  EXPECT_FALSE(comparison.equal());
  ASSERT_EQ(comparison.findings_size(), 1) << comparison.ShortDebugString();
  const v1::ComparisonFinding& fault = comparison.findings(0);
  EXPECT_EQ(fault.severity(), v1::SEVERITY_ERROR);
  EXPECT_EQ(fault.code(), v1::COMPARISON_FINDING_CODE_WRONG_STITCH);
  EXPECT_EQ(fault.row(), 3);
  EXPECT_EQ(fault.chart_row(), 3);
  EXPECT_EQ(fault.place().line(), 3);
  EXPECT_EQ(fault.stitch(), 3);
  EXPECT_THAT(fault.sizes(), ElementsAre("one size"));
  EXPECT_THAT(fault.differences(), ElementsAre(2));
  EXPECT_EQ(fault.text_says(), "sc");
  EXPECT_EQ(fault.chart_says(), "ssc");
  EXPECT_THAT(fault.sentence(), testing::HasSubstr("Row 3"));
  EXPECT_THAT(fault.corrected(), testing::HasSubstr("Row 3 (RS, A): sc 2, ssc, sc 2."));
  EXPECT_EQ(comparison.rows(2).agreement(), v1::ROW_AGREEMENT_DIFFERS);
}

TEST_F(Comparing, TellsRowsApartThatAreMissingUnreadAndTooMany) {
  Exchange("Row 3 (RS, A): sc 2, ssc, sc 2.", "Row 3 (RS, A): [sc 2, ssc, sc 2.");
  const size_t row = asked_.text().find("Row 4");
  asked_.mutable_text()->erase(row, asked_.text().find("Row 5") - row);
  *asked_.mutable_text() += "Row 6 (WS, B): sc 5. (5 sts)\n";
  const auto comparison = Compare();
  ASSERT_EQ(comparison.reading_size(), 1);
  EXPECT_EQ(comparison.reading(0).code(), v1::TEXT_FINDING_CODE_UNREADABLE_ROW);
  ASSERT_EQ(comparison.rows_size(), 6);
  EXPECT_EQ(comparison.rows(2).agreement(), v1::ROW_AGREEMENT_NOT_READ);
  EXPECT_EQ(comparison.rows(3).agreement(), v1::ROW_AGREEMENT_MISSING);
  EXPECT_EQ(comparison.rows(3).text(), "");
  EXPECT_EQ(comparison.rows(5).agreement(), v1::ROW_AGREEMENT_TOO_MANY);
  EXPECT_EQ(comparison.rows(5).chart(), "");
  EXPECT_EQ(comparison.rows(5).chart_row(), 0);
}

TEST_F(Comparing, RefusesByField) {
  asked_.set_hand(static_cast<v1::Hand>(3));
  ExpectWrongField(&Stub::CompareRows, asked_, "hand", "\"3\"", "right or left");
  asked_.clear_hand();
  *asked_.mutable_text() += '\x7f';
  ExpectWrongField(&Stub::CompareRows, asked_, "text", "control", "without control characters");
  asked_.clear_design();
  const grpc::Status none = Refusal(&Stub::CompareRows, asked_);
  EXPECT_EQ(none.error_code(), grpc::INVALID_ARGUMENT);
  *asked_.mutable_design() = Picture({"ABA", "BBB", "AAA"});
  asked_.set_text("Row 1: sc 3.");
  EXPECT_EQ(Refusal(&Stub::CompareRows, asked_).error_code(), grpc::FAILED_PRECONDITION);
}

// Deep nesting and large repeats are refused before anything is worked out.
TEST_F(TextMethods, ReadHostileRepeatsAsOneFinding) {
  const auto read = Read("Row 1: [[[sc] 9999 times] 9999 times] 9999 times.\n");
  ASSERT_EQ(read.findings_size(), 1);
  EXPECT_EQ(read.findings(0).code(), v1::TEXT_FINDING_CODE_OVER_LIMIT);
  EXPECT_THAT(read.rows(0).counts(), IsEmpty());
}

}  // namespace
}  // namespace rowproof::rpc
