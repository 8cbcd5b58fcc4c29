// Charts given in the wrong convention, or with their colours exchanged, are recognised where that
// is certain, and the reading that is offered can be worked.
#include "services/domain/chart/check/other_reading.h"

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/chart/expand.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/told_findings.h"

namespace rowproof::chart {
namespace {

using ::testing::HasSubstr;

const std::vector<std::string> kLetterF = {"AAAAAAAA", "BBBBBBBB", "AAAAAAAA",
                                           "BAAAAABB", "AAAAAAAA", "BAAABBBB",
                                           "AAAAAAAA", "BABBBBBB", "AAAAAAAA"};

// The reading that is offered, if any.
std::optional<FindingCode> Offered(const Design& design) {
  for (const Finding& finding : Check(design).findings) {
    for (const FindingCode reading : kOtherReadings) {
      if (finding.code != reading) continue;
      EXPECT_EQ(finding.severity, Severity::kNote);
      EXPECT_EQ(finding.row, 0);
      EXPECT_TRUE(Check(InReading(design, reading)).workable());
      return reading;
    }
  }
  return std::nullopt;
}

TEST(OtherReading, OfAPictureGivenAsAWorkingChartIsAPicture) {
  const Design design = Working(kLetterF);
  EXPECT_EQ(Offered(design), FindingCode::kOtherConvention);
  EXPECT_EQ(InReading(design, FindingCode::kOtherConvention), Picture(kLetterF));
}

TEST(OtherReading, OfAWorkingChartGivenAsAPictureIsAWorkingChart) {
  Design design = Picture({"........", ".xxxxx..", "........", ".xxx....", "........", ".x......",
                           "........", "........"});
  EXPECT_EQ(Offered(design), FindingCode::kOtherConvention);
  EXPECT_EQ(InReading(design, FindingCode::kOtherConvention).convention, Convention::kWorking);
}

TEST(OtherReading, OfAWorkingChartIsSeenInAMotifOnAWidePlainGround) {
  // Three stitches of ten have drops, all of them fail in a picture, and the plain ones never do.
  const Design design = Picture({"..........", "..........", ".x.x.x....", "..........",
                                 ".x.x.x....", "..........", ".........."});
  EXPECT_EQ(Offered(design), FindingCode::kOtherConvention);
  EXPECT_THAT(Sentence(Check(design).findings.back(), design),
              HasSubstr("at least half of its stitches or marks cannot be worked"));
  // Two say too little.
  EXPECT_EQ(Offered(Picture({"..........", "..........", ".x.x......", "..........", ".x.x......",
                             "..........", ".........."})),
            std::nullopt);
}

TEST(OtherReading, OfMarksOneRowTooHighIsAWorkingChart) {
  // The last row's drops, given as the off-colour cells of a picture: uncovered-top-row everywhere.
  const Design drops = Working({"xxxx.", ".....", ".xx..", ".....", "....."});
  Design design = Picture({"BBBBA", "BBBBB", "ABBAA", "BBBBB", "AAAAA"});
  EXPECT_EQ(Offered(design), FindingCode::kMarksOfOtherConvention);
  EXPECT_EQ(InReading(design, FindingCode::kMarksOfOtherConvention).cells, drops.cells);
  EXPECT_THAT(Sentence(Check(design).findings.back(), design),
              HasSubstr("one row too high for a picture"));
}

TEST(OtherReading, OfMarksOneRowTooLowIsAPicture) {
  // Off-colour cells of row 2, given as drops: no-anchor everywhere.
  const Design design = Working({".....", ".....", ".xxx.", "....."});
  EXPECT_EQ(Offered(design), FindingCode::kMarksOfOtherConvention);
  const Design read = InReading(design, FindingCode::kMarksOfOtherConvention);
  EXPECT_EQ(Expand(read, 0).drops, FromText({".....", ".xxx.", ".....", "....."}));
}

TEST(OtherReading, OfABlackFirstRowIsThePictureWithItsColoursExchanged) {
  Design design = Picture(kLetterF);
  for (int row = 1; row <= design.cells.rows(); ++row) {
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      design.cells.set(row, stitch, !design.cells.at(row, stitch));
    }
  }
  EXPECT_EQ(Offered(design), FindingCode::kColoursSwapped);
  EXPECT_EQ(InReading(design, FindingCode::kColoursSwapped), Picture(kLetterF));
}

TEST(OtherReading, IsNotOfferedForSlips) {
  EXPECT_EQ(Offered(Picture(kLetterF)), std::nullopt);
  // Three of eight stitches fail in row 2, and one row up they would not.
  EXPECT_EQ(Offered(Working({"........", "........", ".xxx....", "........"})), std::nullopt);
  EXPECT_EQ(Offered(Working({"........", "........", ".xxxx...", "........"})),
            FindingCode::kMarksOfOtherConvention);
}

TEST(OtherReading, IsNotOfferedWhereItCannotBeWorkedEither) {
  // Drops in row 2 all over, and two above each other.
  EXPECT_EQ(
      Offered(Working({"........", ".x......", ".x......", "........", ".xxxxxx.", "........"})),
      std::nullopt);
}

TEST(OtherReading, IsNotOfferedForATinyChartOrForMoreThanTwoColours) {
  EXPECT_EQ(Offered(Working({"..", "..", "xx", ".."})), std::nullopt);
  Design design = Working({"...", "...", "xxx", "..."});
  EXPECT_EQ(Offered(design), FindingCode::kMarksOfOtherConvention);
  design.row_colours = {Colour::kA, Colour::kB, Colour::kC, Colour::kB};
  EXPECT_EQ(Offered(design), std::nullopt);
}

TEST(OtherReading, StandsBeforeTheOtherNotes) {
  Design design = Working(kLetterF);
  design.form = Form::kTube;
  const auto told = Told(design);
  ASSERT_GE(told.size(), 2U);
  EXPECT_EQ(told[told.size() - 2], "note ends-could-wait 0,0");
  EXPECT_EQ(told.back(), "note other-convention 0,0");
}

}  // namespace
}  // namespace rowproof::chart
