// Design files, right, wrong and hostile. All yarns are invented.
#include "services/client/design/file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "services/client/design/keys.h"
#include "services/client/design/text.h"
#include "services/client/failure.h"

namespace rowproof::client {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::StartsWith;

// The line of the failure.
std::string RefusalOf(const std::string& text) {
  try {
    ParseDesign("mat.toml", text);
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.code(), ExitCode::kRefused) << failure.line();
    return failure.line();
  }
  ADD_FAILURE() << text << " was read";
  return {};
}

TEST(DesignFile, SaysInTheTradesWordsWhatCommandsTakeByOption) {
  const DesignFile file = ParseDesign("folder/mat.toml", R"(
technique = "spike"
foundation = "worked"
foundation_colour = "B"
hook_mm = 5.5
calibration = "oat.json"
[chart]
grid = "12/1"
colours = ["C=#2f6f4f"]
[repeat]
stitches = "3-10"
[[size]]
name = "S"
repeats = "4x2"
[[size]]
name = "M"
[gauge]
stitches = 14
rows = 16.5
over = "4 in"
[yarn.A]
ball = "125 m / 50 g"
weight_class = 4
[border]
rounds = 2
double = true
[[fringe]]
colour = "A"
strands = 40
length = "8 cm"
)");
  const DesignOptions& o = file.options;
  EXPECT_EQ(o.chart.technique, "spike");
  EXPECT_EQ(o.materials.foundation, "worked");
  EXPECT_EQ(o.materials.foundation_colour, "B");
  EXPECT_EQ(o.materials.hook_mm, 5.5);
  EXPECT_EQ(o.materials.calibration, "folder/oat.json");
  EXPECT_EQ(o.chart.grid, "12/1");
  EXPECT_THAT(o.chart.colours, ElementsAre("C=#2f6f4f"));
  EXPECT_EQ(o.chart.stitch_band, "3-10");
  EXPECT_THAT(o.chart.sizes, ElementsAre("S:4x2", "M:1x1"));
  EXPECT_THAT(o.materials.gauges, ElementsAre("14x16.5/4 in"));
  EXPECT_EQ(o.materials.border, "2:A:double");
  EXPECT_THAT(o.materials.fringes, ElementsAre("A:40x8 cm"));
  EXPECT_EQ(file.lines.at("technique"), 2);
  EXPECT_EQ(file.lines.at("chart.grid"), 8);
  EXPECT_EQ(file.lines.at("yarn.A.ball"), 22);
  MaterialsOptions materials = o.materials;
  materials.calibration.clear();  // the file is not there
  EXPECT_EQ(MaterialsOf(materials).gauge_readings(0).rows(), 16.5);
}

TEST(DesignFile, RefusesWithLineAndWhatIsExpected) {
  EXPECT_EQ(RefusalOf("\n\ntechnique = \"knotted\"\n"),
            "mat.toml, line 3: technique must be spike, overlay or inset (got \"knotted\")");
  EXPECT_EQ(RefusalOf("tecnique = \"spike\"\n"),
            "mat.toml, line 1: there is no key \"tecnique\"; did you mean \"technique\"?");
  EXPECT_EQ(RefusalOf("technique = 3\n"),
            "mat.toml, line 1: technique must be a text in quotes (got \"3\")");
  EXPECT_EQ(RefusalOf("hook_mm = 99\n"),
            "mat.toml, line 1: hook_mm must be a number from 0.3 to 50 (got \"99\")");
  EXPECT_EQ(RefusalOf("[chart]\ntolerance = 2.5\n"),
            "mat.toml, line 2: tolerance must be a whole number from 0 to 255 (got \"2.5\")");
  EXPECT_EQ(RefusalOf("[repeat]\nrows = \"seven\"\n"),
            "mat.toml, line 2: rows must be first and last, such as 3-10 (got \"seven\")");
  EXPECT_EQ(RefusalOf("[gauge]\nstitches = 14\n"),
            "mat.toml, line 1: [gauge] needs the key \"rows\"");
  EXPECT_THAT(RefusalOf("[gauge]\nstitches = 14\nrows = 16\nover = \"4\"\n"),
              HasSubstr("line 1: gauge: \"4\" needs a unit: mm, cm, m, in or yd"));
  EXPECT_THAT(RefusalOf("[yarn.A]\nball = \"125 metres\"\n"),
              HasSubstr("line 2: yarn A ball \"125 metres\" needs a ball's length and weight"));
  EXPECT_THAT(RefusalOf("[yarn.Z]\nwpi = 9\n"), HasSubstr("there is no yarn \"Z\""));
  EXPECT_THAT(RefusalOf("[yarn.A]\ncolour = \"red\"\n"),
              HasSubstr("line 2: there is no key \"colour\" in [yarn.A] (there are name"));
  EXPECT_THAT(RefusalOf("for_small_child = \"yes\"\n"), HasSubstr("must be true or false"));
}

// Nothing that a file holds may end in more than one sentence, or in a crash.
TEST(DesignFile, RefusesHostileText) {
  const std::vector<std::string> texts = {
      "technique = ",
      "technique = \"spike\"\ntechnique = \"inset\"\n",
      "hook_mm = nan\n",
      "hook_mm = inf\n",
      "hook_mm = 1e999\n",
      "[chart]\ncell_pixels = 99999999999999999999\n",
      "[chart]\ncell_pixels = -1\n",
      "technique = [\"spike\"]\n",
      "[technique]\n",
      "size = 3\n",
      "[[border]]\nrounds = 1\n",
      "technique = 1979-05-27\n",
      "title = \"x\"\n",
      "[pattern]\ntitle = \"two\\nlines\"\n",
      "[pattern]\ntitle = \"\\u0000\"\n",
      "row_colours = \"A*99999999\"\n",
      "a = " + std::string(5000, '[') + "\n",
      std::string(1000, '[') + "\n",
  };
  for (const std::string& text : texts) EXPECT_THAT(RefusalOf(text), StartsWith("mat.toml, line "));
  std::string many;
  for (int i = 0; i < 101; ++i) many += "[[size]]\nname = \"s\"\n";
  EXPECT_THAT(RefusalOf(many), HasSubstr("100 at most"));
}

// Everything that options say comes back from the text that is written of them.
TEST(DesignText, IsReadToTheSameOptions) {
  DesignOptions said;
  said.chart.technique = "overlay";
  said.chart.row_colours = "AB*20 C";
  said.chart.crop = "1,2,3,4";
  said.chart.colours = {"C=#2f6f4f", "A=#ffffff"};
  said.chart.tolerance = 3;
  said.chart.without_grid = true;
  said.chart.sizes = {"small:1x1", "a \"wide\" one:4x2"};
  said.chart.colour_names = {"cream", "slate \\ blue"};
  said.materials.gauges = {"14x16/4in", "29 sts x 33 rows / 20 cm"};
  said.materials.foundation = "worked";
  said.materials.border = "2:B:double";
  said.materials.fringes = {"A:40x8cm:row-ends"};
  said.materials.swatch = "20x22";
  said.materials.slack = 0.07;
  said.materials.for_small_child = false;
  said.materials.wpi = 9.25;
  said.materials.yarns = {"B: class=4; ball=210 yd/100 g; name=Ink", "C: tex=400"};
  said.printed.title = "Reed Mat (invented)";
  said.longest_skip = 4;
  said.shades = {"A=#f2e6cf"};
  const DesignFile read = ParseDesign("mat.toml", DesignText(said, "", {"A heading"}));
  const DesignOptions& o = read.options;
  EXPECT_EQ(o.chart.technique, said.chart.technique);
  EXPECT_EQ(o.chart.row_colours, said.chart.row_colours);
  EXPECT_EQ(o.chart.crop, said.chart.crop);
  EXPECT_EQ(o.chart.colours, said.chart.colours);
  EXPECT_EQ(o.chart.tolerance, said.chart.tolerance);
  EXPECT_EQ(o.chart.without_grid, said.chart.without_grid);
  EXPECT_EQ(o.chart.sizes, said.chart.sizes);
  EXPECT_EQ(o.chart.colour_names, said.chart.colour_names);
  EXPECT_EQ(o.printed.title, said.printed.title);
  EXPECT_EQ(o.longest_skip, said.longest_skip);
  EXPECT_EQ(o.shades, said.shades);
  EXPECT_EQ(MaterialsOf(o.materials).SerializeAsString(),
            MaterialsOf(said.materials).SerializeAsString());
}

// Every key has an example that is read, so that a comment can be made a key by its sign alone.
TEST(DesignText, ShowsExamplesThatAreRead) {
  for (const DesignKey& key : DesignKeys()) {
    const std::string table = key.table.empty() ? "" : "[" + key.table + "]\n";
    EXPECT_NO_THROW(ParseDesign("x.toml", table + key.name + " = " + key.example + "\n"))
        << key.name;
  }
  for (const DesignTable& table : DesignTables()) {
    EXPECT_NO_THROW(ParseDesign("x.toml", table.example)) << table.name;
  }
  EXPECT_NO_THROW(ParseDesign("x.toml", DesignText(DesignOptions(), "", {})));
}

TEST(FillFrom, LetsOptionsOverrideTheFile) {
  DesignOptions file;
  file.chart.technique = "inset";
  file.chart.facing = "two-face";
  file.chart.grid = "12/1";
  file.materials.gauges = {"14x16/4in"};
  file.materials.design_yarns["A"] = {{"wpi", "9"}, {"name", "Oat"}};
  DesignOptions typed;
  typed.chart.technique = "spike";
  typed.chart.without_grid = true;
  typed.materials.stitches_per_10cm = 18;
  typed.materials.rows_per_10cm = 20;
  typed.materials.wpi = 10;
  FillFrom(file, &typed);
  EXPECT_EQ(typed.chart.technique, "spike");
  EXPECT_EQ(typed.chart.facing, "two-face");
  EXPECT_EQ(typed.chart.grid, "");
  EXPECT_TRUE(typed.materials.gauges.empty());
  const v1::Materials materials = MaterialsOf(typed.materials);
  ASSERT_GT(materials.yarns_size(), 0);
  EXPECT_EQ(materials.yarns(0).role(), v1::YARN_ROLE_A);
  EXPECT_EQ(materials.yarns(0).yarn().wraps_per_inch(), 10);
  EXPECT_EQ(materials.yarns(0).yarn().name(), "Oat");
}

TEST(DesignPath, IsBesideTheChart) {
  EXPECT_EQ(DesignPathBeside("folder/mat.png"), "folder/mat.toml");
  EXPECT_EQ(DesignPathBeside("-"), "");
  EXPECT_EQ(FindDesignFile("", "nowhere/mat.png").path, "");
  EXPECT_THROW(FindDesignFile("nowhere/mat.toml", "mat.png"), Failure);
}

}  // namespace
}  // namespace rowproof::client
