// Which treatment of the ends goes with which technique, facing and form, and the reason where it
// does not: every combination.
#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/sentences.h"
#include "tests/domain/chart/chart_text.h"

namespace rowproof::chart {
namespace {

using ::testing::HasSubstr;

Design Made(Technique technique, Facing facing, Form form, Ends ends) {
  Design design = Picture({"BBB", "AAA", "BBB", "AAA"});
  design.technique = technique;
  design.facing = facing;
  design.form = form;
  design.ends = ends;
  return design;
}

// "" where the ends fit, else the severity and the sentence of the one finding.
std::string EndsTold(const Design& design) {
  const CheckResult result = Check(design);
  if (result.findings.empty()) return "";
  EXPECT_EQ(result.findings.size(), 1U);
  const Finding& finding = result.findings.front();
  EXPECT_EQ(finding.row, 0);
  EXPECT_FALSE(finding.edit.has_value());
  const bool error = finding.severity == Severity::kError;
  EXPECT_EQ(finding.code, error ? FindingCode::kEndsDoNotFit : FindingCode::kEndsCouldWait);
  return std::string(SeverityName(finding.severity)) + ": " + Sentence(finding, design);
}

struct Case {
  Technique technique;
  Facing facing;
  Form form;
  Ends ends;
  const char* told;  // a part; "" fits
};

TEST(Ends, GoWithTechniqueFacingAndFormOrSayWhyNot) {
  const std::vector<Case> cases = {
      {Technique::kSpike, Facing::kOneFace, Form::kFlat, Ends::kCut, ""},
      {Technique::kSpike, Facing::kOneFace, Form::kFlat, Ends::kCarried,
       "error: Carried ends do not suit flat one-face work: every row ends at the far edge from "
       "where"},
      {Technique::kSpike, Facing::kOneFace, Form::kFlat, Ends::kWaiting,
       "error: Waiting ends do not suit flat one-face work: every row ends at the far edge from "
       "where"},
      {Technique::kSpike, Facing::kTwoFace, Form::kFlat, Ends::kCut, ""},
      {Technique::kSpike, Facing::kTwoFace, Form::kFlat, Ends::kCarried, ""},
      {Technique::kSpike, Facing::kTwoFace, Form::kFlat, Ends::kWaiting,
       "error: Waiting ends do not suit flat two-face work: a waiting yarn lies at one edge, and "
       "its colour's next row starts at the other"},
      {Technique::kSpike, Facing::kPaired, Form::kFlat, Ends::kCut,
       "note: Cut ends leave two tails in every row, but each yarn could wait at the edge for its "
       "next row."},
      {Technique::kSpike, Facing::kPaired, Form::kFlat, Ends::kCarried,
       "error: Carried ends do not suit flat paired work: each yarn already lies at the edge"},
      {Technique::kSpike, Facing::kPaired, Form::kFlat, Ends::kWaiting, ""},
      {Technique::kSpike, Facing::kOneFace, Form::kTube, Ends::kCut,
       "note: Cut ends leave two tails in every row, but each yarn could wait at the join"},
      {Technique::kSpike, Facing::kOneFace, Form::kTube, Ends::kCarried,
       "error: Carried ends do not suit tube spike work: every round ends where its colour's "
       "next round starts"},
      {Technique::kSpike, Facing::kOneFace, Form::kTube, Ends::kWaiting, ""},
      {Technique::kOverlay, Facing::kOneFace, Form::kFlat, Ends::kCut, ""},
      {Technique::kOverlay, Facing::kOneFace, Form::kFlat, Ends::kCarried,
       "error: Carried ends do not suit flat overlay work: every row is a RS row"},
      {Technique::kOverlay, Facing::kOneFace, Form::kFlat, Ends::kWaiting,
       "error: Waiting ends do not suit flat overlay work: every row is a RS row"},
      {Technique::kOverlay, Facing::kOneFace, Form::kTube, Ends::kCut,
       "note: Cut ends leave two tails in every row"},
      {Technique::kOverlay, Facing::kOneFace, Form::kTube, Ends::kCarried,
       "error: Carried ends do not suit tube overlay work"},
      {Technique::kOverlay, Facing::kOneFace, Form::kTube, Ends::kWaiting, ""},
      {Technique::kInset, Facing::kOneFace, Form::kFlat, Ends::kCut,
       "error: Cut ends do not suit flat inset work: both rows of a chart row end where its"},
      {Technique::kInset, Facing::kOneFace, Form::kFlat, Ends::kCarried,
       "error: Carried ends do not suit flat inset work: both yarns lie at the edge where RS rows "
       "start"},
      {Technique::kInset, Facing::kOneFace, Form::kFlat, Ends::kWaiting, ""},
  };
  for (const Case& one : cases) {
    const Design design = Made(one.technique, one.facing, one.form, one.ends);
    ASSERT_TRUE(Validate(design).ok());
    if (one.told[0] == '\0') {
      EXPECT_EQ(EndsTold(design), "");
    } else {
      EXPECT_THAT(EndsTold(design), HasSubstr(one.told));
    }
  }
}

TEST(Ends, DoNotLookAtTheFacingOfATubeOfOverlayOrOfInset) {
  for (const Facing facing : {Facing::kOneFace, Facing::kTwoFace, Facing::kPaired}) {
    EXPECT_EQ(EndsTold(Made(Technique::kSpike, facing, Form::kTube, Ends::kWaiting)), "");
    EXPECT_EQ(EndsTold(Made(Technique::kOverlay, facing, Form::kFlat, Ends::kCut)), "");
    EXPECT_EQ(EndsTold(Made(Technique::kInset, facing, Form::kFlat, Ends::kWaiting)), "");
  }
}

TEST(Ends, OfAnInsetTubeAreNotLookedAtBecauseThereIsNone) {
  const auto status =
      Validate(Made(Technique::kInset, Facing::kOneFace, Form::kTube, Ends::kWaiting));
  EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
  EXPECT_THAT(std::string(status.message()), HasSubstr("inset"));
}

}  // namespace
}  // namespace rowproof::chart
