// "Multiple of P plus M".
#include "services/domain/chart/multiple.h"

#include "gtest/gtest.h"
#include "services/domain/chart/expand.h"
#include "tests/domain/chart/random_designs.h"

namespace rowproof::chart {
namespace {

TEST(Multiple, IsStatedForStitchesAndWorkedRows) {
  Design design;
  design.cells = Grid(10, 18);
  EXPECT_EQ(StitchMultiple(design), std::nullopt);
  EXPECT_EQ(RowMultiple(design), std::nullopt);
  design.stitch_band = Band{6, 13};
  design.row_band = Band{3, 6};
  EXPECT_EQ(Words(*StitchMultiple(design)), "multiple of 8 plus 10");
  EXPECT_EQ(Words(*RowMultiple(design)), "multiple of 4 plus 6");
  design.technique = Technique::kInset;
  EXPECT_EQ(Words(*RowMultiple(design)), "multiple of 8 plus 12");
  design.row_band = Band{1, 10};
  EXPECT_EQ(Words(*RowMultiple(design)), "multiple of 20");
}

TEST(Multiple, GivesTheCountsOfEverySize) {
  RandomDesigns random(5);
  for (int i = 0; i < 300; ++i) {
    const Design design = random.NextOfAll(12, 20);
    for (size_t size = 0; size < design.sizes.size(); ++size) {
      const int index = static_cast<int>(size);
      if (const auto stitches = StitchMultiple(design)) {
        EXPECT_EQ(stitches->rest + design.sizes[size].stitch_repeats * stitches->repeat,
                  ExpandedStitches(design, index));
      }
      if (const auto rows = RowMultiple(design)) {
        EXPECT_EQ(rows->rest + design.sizes[size].row_repeats * rows->repeat,
                  ExpandedRows(design, index) * WorkedRows(design));
      }
    }
  }
}

}  // namespace
}  // namespace rowproof::chart
