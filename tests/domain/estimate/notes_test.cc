#include "services/domain/estimate/notes.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "services/domain/estimate/estimate.h"
#include "services/quantities/units.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

// Class 4 through and through: 10 wraps, 160 m in 100 g, a 6 mm hook, 12 stitches in 4 in.
Materials Medium() {
  Materials materials = RoundMaking();
  for (Yarn* yarn : {&materials.yarn_a, &materials.yarn_b}) {
    yarn->weight_class = 4;
    yarn->wraps_per_inch = 10;
    yarn->ball_length_m = 80;
    yarn->ball_mass_g = 50;
  }
  materials.hook_mm = 6;
  materials.gauge.stitches_per_decimetre = 12 * 100 / quantities::kFourInchesMm;
  return materials;
}

std::vector<NoteCode> Codes(const Materials& materials) {
  std::vector<NoteCode> codes;
  for (const Note& note : Notes(TwentyRows(), materials)) codes.push_back(note.code);
  return codes;
}

std::string FirstSentence(const Materials& materials) {
  const auto notes = Notes(TwentyRows(), materials);
  return notes.empty() ? "" : notes.front().sentence;
}

TEST(Notes, AreNoneWhereEverythingFitsTheClass) { EXPECT_THAT(Codes(Medium()), IsEmpty()); }

// Craft Yarn Council: class 4 has 9 to 12 wraps, hooks of 5.5 to 6.5 mm, 11 to 14 single crochet in
// 4 in; 120 to 200 m in 100 g are common practice. The ends of a range are inside it.
TEST(Notes, NameWhatLiesOutsideTheClass) {
  Materials materials = Medium();
  materials.yarn_a.wraps_per_inch = 12.5;
  EXPECT_THAT(Codes(materials), ElementsAre(NoteCode::kWrapsOutsideClass));
  EXPECT_THAT(FirstSentence(materials), HasSubstr("Yarn A, weight class 4 (Medium): 12.5 wraps"));
  EXPECT_THAT(FirstSentence(materials), HasSubstr("9 to 12"));
  materials.yarn_a.wraps_per_inch = 12;
  EXPECT_THAT(Codes(materials), IsEmpty());
  materials = Medium();
  materials.yarn_b.ball_length_m = 50;
  EXPECT_THAT(Codes(materials), ElementsAre(NoteCode::kBandOutsideClass));
  EXPECT_THAT(FirstSentence(materials), HasSubstr("Yarn B"));
  EXPECT_THAT(FirstSentence(materials), HasSubstr("100 m in 100 g"));
  materials = Medium();
  materials.hook_mm = 5;
  EXPECT_THAT(Codes(materials),
              ElementsAre(NoteCode::kHookOutsideClass, NoteCode::kHookOutsideClass));
  EXPECT_THAT(FirstSentence(materials), HasSubstr("one or two sizes smaller"));
  materials.hook_mm = 7;
  EXPECT_THAT(FirstSentence(materials), Not(HasSubstr("smaller")));
  materials = Medium();
  materials.gauge.stitches_per_decimetre = 15 * 100 / quantities::kFourInchesMm;
  EXPECT_THAT(Codes(materials),
              ElementsAre(NoteCode::kGaugeOutsideClass, NoteCode::kGaugeOutsideClass));
  EXPECT_THAT(FirstSentence(materials), HasSubstr("15.0 stitches in 4 in is unusual"));
}

// Class 0 is stated in double crochet and open above; class 7 has no heaviest hook.
TEST(Notes, TakeTheOpenEndsOfTheTableAsOpen) {
  Materials materials = Medium();
  for (Yarn* yarn : {&materials.yarn_a, &materials.yarn_b}) {
    yarn->weight_class = 0;
    yarn->wraps_per_inch = 60;
    yarn->ball_length_m = 700;
    yarn->ball_mass_g = 100;
  }
  materials.hook_mm = 2;
  EXPECT_THAT(Codes(materials), IsEmpty());
  for (Yarn* yarn : {&materials.yarn_a, &materials.yarn_b}) {
    yarn->weight_class = 7;
    yarn->wraps_per_inch = 2;
    yarn->ball_length_m = 30;
  }
  materials.hook_mm = 25;
  materials.gauge.stitches_per_decimetre = 3;
  EXPECT_THAT(Codes(materials), IsEmpty());
}

TEST(Notes, NeverStopAnEstimateAndStandInIt) {
  Materials materials = Medium();
  materials.hook_mm = 2;
  materials.gauge_is_of_another_fabric = true;
  const auto sizes = EstimateSizes(TwentyRows(), materials);
  ASSERT_TRUE(sizes.ok());
  EXPECT_EQ(sizes->front().notes, Notes(TwentyRows(), materials));
  EXPECT_THAT(Codes(materials), Contains(NoteCode::kGaugeOfAnotherFabric));
}

TEST(Notes, SayWhereTheMakersWayWithTheEndsDoesNotFit) {
  Materials materials = Medium();
  materials.ends = chart::Ends::kWaiting;  // spike two-face, cut or carried
  EXPECT_THAT(Codes(materials), ElementsAre(NoteCode::kEndsDoNotFit));
  EXPECT_THAT(FirstSentence(materials), HasSubstr("waiting"));
  materials.ends = chart::Ends::kCarried;
  EXPECT_THAT(Codes(materials), IsEmpty());
}

TEST(Notes, SayWhereTheMaterialsFoundationContradictsTheCharts) {
  chart::Design design = TwentyRows();
  design.foundation_colour = chart::Colour::kB;
  Materials materials = Medium();
  EXPECT_THAT(Notes(design, materials), IsEmpty());
  materials.foundation.colour = chart::Colour::kA;
  ASSERT_EQ(Notes(design, materials).size(), 1u);
  EXPECT_EQ(Notes(design, materials).front().code, NoteCode::kFoundationContradicted);
}

TEST(Notes, LeaveAloneYarnsThatNothingIsMadeOf) {
  Materials materials = Medium();
  materials.more_yarns = {materials.yarn_a};
  materials.more_yarns[0].wraps_per_inch = 40;
  EXPECT_THAT(Codes(materials), IsEmpty());
}

// TwentyRows is spike, two-face, with cut ends; Medium is of class 4.
TEST(Notes, HoldTheFabricAgainstWhatTheCalibrationWasMeasuredIn) {
  Materials materials = Medium();
  materials.calibration_scope =
      CalibrationScope{chart::Technique::kSpike, chart::Facing::kTwoFace, chart::Ends::kCut, 4};
  EXPECT_THAT(Codes(materials), IsEmpty());
  materials.calibration_scope->facing.reset();  // not said: nothing to hold against
  EXPECT_THAT(Codes(materials), IsEmpty());
  materials.calibration_scope->technique = chart::Technique::kOverlay;
  EXPECT_THAT(Codes(materials), ElementsAre(NoteCode::kCalibrationOfAnotherFabric));
  EXPECT_THAT(FirstSentence(materials), HasSubstr("another fabric (overlay, not spike)"));
  materials.calibration_scope->facing = chart::Facing::kOneFace;
  EXPECT_THAT(FirstSentence(materials),
              HasSubstr("another fabric (overlay, one-face, not spike, two-"));
  materials.calibration_scope = CalibrationScope();
  materials.calibration_scope->ends = chart::Ends::kCut;
  EXPECT_THAT(Codes(materials), IsEmpty());
  materials.ends = chart::Ends::kCarried;  // the maker's own way counts
  EXPECT_THAT(Codes(materials), ElementsAre(NoteCode::kCalibrationOfAnotherFabric));
  EXPECT_THAT(FirstSentence(materials), HasSubstr("another fabric (ends cut, not ends carried)"));
}

TEST(Notes, HoldEachYarnAgainstTheCalibrationsClass) {
  Materials materials = Medium();
  materials.calibration_scope = CalibrationScope();
  materials.calibration_scope->weight_class = 5;
  EXPECT_THAT(Codes(materials), ElementsAre(NoteCode::kCalibrationOfAnotherClass,
                                            NoteCode::kCalibrationOfAnotherClass));
  EXPECT_THAT(FirstSentence(materials),
              HasSubstr("Yarn A has weight class 4, but the calibration was measured in weight "
                        "class 5 (Bulky)"));
  // Without a class the wraps decide: class 4 has 9 to 12, class 5 6 to 9.
  materials.yarn_a.weight_class.reset();
  materials.yarn_b.weight_class.reset();
  EXPECT_THAT(FirstSentence(materials), HasSubstr("Yarn A has 10 wraps per inch"));
  materials.calibration_scope->weight_class = 4;
  EXPECT_THAT(Codes(materials), IsEmpty());
}

}  // namespace
}  // namespace rowproof::estimate
