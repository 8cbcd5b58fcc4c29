#include "services/client/parsing/materials_options.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "services/client/failure.h"
#include "services/client/parsing/quantities.h"

namespace rowproof::client {
namespace {

MaterialsOptions Parsed(std::vector<std::string> arguments) {
  CLI::App app;
  MaterialsOptions options;
  AddMaterialsOptions(app, options, {});
  // CLI11 takes a vector from its end.
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
  app.parse(reversed);
  return options;
}

ExitCode CodeOf(const std::vector<std::string>& arguments) {
  try {
    MaterialsOf(Parsed(arguments));
  } catch (const Failure& failure) {
    EXPECT_NE(failure.line().find(arguments[0]), std::string::npos) << failure.line();
    return failure.code();
  } catch (const CLI::ParseError& error) {
    EXPECT_NE(std::string(error.what()).find(arguments[0]), std::string::npos) << error.what();
    return ExitCode::kUsage;
  }
  return ExitCode::kDone;
}

// 1 in is 25.4 mm, 1 yd 0.9144 m and 1 oz 28.349523125 g, exact by definition.
TEST(Quantities, TakeEveryUnitByItsExactFactor) {
  EXPECT_DOUBLE_EQ(LengthMm("--x", "12.5 cm"), 125);
  EXPECT_DOUBLE_EQ(LengthMm("--x", "4in"), 101.6);
  EXPECT_DOUBLE_EQ(LengthMm("--x", " 3 mm "), 3);
  EXPECT_DOUBLE_EQ(LengthMm("--x", "1.2m"), 1200);
  EXPECT_DOUBLE_EQ(LengthMm("--x", "2 yd"), 1828.8);
  EXPECT_DOUBLE_EQ(LengthMm("--x", "3 1/2 Inches"), 88.9);
  EXPECT_DOUBLE_EQ(MassG("--x", "3.5 oz"), 3.5 * 28.349523125);
  EXPECT_DOUBLE_EQ(MassG("--x", "0.2kg"), 200);
  const BallBand ball = BallOf("--ball", "210 yd / 100 g");
  EXPECT_DOUBLE_EQ(ball.length_m, 210 * 0.9144);
  EXPECT_DOUBLE_EQ(ball.mass_g, 100);
}

TEST(Quantities, GuessNeitherUnitNorNumber) {
  for (const char* text : {"", "12", "cm", "12 parsecs", "12 g", "nan cm", "inf mm", "-3 cm",
                           "1,5 cm", "1.5.2 cm", "0x10 mm", "1e999 mm"}) {
    EXPECT_THROW(LengthMm("--x", text), Failure) << text;
  }
  for (const char* text : {"50", "50 m", "nan g"})
    EXPECT_THROW(MassG("--x", text), Failure) << text;
  for (const char* text : {"125 m", "125/50", "125 m / 50", "50 g / 125 m", "/"}) {
    EXPECT_THROW(BallOf("--x", text), Failure) << text;
  }
  EXPECT_THROW(NumberOf("--x", "12 mm"), Failure);
  EXPECT_THROW(CountOf("--x", "2.5"), Failure);
  EXPECT_THROW(CountOf("--x", "-2"), Failure);
}

TEST(MaterialsOptions, TakeSeveralCountsOfTheGaugeOverAnySpan) {
  const auto materials =
      MaterialsOf(Parsed({"--gauge", "14x16/4in", "--gauge", "29 sts x 33 rows / 20 cm",
                          "--blocked-gauge", "13x15/4 in"}));
  EXPECT_FALSE(materials.has_gauge());
  ASSERT_EQ(materials.gauge_readings_size(), 2);
  EXPECT_EQ(materials.gauge_readings(0).stitches(), 14);
  EXPECT_EQ(materials.gauge_readings(0).rows(), 16);
  EXPECT_DOUBLE_EQ(materials.gauge_readings(0).stitch_span_mm(), 101.6);
  EXPECT_EQ(materials.gauge_readings(1).rows(), 33);
  EXPECT_DOUBLE_EQ(materials.gauge_readings(1).row_span_mm(), 200);
  ASSERT_EQ(materials.gauge_readings_after_blocking_size(), 1);
  EXPECT_EQ(CodeOf({"--gauge", "14x16"}), ExitCode::kUsage);
  EXPECT_EQ(CodeOf({"--gauge", "14x16/4"}), ExitCode::kRefused);
  EXPECT_EQ(CodeOf({"--gauge", "ax16/4in"}), ExitCode::kRefused);
}

TEST(MaterialsOptions, GiveEachColourItsOwnYarnOnTheGroundOfWhatHoldsForAll) {
  const auto materials =
      MaterialsOf(Parsed({"--weight-class", "4", "--ball", "125 m/50 g", "--yarn",
                          "B: wpi=10; ball=210 yd/100 g; fibre=80 % cotton, 20 % acrylic; name=Ink",
                          "--yarn", "D: tex=400", "--yarn", "border: class=3"}));
  std::vector<v1::YarnRole> roles;
  for (const auto& yarn : materials.yarns()) roles.push_back(yarn.role());
  // C is as each, since D comes after it.
  ASSERT_EQ(roles, (std::vector{v1::YARN_ROLE_A, v1::YARN_ROLE_B, v1::YARN_ROLE_C, v1::YARN_ROLE_D,
                                v1::YARN_ROLE_BORDER}));
  EXPECT_EQ(materials.yarns(0).yarn().weight_class(), 4);
  EXPECT_EQ(materials.yarns(0).yarn().ball_band().length_m(), 125);
  EXPECT_EQ(materials.yarns(1).yarn().weight_class(), 4);
  EXPECT_EQ(materials.yarns(1).yarn().wraps_per_inch(), 10);
  EXPECT_DOUBLE_EQ(materials.yarns(1).yarn().ball_band().length_m(), 210 * 0.9144);
  EXPECT_EQ(materials.yarns(1).yarn().fibre(), "80 % cotton, 20 % acrylic");
  EXPECT_EQ(materials.yarns(1).yarn().name(), "Ink");
  EXPECT_EQ(materials.yarns(2).yarn().ball_band().mass_g(), 50);
  EXPECT_EQ(materials.yarns(3).yarn().tex(), 400);
  EXPECT_FALSE(materials.yarns(3).yarn().has_ball_band());
  EXPECT_EQ(materials.yarns(4).yarn().weight_class(), 3);
  for (const char* text : {"B", "I: class=4", "B: class", "B: colour=red", "b: class=4"}) {
    EXPECT_EQ(CodeOf({"--yarn", text}), ExitCode::kUsage) << text;
  }
  EXPECT_EQ(CodeOf({"--yarn", "B: wpi=thin"}), ExitCode::kRefused);
  EXPECT_EQ(CodeOf({"--yarn", "B: class=4", "--yarn", "B: class=5"}), ExitCode::kUsage);
}

TEST(MaterialsOptions, SayFoundationBorderFringeSwatchAndForWhom) {
  const auto materials = MaterialsOf(Parsed({"--foundation",
                                             "worked",
                                             "--foundation-colour",
                                             "B",
                                             "--border",
                                             "3:C:double",
                                             "--fringe",
                                             "A:40x8cm",
                                             "--fringe",
                                             "B:12x3in:row-ends",
                                             "--fringe-of-tails",
                                             "10 cm",
                                             "--swatch",
                                             "30x32",
                                             "--item",
                                             "hot-pad",
                                             "--for-small-child",
                                             "--hook-mm",
                                             "5.5",
                                             "--assurance",
                                             "0.9",
                                             "--stitches-per-minute",
                                             "12",
                                             "--minutes-per-row-start",
                                             "0.5",
                                             "--gauge-of-other-fabric"}));
  EXPECT_EQ(materials.foundation(), v1::FOUNDATION_KIND_WORKED);
  EXPECT_EQ(materials.foundation_colour(), v1::COLOUR_B);
  EXPECT_EQ(materials.border().round_count(), 3);
  EXPECT_EQ(materials.border().role(), v1::YARN_ROLE_C);
  EXPECT_TRUE(materials.border().enclosing_double());
  ASSERT_EQ(materials.added_fringe_size(), 2);
  EXPECT_EQ(materials.added_fringe(0).strand_count(), 40);
  EXPECT_EQ(materials.added_fringe(0).length_mm(), 80);
  EXPECT_EQ(materials.added_fringe(1).edge(), v1::FRINGE_EDGE_ROW_ENDS);
  EXPECT_DOUBLE_EQ(materials.added_fringe(1).length_mm(), 76.2);
  EXPECT_EQ(materials.tail_use(), v1::TAIL_USE_FRINGE);
  EXPECT_EQ(materials.fringe_length_mm(), 100);
  EXPECT_EQ(materials.swatch().row_count(), 32);
  EXPECT_EQ(materials.item(), v1::ITEM_KIND_HOT_PAD);
  EXPECT_TRUE(materials.for_small_child());
  EXPECT_EQ(materials.hook_mm(), 5.5);
  EXPECT_EQ(materials.assurance(), 0.9);
  EXPECT_TRUE(materials.gauge_is_of_another_fabric());
  for (const auto& [option, text] :
       std::vector<std::pair<std::string, std::string>>{{"--border", "3:B:triple"},
                                                        {"--border", "3:K"},
                                                        {"--fringe", "A"},
                                                        {"--fringe", "A:4x3cm:here"},
                                                        {"--swatch", "30"},
                                                        {"--item", "sail"},
                                                        {"--foundation", "stone"}}) {
    EXPECT_EQ(CodeOf({option, text}), ExitCode::kUsage) << option << " " << text;
  }
  EXPECT_EQ(CodeOf({"--fringe", "A:40x8"}), ExitCode::kRefused);
  EXPECT_EQ(CodeOf({"--border", "many"}), ExitCode::kRefused);
}

TEST(MaterialsOptions, BecomeAnotherMakersChangesWithoutWhatIsNotSaid) {
  MaterialsOptions options;
  options.gauges = {"13x15/4in"};
  options.yarns = {"A: class=5; ball=90 m/100 g"};
  options.hook_mm = 6;
  const auto maker = AnotherMakerOf(options);
  EXPECT_EQ(maker.gauge_readings_size(), 1);
  ASSERT_EQ(maker.yarns_size(), 1);
  EXPECT_EQ(maker.yarns(0).role(), v1::YARN_ROLE_A);
  EXPECT_EQ(maker.yarns(0).yarn().weight_class(), 5);
  EXPECT_EQ(maker.hook_mm(), 6);
  EXPECT_FALSE(maker.has_tail_length_mm());
  EXPECT_FALSE(maker.has_gauge());
}

}  // namespace
}  // namespace rowproof::client
