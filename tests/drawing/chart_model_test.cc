#include <algorithm>
#include <optional>
#include <random>
#include <vector>

#include "gtest/gtest.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/drawing/charts/model.h"
#include "tests/drawing/sample_pattern.h"

namespace rowproof::drawing {
namespace {

using chart::Convention;
using chart::Hand;
using chart::Side;

ChartModel Model(const chart::Design& design, Hand hand = Hand::kRight) {
  auto model = ChartModel::Make(design, std::nullopt, hand);
  EXPECT_TRUE(model.ok()) << model.status();
  return *std::move(model);
}

TEST(ChartModel, NumbersRightSideRowsAtTheRightAndWrongSideRowsAtTheLeft) {
  const ChartModel model = Model(SampleDesign(6, 9, Convention::kPicture));
  ASSERT_EQ(model.labels.size(), 6u);
  for (const RowLabel& label : model.labels) {
    EXPECT_EQ(label.number, label.chart_row);
    EXPECT_EQ(label.side, label.number % 2 == 1 ? Side::kRightSide : Side::kWrongSide);
    EXPECT_EQ(label.at_right, label.number % 2 == 1);
  }
}

TEST(ChartModel, NumbersEveryRowAtTheOtherEdgeForALeftHandedMaker) {
  const ChartModel model = Model(SampleDesign(6, 9, Convention::kPicture), Hand::kLeft);
  for (const RowLabel& label : model.labels) EXPECT_EQ(label.at_right, label.number % 2 == 0);
  EXPECT_EQ(model.cell_colours, Model(SampleDesign(6, 9, Convention::kPicture)).cell_colours);
}

TEST(ChartModel, NumbersAllRowsAtOneEdgeWhereNothingIsTurned) {
  chart::Design design = SampleDesign(6, 9, Convention::kPicture);
  design.facing = chart::Facing::kOneFace;
  for (const RowLabel& label : Model(design).labels) EXPECT_TRUE(label.at_right);
}

TEST(ChartModel, GivesAChartRowOfInsetTwoWorkedRowsAtItsTwoEdges) {
  chart::Design design = SampleDesign(3, 9, Convention::kPicture);
  design.technique = chart::Technique::kInset;
  const ChartModel model = Model(design);
  ASSERT_EQ(model.labels.size(), 6u);
  // Chart row k: 2k-1 where RS rows start, 2k at the other edge.
  EXPECT_EQ(model.labels[4].chart_row, 3);
  EXPECT_EQ(model.labels[4].number, 5);
  EXPECT_TRUE(model.labels[4].at_right);
  EXPECT_EQ(model.labels[5].chart_row, 3);
  EXPECT_EQ(model.labels[5].number, 6);
  EXPECT_FALSE(model.labels[5].at_right);
}

TEST(ChartModel, CountsFromTheFirstRowsNumber) {
  chart::Design design = SampleDesign(12, 9, Convention::kPicture);
  design.first_row_number = 0;
  const ChartModel model = Model(design);
  EXPECT_EQ(model.labels.front().number, 0);
  EXPECT_EQ(model.highest_number, 11);
  EXPECT_TRUE(model.HeavyAfterRow(11));  // printed as 10
  EXPECT_FALSE(model.HeavyAfterRow(10));
}

TEST(ChartModel, MarksOffColourCellsOfAPictureAndDropsOfAWorkingChartOneRowHigher) {
  const chart::Design picture = SampleDesign(20, 15, Convention::kPicture);
  const ChartModel as_picture = Model(picture);
  const auto as_working = ChartModel::Make(picture, Convention::kWorking, Hand::kRight);
  ASSERT_TRUE(as_working.ok());
  int drops = 0;
  for (int row = 1; row < 20; ++row) {
    for (int stitch = 1; stitch <= 15; ++stitch) {
      EXPECT_EQ(as_picture.marks.at(row, stitch), as_working->marks.at(row + 1, stitch));
      drops += as_picture.marks.at(row, stitch) ? 1 : 0;
    }
  }
  EXPECT_GT(drops, 20);
}

TEST(ShownRowBand, MovesAPicturesRepeatedRowsOneRowUpInTheWorkingChart) {
  const auto working = ShownRowBand(BandedDesign(Convention::kPicture), Convention::kWorking);
  ASSERT_TRUE(working.ok());
  EXPECT_EQ(*working, (chart::Band{14, 29}));
  const auto picture = ShownRowBand(BandedDesign(Convention::kWorking), Convention::kPicture);
  ASSERT_TRUE(picture.ok());
  EXPECT_EQ(*picture, (chart::Band{12, 27}));
}

TEST(ShownRowBand, KeepsTheRowsOfABandThatEndsAtTheTopIfNoStitchChanges) {
  chart::Design design = SampleDesign(12, 9, Convention::kPicture);
  design.row_band = chart::Band{5, 12};
  design.cells = chart::Grid(12, 9);
  for (int row = 2; row <= 12; row += 2) {
    for (int stitch = 1; stitch <= 9; ++stitch) design.cells.set(row, stitch, true);
  }
  const auto band = ShownRowBand(design, Convention::kWorking);
  ASSERT_TRUE(band.ok());
  EXPECT_EQ(*band, (chart::Band{5, 12}));
}

TEST(ShownRowBand, RefusesABandThatTheOtherChartDoesNotHave) {
  chart::Design design = SampleDesign(12, 9, Convention::kPicture);
  design.row_band = chart::Band{5, 12};
  // Row 4, below the band, is off-colour: the band's first row is worked otherwise the first time.
  design.cells.set(4, 5, false);
  const auto band = ShownRowBand(design, Convention::kWorking);
  EXPECT_EQ(band.status().code(), absl::StatusCode::kInvalidArgument);
  ASSERT_EQ(DetailOf(band.status()).fields.size(), 1u);
  EXPECT_EQ(DetailOf(band.status()).fields[0].field, "kind");
}

// The chart in the other convention, with its own band, is the same fabric in every size.
TEST(ShownRowBand, GivesAChartOfTheSameStitchesInEverySizeWhereverTheBandLies) {
  std::mt19937 random(20261125);
  int shown = 0;
  int refused = 0;
  for (int trial = 0; trial < 400; ++trial) {
    const auto convention = trial % 2 == 0 ? Convention::kPicture : Convention::kWorking;
    const auto other = trial % 2 == 0 ? Convention::kWorking : Convention::kPicture;
    chart::Design design = SampleDesign(12, 9, Convention::kWorking);
    for (int row = 2; row <= 12; ++row) {
      for (int stitch = 1; stitch <= 9; ++stitch) {
        design.cells.set(row, stitch, random() % 8 == 0);
      }
    }
    if (convention == Convention::kPicture) {
      std::vector<chart::Colour> colours;
      for (int row = 1; row <= 12; ++row) colours.push_back(chart::RowColour(design, row));
      design.cells = chart::PictureFromDrops(design.cells, colours);
      design.convention = Convention::kPicture;
    }
    const int first = 1 + static_cast<int>(random() % 11);
    const int length = 2 * (1 + static_cast<int>(random() % 3));
    design.row_band = chart::Band{first, std::min(12, first + length - 1)};
    if (design.row_band->length() % 2 == 1) --design.row_band->first;
    design.sizes = {{"one", 1, 1}, {"two", 1, 2}, {"five", 1, 5}};
    const auto model = ChartModel::Make(design, other, Hand::kRight);
    if (!model.ok()) {
      ++refused;
      // Only a band that reaches the edge of the chart may have no rows in the other one.
      EXPECT_TRUE(design.row_band->first == 1 || design.row_band->last == 12);
      continue;
    }
    ++shown;
    chart::Design changed = design;
    changed.convention = other;
    changed.row_band = model->row_band;
    changed.cells = model->marks;
    if (other == Convention::kPicture) {
      for (int row = 1; row <= 12; ++row) {
        for (int stitch = 1; stitch <= 9; ++stitch) {
          changed.cells.set(row, stitch, model->ColourAt(row, stitch) == 1);
        }
      }
    }
    for (int size = 0; size < 3; ++size) {
      EXPECT_EQ(chart::Expand(changed, size).drops, chart::Expand(design, size).drops)
          << "trial " << trial << " size " << size;
    }
  }
  EXPECT_GT(shown, 250);
  EXPECT_GT(refused, 5);
}

TEST(ChartModel, WritesRepeatsOnceForEachSize) {
  const ChartModel model = Model(BandedDesign(Convention::kPicture));
  EXPECT_EQ(model.repeated_stitches, "stitches 11 to 18");
  EXPECT_EQ(model.stitch_times, "12 (18) times");
  EXPECT_EQ(model.repeated_rows, "rows 13 to 28");
  EXPECT_EQ(model.row_times, "4 (7) times");
  EXPECT_EQ(model.sizes, "throw (blanket)");
}

TEST(ChartModel, RefusesADesignThatIsNotWellFormed) {
  chart::Design design = SampleDesign(12, 9, Convention::kPicture);
  design.row_band = chart::Band{5, 13};
  EXPECT_EQ(ChartModel::Make(design, std::nullopt, Hand::kRight).status().code(),
            absl::StatusCode::kInvalidArgument);
}

}  // namespace
}  // namespace rowproof::drawing
