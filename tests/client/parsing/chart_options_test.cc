#include "services/client/parsing/chart_options.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "services/client/failure.h"
#include "services/client/parsing/materials_options.h"

namespace rowproof::client {
namespace {

ChartOptions Parsed(std::vector<std::string> arguments) {
  CLI::App app;
  ChartOptions options;
  MaterialsOptions materials;
  AddChartOptions(app, options, {});
  AddMaterialsOptions(app, materials, {});
  // CLI11 takes a vector from its end.
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
  app.parse(reversed);
  return options;
}

TEST(ChartOptions, BecomeADesignWithTheWordsOfTheCommandLine) {
  const auto design =
      DesignOf(Parsed({"--technique",    "inset",        "--facing",   "one-face",      "--ends",
                       "waiting",        "--form",       "tube",       "--chart",       "working",
                       "--swap-colours", "--cell-scale", "7",          "--tolerance",   "12",
                       "--colour-a",     "#fefefe",      "--colour-b", "#010203",       "--colour",
                       "B=#101010",      "--colour",     "C=#2f6f4f",  "--row-colours", "AB*2 C",
                       "--grid",         "12x10.5/1",    "--no-grid",  "--crop",        "4,3,2,1"}),
               "content");
  EXPECT_EQ(design.technique(), v1::TECHNIQUE_INSET);
  EXPECT_EQ(design.facing(), v1::FACING_ONE_FACE);
  EXPECT_EQ(design.ends(), v1::ENDS_WAITING);
  EXPECT_EQ(design.file().convention(), v1::CONVENTION_WORKING);
  EXPECT_EQ(design.file().content(), "content");
  EXPECT_TRUE(design.file().swap_colours());
  EXPECT_EQ(design.file().cell_scale(), 7);
  EXPECT_EQ(design.file().tolerance(), 12);
  EXPECT_EQ(design.file().colour_a(), "#fefefe");
  EXPECT_EQ(design.file().colour_b(), "#010203");
  EXPECT_EQ(design.form(), v1::FORM_TUBE);
  ASSERT_EQ(design.file().colours_size(), 2);
  EXPECT_EQ(design.file().colours(1).rgb(), "#2f6f4f");
  EXPECT_EQ(design.file().colours(1).chart_colour(), v1::COLOUR_C);
  EXPECT_EQ(design.file().row_colours_size(), 5);
  EXPECT_EQ(design.file().grid().pitch_y_px(), 10.5);
  EXPECT_TRUE(design.file().without_grid_search());
  EXPECT_EQ(design.file().crop().bottom(), 1);
  EXPECT_EQ(design.sizes_size(), 0);
  EXPECT_FALSE(design.has_stitch_band());
}

// Facing and ends are left to the service, which takes what is usual with the technique.
TEST(ChartOptions, AreAFlatSpikePictureWhenNothingIsSaid) {
  const auto design = DesignOf(Parsed({}), "");
  EXPECT_EQ(design.technique(), v1::TECHNIQUE_SPIKE);
  EXPECT_EQ(design.facing(), v1::FACING_UNSPECIFIED);
  EXPECT_EQ(design.ends(), v1::ENDS_UNSPECIFIED);
  EXPECT_EQ(design.form(), v1::FORM_FLAT);
  EXPECT_EQ(design.file().convention(), v1::CONVENTION_PICTURE);
  EXPECT_EQ(design.file().row_colours_size(), 0);
  EXPECT_FALSE(design.file().has_grid());
  EXPECT_FALSE(design.file().has_crop());
}

TEST(ChartOptions, RefuseAWordThatIsNotInTheList) {
  EXPECT_THROW(Parsed({"--facing", "three-face"}), CLI::ParseError);
  EXPECT_THROW(Parsed({"--bogus"}), CLI::ParseError);
}

TEST(ChartOptions, TakeSeveralSizesAndBands) {
  const auto design = DesignOf(Parsed({"--size", "small", "--size", "wide: big:4x2",
                                       "--stitch-band", "3-10", "--row-band", "5-12"}),
                               "");
  ASSERT_EQ(design.sizes_size(), 2);
  EXPECT_EQ(design.sizes(0).name(), "small");
  EXPECT_EQ(design.sizes(0).stitch_repeat_count(), 0);
  EXPECT_EQ(design.sizes(1).name(), "wide: big");
  EXPECT_EQ(design.sizes(1).stitch_repeat_count(), 4);
  EXPECT_EQ(design.sizes(1).row_repeat_count(), 2);
  EXPECT_EQ(design.stitch_band().first(), 3);
  EXPECT_EQ(design.stitch_band().last(), 10);
  EXPECT_EQ(design.row_band().first(), 5);
  EXPECT_EQ(design.row_band().last(), 12);
}

TEST(ChartOptions, RefuseBandsAndSizesOfAnotherForm) {
  for (const char* text : {"", "3", "3-", "-10", "3-10x", " 3-10", "3-99999999999", "3--4"}) {
    EXPECT_THROW(BandOf("--row-band", text), Failure) << text;
  }
  for (const char* text : {"a:", "a:2", "a:2x", "a:x2", "a:0x1", "a:1x0", "a:1x-1", "a:1x1.5"}) {
    EXPECT_THROW(SizeOf(text), Failure) << text;
  }
  try {
    BandOf("--row-band", "seven");
    FAIL();
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.code(), ExitCode::kUsage);
    EXPECT_EQ(failure.line(), "--row-band must be first and last, such as 3-10 (got \"seven\")");
  }
}

TEST(MaterialsOptions, GiveBothYarnsTheSameAndLeaveOutWhatIsMissing) {
  MaterialsOptions options;
  options.stitches_per_10cm = 18;
  options.rows_per_10cm = 20;
  options.wpi = 9;
  const auto materials = MaterialsOf(options);
  EXPECT_EQ(materials.gauge().stitches_per_decimetre(), 18);
  EXPECT_EQ(materials.gauge().rows_per_decimetre(), 20);
  EXPECT_EQ(materials.yarns(0).yarn().wraps_per_inch(), 9);
  EXPECT_EQ(materials.yarns(1).yarn().wraps_per_inch(), 9);
  EXPECT_FALSE(materials.yarns(0).yarn().has_weight_class());
  EXPECT_FALSE(materials.has_tail_length_mm());
  EXPECT_FALSE(materials.has_slack());
  options.rows_per_10cm.reset();
  EXPECT_THROW(MaterialsOf(options), Failure);
}

}  // namespace
}  // namespace rowproof::client
