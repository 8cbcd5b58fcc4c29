// What makes a design well formed, with the field named where it is not.
#include "services/domain/chart/design.h"

#include "gmock/gmock.h"
#include "gtest/gtest.h"
#include "services/domain/errors.h"
#include "tests/domain/chart/chart_text.h"

namespace rowproof::chart {
namespace {

std::string FieldOf(const Design& design) {
  const absl::Status status = Validate(design);
  if (status.ok()) return "";
  EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
  const auto fields = DetailOf(status).fields;
  return fields.empty() ? "none" : fields.front().field;
}

Design Banded() {
  Design design = Picture({"BBB", "AAA", "BBB", "AAA"});
  design.row_band = Band{1, 2};
  design.stitch_band = Band{2, 3};
  design.sizes = {{"S", 1, 1}, {"M", 2, 3}};
  return design;
}

TEST(Design, WithBandsAndSizesThatFitIsValid) {
  EXPECT_EQ(FieldOf(Banded()), "");
  EXPECT_EQ(FieldOf(Picture({"A"})), "");
}

TEST(Design, NeedsCells) { EXPECT_EQ(FieldOf(Design{}), "cells"); }

TEST(Design, NamesTheBandThatLiesOutsideTheChart) {
  Design design = Banded();
  design.row_band = Band{0, 2};
  EXPECT_EQ(FieldOf(design), "row_band.first");
  design.row_band = Band{3, 5};
  EXPECT_EQ(FieldOf(design), "row_band.last");
  design = Banded();
  design.stitch_band = Band{3, 2};
  EXPECT_EQ(FieldOf(design), "stitch_band.last");
  design.stitch_band = Band{4, 4};
  EXPECT_EQ(FieldOf(design), "stitch_band.first");
}

TEST(Design, NamesTheSizeThatDoesNotFitTheBands) {
  Design design = Banded();
  design.sizes[1].row_repeats = 0;
  EXPECT_EQ(FieldOf(design), "sizes[1].row_repeat_count");
  design.sizes[1].row_repeats = kMostRepeats + 1;
  EXPECT_EQ(FieldOf(design), "sizes[1].row_repeat_count");
  design.sizes[1].row_repeats = 1999;
  EXPECT_EQ(FieldOf(design), "");  // 4 + 1998 * 2 = 4000 rows
  design.sizes[1].row_repeats = 2000;
  EXPECT_EQ(FieldOf(design), "sizes[1].row_repeat_count");
  design = Banded();
  design.sizes[0].stitch_repeats = 4000;
  EXPECT_EQ(FieldOf(design), "sizes[0].stitch_repeat_count");
  design = Banded();
  design.stitch_band.reset();
  EXPECT_EQ(FieldOf(design), "sizes[1].stitch_repeat_count");
}

TEST(Design, NamesTheSizeWhoseNameIsWrong) {
  Design design = Banded();
  design.sizes[1].name = "S";
  EXPECT_EQ(FieldOf(design), "sizes[1].name");
  design.sizes[1].name = "";
  EXPECT_EQ(FieldOf(design), "sizes[1].name");
  design.sizes[1].name = std::string(61, 'x');
  EXPECT_EQ(FieldOf(design), "sizes[1].name");
  design.sizes[1].name = "M\n";
  EXPECT_EQ(FieldOf(design), "sizes[1].name");
  design.sizes[1].name = std::string("M\0", 2);
  EXPECT_EQ(FieldOf(design), "sizes[1].name");
}

TEST(Design, HasBetweenOneAndTwentySizes) {
  Design design = Banded();
  design.sizes.clear();
  EXPECT_EQ(FieldOf(design), "sizes");
  for (int i = 0; i <= kMostSizes; ++i) design.sizes.push_back({std::to_string(i), 1, 1});
  EXPECT_EQ(FieldOf(design), "sizes");
  design.sizes.pop_back();
  EXPECT_EQ(FieldOf(design), "");
}

TEST(Design, ListsOneColourForEachRowOrNone) {
  Design design = Banded();
  design.row_colours = {Colour::kA, Colour::kB, Colour::kA};
  EXPECT_EQ(FieldOf(design), "row_colours");
  design.row_colours.push_back(Colour::kA);
  EXPECT_EQ(FieldOf(design), "");
  EXPECT_EQ(RowColour(design, 4), Colour::kA);
  design.row_colours.clear();
  EXPECT_EQ(RowColour(design, 4), Colour::kB);
}

// Three rows of two stitches in A, B and C; stitch 2 of row 1 shows B.
Design NamedPicture() {
  Design design;
  design.cells = Grid(3, 2);
  design.row_colours = {Colour::kA, Colour::kB, Colour::kC};
  design.picture_colours = {Colour::kA, Colour::kB, Colour::kB, Colour::kB, Colour::kC, Colour::kC};
  design.cells.set(1, 2, true);
  return design;
}

TEST(Design, NamesTheColoursOfAPictureWhoseRowsGoBeyondAAndB) {
  Design design = NamedPicture();
  EXPECT_EQ(FieldOf(design), "");
  EXPECT_TRUE(HasMoreThanTwoColours(design));
  EXPECT_TRUE(NamesColours(design));
  EXPECT_EQ(PictureCell(design, 2, 1), 2U);
  design.picture_colours.pop_back();
  EXPECT_EQ(FieldOf(design), "picture_colours");
  design.picture_colours.clear();
  EXPECT_EQ(FieldOf(design), "picture_colours");
}

TEST(Design, NamesNoColoursInAWorkingChartOrInTwoColours) {
  Design design = NamedPicture();
  design.convention = Convention::kWorking;
  EXPECT_EQ(FieldOf(design), "picture_colours");
  design.picture_colours.clear();
  EXPECT_EQ(FieldOf(design), "");
  design = NamedPicture();
  design.row_colours[2] = Colour::kA;
  EXPECT_EQ(FieldOf(design), "picture_colours");
}

TEST(Design, HasACellSetExactlyWhereItNamesAnotherColourThanItsRows) {
  Design design = NamedPicture();
  design.cells.set(2, 1, true);
  EXPECT_EQ(FieldOf(design), "picture_colours[2]");
  design.cells.set(2, 1, false);
  design.cells.set(1, 2, false);
  EXPECT_EQ(FieldOf(design), "picture_colours[1]");
}

TEST(Design, HasColoursAToHOnly) {
  Design design = NamedPicture();
  design.row_colours[1] = static_cast<Colour>(8);
  EXPECT_EQ(FieldOf(design), "row_colours[1]");
  design = NamedPicture();
  design.picture_colours[1] = static_cast<Colour>(8);
  EXPECT_EQ(FieldOf(design), "picture_colours[1]");
  design = NamedPicture();
  design.foundation_colour = static_cast<Colour>(8);
  EXPECT_EQ(FieldOf(design), "foundation_colour");
  design.foundation_colour = Colour::kH;
  EXPECT_EQ(FieldOf(design), "");
  EXPECT_STREQ(Name(Colour::kH), "H");
}

TEST(Design, IsNoTubeInInset) {
  Design design = Banded();
  design.form = Form::kTube;
  EXPECT_EQ(FieldOf(design), "");
  design.technique = Technique::kInset;
  EXPECT_EQ(FieldOf(design), "form");
}

TEST(Design, NumbersItsFirstRowFromZeroToAThousand) {
  Design design = Banded();
  design.first_row_number = -1;
  EXPECT_EQ(FieldOf(design), "first_row_number");
  design.first_row_number = 1001;
  EXPECT_EQ(FieldOf(design), "first_row_number");
  design.first_row_number = 0;
  EXPECT_EQ(FieldOf(design), "");
}

TEST(Grid, KeepsCellsApartAcrossWords) {
  Grid grid(2, 130);
  grid.set(1, 64, true);
  grid.set(1, 65, true);
  grid.set(2, 130, true);
  EXPECT_TRUE(grid.at(1, 64));
  EXPECT_TRUE(grid.at(1, 65));
  EXPECT_FALSE(grid.at(1, 66));
  EXPECT_FALSE(grid.at(2, 64));
  EXPECT_TRUE(grid.at(2, 130));
  EXPECT_EQ(grid.last_word_mask(), 3U);
  grid.set(1, 64, false);
  EXPECT_FALSE(grid.at(1, 64));
  EXPECT_EQ(Grid(1, 64).last_word_mask(), ~uint64_t{0});
}

}  // namespace
}  // namespace rowproof::chart
