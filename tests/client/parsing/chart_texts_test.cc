// Parts of a chart as people type them, right and wrong.
#include "services/client/parsing/chart_texts.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <string>
#include <vector>

namespace rowproof::client {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// A usage failure that names the option, what was met and what is accepted.
void ExpectWrong(const std::function<void()>& read, const std::string& met,
                 const std::string& accepted) {
  try {
    read();
    ADD_FAILURE() << met << " was accepted";
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.code(), ExitCode::kUsage);
    EXPECT_THAT(failure.line(), HasSubstr("--it must be "));
    EXPECT_THAT(failure.line(), HasSubstr("(got \"" + met + "\")"));
    EXPECT_THAT(failure.line(), HasSubstr(accepted));
  }
}

TEST(RowColours, AreLettersAndGroupsThatRepeat) {
  EXPECT_THAT(RowColoursOf("--it", "ABAC"),
              ElementsAre(v1::COLOUR_A, v1::COLOUR_B, v1::COLOUR_A, v1::COLOUR_C));
  EXPECT_THAT(RowColoursOf("--it", " AB*2, H "),
              ElementsAre(v1::COLOUR_A, v1::COLOUR_B, v1::COLOUR_A, v1::COLOUR_B, v1::COLOUR_H));
  EXPECT_THAT(RowColoursOf("--it", ""), IsEmpty());
  EXPECT_EQ(RowColoursOf("--it", "AB*2000").size(), 4000u);
}

TEST(RowColours, RefuseOtherLettersWrongGroupsAndMoreRowsThanAChartHas) {
  for (const char* text :
       {"ABI", "ab", "A*", "*3", "A*0", "A*-1", "A*2x", "AB*2001", "A*4001", "A*99999999999999"}) {
    ExpectWrong([&] { RowColoursOf("--it", text); }, text, "letters A to H");
  }
}

TEST(CellArea, IsRowsThenStitches) {
  const auto area = AreaOf("--it", "5-8:1-10");
  EXPECT_EQ(area.first_row(), 5);
  EXPECT_EQ(area.last_row(), 8);
  EXPECT_EQ(area.first_stitch(), 1);
  EXPECT_EQ(area.last_stitch(), 10);
  EXPECT_EQ(AreaOf("--it", "5:3").last_row(), 5);
  EXPECT_EQ(AreaOf("--it", "all:1").first_row(), 0);
  EXPECT_EQ(AreaOf("--it", "all:1").last_row(), 0);
  for (const char* text : {"", "5", "5:", ":3", "0:1", "8-5:1", "1:2:3", "a:b", "1-2-3:1"}) {
    ExpectWrong([&] { AreaOf("--it", text); }, text, "ROWS:STITCHES");
  }
}

TEST(Grid, IsThePitchAndTheWidthOfItsLines) {
  const auto grid = GridOf("--it", "12x10.5/2x1");
  EXPECT_EQ(grid.pitch_x_px(), 12);
  EXPECT_EQ(grid.pitch_y_px(), 10.5);
  EXPECT_EQ(grid.line_width_x_px(), 2);
  EXPECT_EQ(grid.line_width_y_px(), 1);
  EXPECT_EQ(GridOf("--it", "8").pitch_y_px(), 8);
  EXPECT_EQ(GridOf("--it", "8").line_width_x_px(), 0);
  for (const char* text : {"", "x", "12/", "12/1/1", "12x", "-1", "nan", "12x1x1", "1e3"}) {
    ExpectWrong([&] { GridOf("--it", text); }, text, "12/1");
  }
}

TEST(Crop, IsFourSides) {
  const auto crop = CropOf("--it", "40,0,41,25");
  EXPECT_EQ(crop.left(), 40);
  EXPECT_EQ(crop.top(), 0);
  EXPECT_EQ(crop.right(), 41);
  EXPECT_EQ(crop.bottom(), 25);
  for (const char* text : {"", "1,2,3", "1,2,3,4,5", "1,2,3,-4", "1, 2,3,4", "1,2,3,4px"}) {
    ExpectWrong([&] { CropOf("--it", text); }, text, "left, top, right and bottom");
  }
}

TEST(Shades, AreListedFromAOnWithoutAGap) {
  EXPECT_THAT(ShadesOf("--it", {"B=#222222", "A=#111111"}), ElementsAre("#111111", "#222222"));
  EXPECT_THAT(ShadesOf("--it", {}), IsEmpty());
  ExpectWrong([] { ShadesOf("--it", {"B=#222222"}); }, "B=#222222", "from A on");
  ExpectWrong([] { ShadesOf("--it", {"#222222"}); }, "#222222", "LETTER=#rrggbb");
}

TEST(FileFormat, FollowsTheEndingOfTheName) {
  EXPECT_EQ(FileFormatOf("--it", "a/b.PNG", false), v1::CHART_FILE_FORMAT_PNG);
  EXPECT_EQ(FileFormatOf("--it", "b.ppm", false), v1::CHART_FILE_FORMAT_RAW_PPM);
  EXPECT_EQ(FileFormatOf("--it", "b.pgm", true), v1::CHART_FILE_FORMAT_PLAIN_PGM);
  EXPECT_EQ(FileFormatOf("--it", "b.tsv", true), v1::CHART_FILE_FORMAT_TSV);
  ExpectWrong([] { FileFormatOf("--it", "b.gif", false); }, "b.gif", ".png, .pbm");
}

}  // namespace
}  // namespace rowproof::client
