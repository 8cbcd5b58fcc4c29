#include "services/domain/testcalls/slips/slips.h"

#include <cmath>
#include <functional>
#include <random>
#include <string>
#include <vector>

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/testcalls/report_validation.h"
#include "tests/domain/testcalls/sample_reports.h"

namespace rowproof::testcalls {
namespace {

using testing::ElementsAre;
using testing::Pair;

// What the estimate might expect of the report below.
Expected SampleExpected() {
  Expected expected;
  expected.colours = {{estimate::YarnColour::kA, 150, 150, 125, 50, {}},
                      {estimate::YarnColour::kB, 90, 90, 125, 50, {}}};
  expected.width_mm = 900;
  expected.height_mm = 1200;
  expected.stitches_per_decimetre = 14;
  expected.rows_per_decimetre = 20;
  expected.hook_mm = 4.5;
  expected.minutes = 1800;
  expected.rows = 24;
  return expected;
}

// A finished piece that agrees with what is expected.
Report SoundReport() {
  Report report;
  report.size = "L";
  report.version = 1;
  YarnUse a;
  a.length_m = 150;
  YarnUse b;
  b.colour = estimate::YarnColour::kB;
  b.length_m = 90;
  report.yarn = {a, b};
  report.hook_mm = 4.5;
  report.gauge_before = {{14, 20, 100, 100, 1}};
  report.width_before_mm = 900;
  report.height_before_mm = 1200;
  report.minutes = 1800;
  report.last_row = 24;
  report.finished = true;
  return report;
}

std::vector<std::pair<std::string, std::string>> SlipsAfter(
    const std::function<void(Report&)>& change) {
  Report report = SoundReport();
  change(report);
  const Report before = report;
  EXPECT_TRUE(Validate(report, SampleDesign(), {}).ok()) << Validate(report, SampleDesign(), {});
  std::vector<std::pair<std::string, std::string>> slips;
  for (const Slip& slip : FindSlips(report, SampleExpected())) {
    slips.emplace_back(CodeName(slip.code), slip.field);
    EXPECT_FALSE(slip.sentence.empty());
  }
  EXPECT_EQ(report, before);
  return slips;
}

std::optional<double> SuggestedAfter(const std::function<void(Report&)>& change) {
  Report report = SoundReport();
  change(report);
  const auto slips = FindSlips(report, SampleExpected());
  return slips.empty() ? std::nullopt : slips.front().suggested;
}

TEST(Slips, AskNothingOfASoundReport) {
  EXPECT_THAT(SlipsAfter([](Report&) {}), ElementsAre());
}

TEST(Slips, AskForInchesWrittenAsCentimetresAndBack) {
  // 900 mm are 35.4 in; written as 35.4 cm they are 354 mm.
  const auto inches = [](Report& r) { r.width_before_mm = 354; };
  EXPECT_THAT(SlipsAfter(inches), ElementsAre(Pair("inches-as-centimetres", "width_before_mm")));
  EXPECT_NEAR(*SuggestedAfter(inches), 899.16, 0.01);
  const auto centimetres = [](Report& r) { r.height_after_mm = 120 * 25.4; };
  EXPECT_THAT(SlipsAfter(centimetres),
              ElementsAre(Pair("centimetres-as-inches", "height_after_mm")));
  EXPECT_NEAR(*SuggestedAfter(centimetres), 1200, 1e-9);
  // A small piece is only a small piece.
  EXPECT_THAT(SlipsAfter([](Report& r) { r.width_before_mm = 700; }), ElementsAre());
}

TEST(Slips, HintAtYardsOnlyWhereEveryLengthIsOffAlike) {
  const auto yards = [](Report& r) {
    r.yarn[0].length_m = 150 / 0.9144;
    r.yarn[1].length_m = 90 / 0.9144;
  };
  EXPECT_THAT(SlipsAfter(yards), ElementsAre(Pair("yards-as-metres", "yarn[0].length_m"),
                                             Pair("yards-as-metres", "yarn[1].length_m")));
  EXPECT_NEAR(*SuggestedAfter(yards), 150, 1e-9);
  Report report = SoundReport();
  yards(report);
  EXPECT_EQ(FindSlips(report, SampleExpected())[0].strength, SlipStrength::kHint);
  EXPECT_THAT(SlipsAfter([](Report& r) { r.yarn[0].length_m = 150 / 0.9144; }), ElementsAre());
  EXPECT_THAT(SlipsAfter([](Report& r) {
                r.yarn[0].length_m = 150 * 0.9144;
                r.yarn[1].length_m = 90 * 0.9144;
              }),
              ElementsAre(Pair("metres-as-yards", "yarn[0].length_m"),
                          Pair("metres-as-yards", "yarn[1].length_m")));
}

TEST(Slips, AskWhetherTheGaugeIsSwappedRidgesOrInInches) {
  EXPECT_THAT(SlipsAfter([](Report& r) {
                r.gauge_before[0] = {20, 14, 100, 100, 1};
              }),
              ElementsAre(Pair("gauge-swapped", "gauge_before[0].stitches")));
  const auto ridges = [](Report& r) { r.gauge_before[0] = {14, 10, 100, 100, 1}; };
  EXPECT_THAT(SlipsAfter(ridges), ElementsAre(Pair("ridges-counted", "gauge_before[0].rows")));
  EXPECT_EQ(SuggestedAfter(ridges), 20);
  // 14 stitches and 20 rows in 4 in, written as 4 cm; the short span is explained by that.
  const auto inches = [](Report& r) { r.gauge_before[0] = {14, 20, 40, 40, 1}; };
  EXPECT_THAT(SlipsAfter(inches),
              ElementsAre(Pair("inches-as-centimetres", "gauge_before[0].stitch_span_mm")));
  EXPECT_NEAR(*SuggestedAfter(inches), 101.6, 1e-9);
  EXPECT_THAT(SlipsAfter([](Report& r) {
                r.gauge_before[0] = {14, 20, 254, 254, 1};
              }),
              ElementsAre(Pair("centimetres-as-inches", "gauge_before[0].stitch_span_mm")));
  EXPECT_THAT(SlipsAfter([](Report& r) {
                r.gauge_after = {{15, 19, 100, 100, 1}};
              }),
              ElementsAre());
}

TEST(Slips, AskForALongerSpanBelow50Mm) {
  EXPECT_THAT(SlipsAfter([](Report& r) {
                r.gauge_before[0] = {6.5, 20, 49, 100, 1};
              }),
              ElementsAre(Pair("short-span", "gauge_before[0].stitch_span_mm")));
  EXPECT_THAT(SlipsAfter([](Report& r) {
                r.gauge_before[0] = {14, 9, 100, 45, 1};
              }),
              ElementsAre(Pair("short-span", "gauge_before[0].row_span_mm")));
  EXPECT_THAT(SlipsAfter([](Report& r) { r.gauge_before[0] = {7, 10, 50, 50, 1}; }), ElementsAre());
}

TEST(Slips, AskWhetherTheColoursAreSwapped) {
  const auto swapped = [](Report& r) {
    r.yarn[0].length_m = 95;
    r.yarn[1].length_m = 160;
  };
  EXPECT_THAT(SlipsAfter(swapped), ElementsAre(Pair("colours-swapped", "yarn[0].length_m")));
  EXPECT_EQ(SuggestedAfter(swapped), 160);
}

TEST(Slips, AskWhetherTwoOfThreeColoursAreSwapped) {
  Report report = SoundReport();
  YarnUse c;
  c.colour = estimate::YarnColour::kC;
  c.length_m = 92;
  report.yarn.push_back(c);
  report.yarn[1].length_m = 33;
  Expected expected = SampleExpected();
  expected.colours.push_back({estimate::YarnColour::kC, 30, 30, 125, 50, {}});
  const std::vector<Slip> slips = FindSlips(report, expected);
  ASSERT_EQ(slips.size(), 1u);
  EXPECT_EQ(slips[0].code, SlipCode::kColoursSwapped);
  EXPECT_EQ(slips[0].field, "yarn[1].length_m");
  EXPECT_EQ(slips[0].suggested, 92);
  EXPECT_THAT(slips[0].sentence,
              testing::HasSubstr("33 m (36.1 yd) of yarn B and 92 m (101 yd) of yarn C"));
}

TEST(Slips, TakeTheVersionsTexForTheBallBand) {
  Report report = SoundReport();
  report.yarn[0].length_m.reset();
  report.yarn[0].mass_before_g = 100;
  report.yarn[0].mass_after_g = 40;  // 60 g at 400 tex are 150 m
  Expected expected = SampleExpected();
  expected.colours[0] = {estimate::YarnColour::kA, 150, 150, {}, {}, 400};
  EXPECT_TRUE(FindSlips(report, expected).empty());
  expected.colours[0].tex.reset();
  EXPECT_EQ(FindSlips(report, expected).at(0).code, SlipCode::kNoBallBand);
}

TEST(Slips, AskWhetherYarnLeftWasGivenForYarnUsed) {
  // Two balls of 125 m: 100 m are left of 150 m used.
  const auto left = [](Report& r) { r.yarn[0].length_m = 100; };
  EXPECT_THAT(SlipsAfter(left), ElementsAre(Pair("yarn-left", "yarn[0].length_m")));
  EXPECT_NEAR(*SuggestedAfter(left), 150, 1e-9);
  // Weighed at 400 tex: 60 g used of 100 g, but given as what is left.
  const auto weighed = [](Report& r) {
    r.yarn[0].length_m.reset();
    r.yarn[0].mass_before_g = 100;
    r.yarn[0].mass_after_g = 60;
  };
  EXPECT_THAT(SlipsAfter(weighed), ElementsAre(Pair("yarn-left", "yarn[0].mass_after_g")));
  EXPECT_NEAR(*SuggestedAfter(weighed), 40, 1e-9);
}

TEST(Slips, AskForGramsAsMetresAndForTheBallBand) {
  // 60 g of 400 tex are 150 m.
  const auto grams = [](Report& r) { r.yarn[0].length_m = 60; };
  EXPECT_THAT(SlipsAfter(grams), ElementsAre(Pair("grams-as-metres", "yarn[0].length_m")));
  EXPECT_NEAR(*SuggestedAfter(grams), 150, 1e-9);
  EXPECT_THAT(SlipsAfter([](Report& r) {
                r.yarn[0].length_m.reset();
                r.yarn[0].mass_before_g = 100;
                r.yarn[0].mass_after_g = 40;
                r.yarn[0].yarn = estimate::Yarn{"", "", 4, {}, {}, {}};
              }),
              ElementsAre(Pair("no-ball-band", "yarn[0].yarn.ball_band")));
}

TEST(Slips, AskHowFarTheyGotWhereTheYarnIsOfTheWholePiece) {
  Report report = SoundReport();
  report.finished = false;
  report.last_row = 8;
  Expected expected = SampleExpected();
  expected.colours[0].length_m = 50;
  expected.colours[1].length_m = 30;
  expected.minutes = 1800;
  const auto slips = FindSlips(report, expected);
  ASSERT_EQ(slips.size(), 1u);
  EXPECT_EQ(slips[0].code, SlipCode::kRowBehindYarn);
  EXPECT_EQ(slips[0].field, "last_row");
  EXPECT_EQ(slips[0].suggested, 24);
  report.yarn[0].length_m = 50;
  report.yarn[1].length_m = 30;
  EXPECT_TRUE(FindSlips(report, expected).empty());
}

TEST(Slips, AskForMillimetresOfAHookNumber) {
  // Craft Yarn Council: the hook with the US number 7 is 4.5 mm.
  const auto number = [](Report& r) { r.hook_mm = 7; };
  EXPECT_THAT(SlipsAfter(number), ElementsAre(Pair("hook-label", "hook_mm")));
  EXPECT_EQ(SuggestedAfter(number), 4.5);
  EXPECT_THAT(SlipsAfter([](Report& r) { r.hook_mm = 5; }), ElementsAre());
  EXPECT_THAT(SlipsAfter([](Report& r) { r.hook_mm = 12; }), ElementsAre());
}

TEST(Slips, AskForHoursAsMinutesAndForWhatIsOutOfProportion) {
  const auto hours = [](Report& r) { r.minutes = 31.5; };
  EXPECT_THAT(SlipsAfter(hours), ElementsAre(Pair("hours-as-minutes", "minutes")));
  EXPECT_EQ(SuggestedAfter(hours), 1890);
  EXPECT_THAT(SlipsAfter([](Report& r) { r.minutes = 600; }), ElementsAre());
  EXPECT_THAT(SlipsAfter([](Report& r) { r.yarn[1].length_m = 95000; }),
              ElementsAre(Pair("out-of-proportion", "yarn[1].length_m")));
  EXPECT_THAT(SlipsAfter([](Report& r) { r.yarn[1].length_m = 0.08; }),
              ElementsAre(Pair("out-of-proportion", "yarn[1].length_m")));
}

TEST(Slips, AskForWhatNothingExplains) {
  const auto asked = [](const std::string& field) {
    return ElementsAre(Pair("out-of-proportion", field));
  };
  EXPECT_THAT(SlipsAfter([](Report& r) {
                r.gauge_before[0] = {30, 20, 100, 100, 1};
              }),
              asked("gauge_before[0].stitches"));
  EXPECT_THAT(SlipsAfter([](Report& r) {
                r.gauge_before[0] = {14, 31, 100, 100, 1};
              }),
              asked("gauge_before[0].rows"));
  EXPECT_THAT(SlipsAfter([](Report& r) { r.width_before_mm = 1500; }), asked("width_before_mm"));
  EXPECT_THAT(SlipsAfter([](Report& r) { r.yarn[0].length_m = 390; }), asked("yarn[0].length_m"));
  EXPECT_THAT(SlipsAfter([](Report& r) { r.minutes = 7300; }), asked("minutes"));
}

TEST(Slips, LeaveAsItIsWhatMakersMayDifferBy) {
  const auto unasked = [](const std::function<void(Report&)>& change) {
    EXPECT_THAT(SlipsAfter(change), ElementsAre());
  };
  unasked([](Report& r) { r.gauge_before[0] = {20, 20, 100, 100, 1}; });
  unasked([](Report& r) { r.gauge_before[0] = {14, 29, 100, 100, 1}; });
  unasked([](Report& r) { r.width_before_mm = 1340; });
  unasked([](Report& r) { r.yarn[0].length_m = 295; });
  unasked([](Report& r) { r.minutes = 7100; });
  // Of a piece that was just begun, the swatch may be most of the yarn.
  Report begun = SoundReport();
  begun.finished = false;
  begun.last_row = 2;
  begun.yarn[0].with_swatch = begun.yarn[1].with_swatch = true;
  begun.yarn[0].length_m = 30;
  begun.yarn[1].length_m = 20;
  Expected expected = SampleExpected();
  expected.colours[0].length_m = 12;
  expected.colours[1].length_m = 8;
  EXPECT_TRUE(FindSlips(begun, expected).empty());
  begun.yarn[0].with_swatch = begun.yarn[1].with_swatch = false;
  EXPECT_EQ(FindSlips(begun, expected).size(), 2u);
}

TEST(Slips, AreToldInBothSystemsOfUnits) {
  Report report = SoundReport();
  report.yarn[0].length_m = 390;
  report.width_before_mm = 1500;
  const auto slips = FindSlips(report, SampleExpected());
  ASSERT_EQ(slips.size(), 2u);
  EXPECT_EQ(slips[0].sentence,
            "You report 390 m (427 yd) of yarn A; about 150 m (164 yd) is expected. Is a unit or a "
            "digit wrong?");
  EXPECT_EQ(slips[1].sentence,
            "You report a width of 150 cm (59.1 in); about 90 cm (35.4 in) is expected. Is a unit "
            "or a digit wrong?");
}

TEST(Slips, HintAtNoYardsByOneLengthAlone) {
  Report report = SoundReport();
  report.yarn = {report.yarn[0]};
  *report.yarn[0].length_m /= 0.9144;
  EXPECT_TRUE(FindSlips(report, SampleExpected()).empty());
}

TEST(Slips, MakeNoCheckWithoutAnExpectation) {
  Report report = SoundReport();
  report.width_before_mm = 354;
  report.gauge_before[0] = {20, 14, 100, 100, 1};
  report.hook_mm = 7;
  EXPECT_TRUE(FindSlips(report, Expected{}).empty());
}

// Makers differ: yarn by 12 % (model) and 10 % (maker), gauge by 8 %, time by 50 %, all log-normal.
Report RandomSoundReport(std::mt19937& random) {
  std::normal_distribution<double> normal;
  const auto vary = [&](double value, double sd) { return value * std::exp(sd * normal(random)); };
  Report report = SoundReport();
  const double loose = vary(1, std::hypot(0.12, 0.10));
  report.yarn[0].length_m = vary(150 * loose, 0.03);
  report.yarn[1].length_m = vary(90 * loose, 0.03);
  const double stitches = vary(14, 0.08);
  const double rows = vary(20, 0.08);
  report.gauge_before[0].stitches = stitches;
  report.gauge_before[0].rows = rows;
  report.width_before_mm = vary(900 * 14 / stitches, 0.03);
  report.height_before_mm = vary(1200 * 20 / rows, 0.03);
  report.minutes = vary(1800, 0.5);
  return report;
}

TEST(Slips, AskSeldomWithoutAReasonAndMostlyWithOne) {
  std::mt19937 random(42);
  constexpr int kReports = 4000;
  int asked = 0;
  int hinted = 0;
  int inches = 0;
  int left = 0;
  for (int i = 0; i < kReports; ++i) {
    Report report = RandomSoundReport(random);
    bool question = false;
    bool hint = false;
    for (const Slip& slip : FindSlips(report, SampleExpected())) {
      (slip.strength == SlipStrength::kHint ? hint : question) = true;
    }
    asked += question;
    hinted += hint;
    *report.width_before_mm /= 2.54;
    report.yarn[1].length_m = 125 - *report.yarn[1].length_m;
    if (*report.yarn[1].length_m <= 1) continue;  // nothing was left
    for (const Slip& slip : FindSlips(report, SampleExpected())) {
      inches += slip.code == SlipCode::kInchesAsCentimetres && slip.field == "width_before_mm";
      left += slip.code == SlipCode::kYarnLeft;
    }
  }
  // Bounds are this project's aims: one sound report in twenty-five may be asked, one in five
  // hinted at; a width in inches is found in 95 of 100, what is left of one ball in 90 of 100.
  EXPECT_LT(asked, kReports / 25) << asked;
  EXPECT_LT(hinted, kReports / 5) << hinted;
  EXPECT_GT(inches, kReports * 95 / 100) << inches;
  EXPECT_GT(left, kReports * 90 / 100) << left;
}

}  // namespace
}  // namespace rowproof::testcalls
