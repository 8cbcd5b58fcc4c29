#include "services/domain/faults/erratum.h"

#include <string>

#include "gtest/gtest.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "tests/domain/testcalls/sample_reports.h"

namespace rowproof::faults {
namespace {

constexpr int kSizeL = 1;  // 24 rows of 40 stitches

std::string FieldOf(const Erratum& erratum, int size = kSizeL) {
  const auto fields =
      DetailOf(ValidateErratum(erratum, testcalls::SampleDesign(), size, "errata[2]")).fields;
  return fields.empty() ? "" : fields.front().field;
}

TEST(ChartStitch, FollowsTheMakersHandAndTheRowsSide) {
  const chart::Design design = testcalls::SampleDesign();  // two-face: odd rows RS
  // Domain rule: a right-handed RS row and a left-handed WS row are read from stitch 1 on.
  struct Case {
    int row;
    chart::Hand hand;
    int chart_stitch;  // of the maker's third stitch
  };
  for (const Case& c : {Case{7, chart::Hand::kRight, 3}, Case{8, chart::Hand::kRight, 38},
                        Case{7, chart::Hand::kLeft, 38}, Case{8, chart::Hand::kLeft, 3}}) {
    EXPECT_EQ(ChartStitch(design, kSizeL, c.row, 3, CountedFrom::kRowStart, c.hand), c.chart_stitch)
        << c.row;
    EXPECT_EQ(ChartStitch(design, kSizeL, c.row, 3, CountedFrom::kStitchOne, c.hand), 3);
  }
}

TEST(ChartStitch, VisitsEachStitchOnceInWorkingOrder) {
  chart::Design design = testcalls::SampleDesign();
  for (const auto facing :
       {chart::Facing::kOneFace, chart::Facing::kTwoFace, chart::Facing::kPaired}) {
    design.facing = facing;
    for (const auto hand : {chart::Hand::kRight, chart::Hand::kLeft}) {
      for (int row = 1; row <= 24; ++row) {
        const bool from_one = chart::WorkedRowStartsAtStitchOne(design, row, hand);
        for (int n = 1; n <= 40; ++n) {
          // The n-th stitch of a row that is walked stitch by stitch.
          int walked = from_one ? 1 : 40;
          for (int step = 1; step < n; ++step) walked += from_one ? 1 : -1;
          ASSERT_EQ(ChartStitch(design, kSizeL, row, n, CountedFrom::kRowStart, hand), walked);
        }
      }
    }
  }
}

TEST(ChartStitch, IsCountedFromTheOtherEdgeInTheWrongSideRowsOfInset) {
  chart::Design design = testcalls::SampleDesign();
  design.technique = chart::Technique::kInset;
  design.ends = chart::Ends::kWaiting;
  // Worked rows 5 and 6 are both chart row 3.
  EXPECT_EQ(ChartStitch(design, kSizeL, 5, 3, CountedFrom::kRowStart, chart::Hand::kRight), 3);
  EXPECT_EQ(ChartStitch(design, kSizeL, 6, 3, CountedFrom::kRowStart, chart::Hand::kRight), 38);
  EXPECT_EQ(ChartStitch(design, kSizeL, 5, 3, CountedFrom::kRowStart, chart::Hand::kLeft), 38);
  EXPECT_EQ(ChartStitch(design, kSizeL, 6, 3, CountedFrom::kRowStart, chart::Hand::kLeft), 3);
}

TEST(ChartStitch, TurnsARangeRoundWithItsEnds) {
  const Erratum erratum{8,  5,  8, CountedFrom::kRowStart, SeenIn::kText, ErratumKind::kStitch,
                        "", "", ""};
  EXPECT_EQ(ChartStitches(testcalls::SampleDesign(), kSizeL, erratum, chart::Hand::kRight),
            (StitchRange{33, 36}));
  EXPECT_EQ(ChartStitches(testcalls::SampleDesign(), kSizeL, erratum, chart::Hand::kLeft),
            (StitchRange{5, 8}));
  Erratum whole_row = erratum;
  whole_row.first_stitch = whole_row.last_stitch = 0;
  EXPECT_EQ(ChartStitches(testcalls::SampleDesign(), kSizeL, whole_row, chart::Hand::kRight),
            StitchRange{});
}

TEST(ValidateErratum, NamesTheFieldThatIsWrong) {
  Erratum good;
  good.row = 24;
  EXPECT_EQ(FieldOf(good), "");
  good.first_stitch = 40;
  good.last_stitch = 40;
  EXPECT_EQ(FieldOf(good), "");

  Erratum wrong = good;
  wrong.row = 25;
  EXPECT_EQ(FieldOf(wrong), "errata[2].row");
  EXPECT_EQ(FieldOf(good, 0), "errata[2].row");  // size S has 20 rows
  wrong.row = -1;
  EXPECT_EQ(FieldOf(wrong), "errata[2].row");
  wrong = good;
  wrong.last_stitch = 41;
  EXPECT_EQ(FieldOf(wrong), "errata[2].last_stitch");
  wrong.last_stitch = 39;
  EXPECT_EQ(FieldOf(wrong), "errata[2].last_stitch");
  wrong = good;
  wrong.first_stitch = 0;
  EXPECT_EQ(FieldOf(wrong), "errata[2].first_stitch");
  wrong = good;
  wrong.row = 0;
  EXPECT_EQ(FieldOf(wrong), "errata[2].row");
  EXPECT_EQ(FieldOf(Erratum{}), "errata[2].remark");
}

TEST(ValidateErratum, RefusesTextsThatAreNoTexts) {
  Erratum wrong;
  wrong.row = 1;
  wrong.was = std::string(kLongestErratumText + 1, 'x');
  EXPECT_EQ(FieldOf(wrong), "errata[2].was");
  wrong.was = std::string("sc\0 3", 5);
  EXPECT_EQ(FieldOf(wrong), "errata[2].was");
  wrong.was = "";
  wrong.should_be = "two\nlines";
  EXPECT_EQ(FieldOf(wrong), "errata[2].should_be");
  wrong.should_be = "";
  wrong.remark = "\xff";
  EXPECT_EQ(FieldOf(wrong), "errata[2].remark");
}

TEST(ErratumDecision, MayChangeButIsNotMadeTwice) {
  const std::string name = "patterns/p/testCalls/c/errata/e";
  const ErratumDecision open;
  const auto accepted = Accept(open, "", name);
  ASSERT_TRUE(accepted.ok());
  EXPECT_EQ(accepted->state, ErratumState::kAccepted);
  const auto again = Accept(*accepted, "", name);
  EXPECT_EQ(again.status().code(), absl::StatusCode::kFailedPrecondition);
  EXPECT_EQ(DetailOf(again.status()).conditions.front().subject, name);
  const auto declined = Decline(*accepted, "the row is right", name);
  ASSERT_TRUE(declined.ok());
  EXPECT_EQ(declined->note, "the row is right");
  EXPECT_EQ(Reopen(*declined, "asked once more", name)->state, ErratumState::kOpen);
  EXPECT_EQ(Reopen(open, "why", name).status().code(), absl::StatusCode::kFailedPrecondition);
}

TEST(ErratumDecision, NeedsANoteWhereTestersAreContradicted) {
  for (const auto decide : {Decline, Reopen}) {
    const ErratumDecision accepted{ErratumState::kAccepted, ""};
    EXPECT_EQ(DetailOf(decide(accepted, "", "e").status()).fields.front().field, "note");
    EXPECT_EQ(decide(accepted, std::string(kLongestDecisionNote + 1, 'x'), "e").status().code(),
              absl::StatusCode::kInvalidArgument);
  }
}

TEST(Confirmation, ComesFromOthersWhoReachedTheRow) {
  EXPECT_TRUE(MayConfirm({false, 7, 7}, "e").ok());
  EXPECT_TRUE(MayConfirm({false, 0, 0}, "e").ok());
  EXPECT_EQ(DetailOf(MayConfirm({true, 7, 20}, "e")).reason, "OWN_ERRATUM");
  EXPECT_EQ(DetailOf(MayConfirm({false, 8, 7}, "e")).reason, "ROW_NOT_REACHED");
}

TEST(ErratumNames, ReadBack) {
  for (size_t i = 0; i < kErratumKinds; ++i) {
    ErratumKind kind{};
    ASSERT_TRUE(ParseErratumKind(Name(static_cast<ErratumKind>(i)), &kind));
    EXPECT_EQ(kind, static_cast<ErratumKind>(i));
  }
  ErratumKind kind{};
  EXPECT_FALSE(ParseErratumKind("Stitch", &kind));
}

}  // namespace
}  // namespace rowproof::faults
