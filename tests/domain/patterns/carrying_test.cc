#include "services/domain/patterns/carrying.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "services/domain/errors.h"
#include "services/domain/patterns/row_contents.h"
#include "tests/domain/patterns/sample_content.h"

namespace rowproof::patterns {
namespace {

using testing::ElementsAre;

SizeDifference Between(const std::vector<std::string>& before,
                       const std::vector<std::string>& after) {
  return CompareSize(WorkingChart(before), 0, WorkingChart(after), 0);
}

CarriedPlace CarriedBy(const SizeDifference& difference, const Place& place) {
  const auto carried = Carry(difference, place);
  EXPECT_TRUE(carried.ok()) << carried.status();
  return carried.value_or(CarriedPlace{});
}

std::string FieldOf(const absl::Status& status) {
  EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
  const auto fields = DetailOf(status).fields;
  return fields.empty() ? "?" : fields[0].field;
}

const std::vector<std::string> kBefore = {".x...", "...x.", "x....", ".....", "....."};

TEST(Carrying, LeavesAPlaceWhereTheRowIsTheSame) {
  const auto difference = Between(kBefore, {".x...", "...xx", "x....", ".....", "....."});
  EXPECT_EQ(CarriedBy(difference, {3, 1, 5}),
            (CarriedPlace{CarriedKind::kSamePlace, {3, 1, 5}, false}));
}

TEST(Carrying, MovesAPlaceWithItsRow) {
  const auto difference =
      Between(kBefore, {".x...", "...x.", "x....", ".....", ".....", ".....", "....."});
  EXPECT_EQ(CarriedBy(difference, {4, 2, 3}),
            (CarriedPlace{CarriedKind::kMoved, {6, 2, 3}, false}));
}

TEST(Carrying, TellsWhetherAChangedRowChangedAtThePlace) {
  const auto difference = Between(kBefore, {".x...", "x..x.", "x....", ".....", "....."});
  EXPECT_EQ(CarriedBy(difference, {4, 4, 5}),
            (CarriedPlace{CarriedKind::kRowChanged, {4, 4, 5}, true}));
  EXPECT_EQ(CarriedBy(difference, {4, 1, 2}),
            (CarriedPlace{CarriedKind::kRowChanged, {4, 1, 2}, false}));
  EXPECT_EQ(CarriedBy(difference, {4, 0, 0}),
            (CarriedPlace{CarriedKind::kRowChanged, {4, 0, 0}, true}));
}

TEST(Carrying, SaysThatARowIsGone) {
  const auto difference = Between(kBefore, {"x....", ".....", "....."});
  EXPECT_EQ(CarriedBy(difference, {4, 2, 2}), (CarriedPlace{CarriedKind::kRowGone, {}, false}));
}

TEST(Carrying, ShiftsStitchesPastAStitchPutIn) {
  // One plain stitch more after stitch 3.
  const auto difference = Between({"x.x.x.x", "x.....x"}, {"x.x..x.x", "x......x"});
  ASSERT_THAT(difference.rows[1].new_stitches, ElementsAre(StitchRange{5, 5}));
  EXPECT_EQ(CarriedBy(difference, {2, 1, 3}),
            (CarriedPlace{CarriedKind::kRowChanged, {2, 1, 3}, false}));
  EXPECT_EQ(CarriedBy(difference, {2, 6, 7}),
            (CarriedPlace{CarriedKind::kRowChanged, {2, 7, 8}, false}));
  EXPECT_EQ(CarriedBy(difference, {2, 3, 6}),
            (CarriedPlace{CarriedKind::kRowChanged, {2, 3, 7}, true}));
}

TEST(Carrying, LeavesNoStitchesWhereAllWereTakenAway) {
  const auto difference = Between({"x.xx.x", "......"}, {"x..x", "...."});
  ASSERT_THAT(difference.rows[1].old_stitches, ElementsAre(StitchRange{3, 4}));
  EXPECT_EQ(CarriedBy(difference, {2, 3, 4}),
            (CarriedPlace{CarriedKind::kRowChanged, {2, 0, 0}, true}));
  EXPECT_EQ(CarriedBy(difference, {2, 4, 6}),
            (CarriedPlace{CarriedKind::kRowChanged, {2, 3, 4}, true}));
}

TEST(Carrying, TreatsEveryPlaceAsConcernedWhereTheTechniqueIsAnother) {
  chart::Design before = WorkingChart(kBefore);
  before.facing = chart::Facing::kOneFace;
  chart::Design after = before;
  after.technique = chart::Technique::kOverlay;
  EXPECT_EQ(CarriedBy(CompareSize(before, 0, after, 0), {3, 2, 2}),
            (CarriedPlace{CarriedKind::kRowChanged, {3, 2, 2}, true}));
}

TEST(Carrying, RefusesPlacesThatAreNone) {
  const auto difference = Between(kBefore, kBefore);
  EXPECT_EQ(FieldOf(Carry(difference, {0, 1, 1}).status()), "row");
  EXPECT_EQ(FieldOf(Carry(difference, {6, 1, 1}).status()), "row");
  EXPECT_EQ(FieldOf(Carry(difference, {1, 0, 1}).status()), "first_stitch");
  EXPECT_EQ(FieldOf(Carry(difference, {1, -1, 1}).status()), "first_stitch");
  EXPECT_EQ(FieldOf(Carry(difference, {1, 3, 2}).status()), "last_stitch");
}

TEST(ChangesFrom, PartsTheChangesAtTheLastRowWorked) {
  const auto difference = Between(kBefore, {".xx..", "...x.", "x...x", ".....", "....."});
  const auto changes = ChangesFrom(difference, 4);
  ASSERT_TRUE(changes.ok());
  ASSERT_EQ(changes->behind.size(), 1u);
  EXPECT_EQ(changes->behind[0].old_row, 3);
  ASSERT_EQ(changes->ahead.size(), 1u);
  EXPECT_EQ(changes->ahead[0].new_row, 5);
  EXPECT_EQ(changes->next_row, 5);
}

TEST(ChangesFrom, CountsARowAddedRightAfterTheLastAsAhead) {
  const auto difference =
      Between(kBefore, {".x...", "...x.", ".x.x.", "x.x.x", "x....", ".....", "....."});
  const auto here = ChangesFrom(difference, 3);
  ASSERT_TRUE(here.ok());
  EXPECT_TRUE(here->behind.empty());
  EXPECT_EQ(here->ahead.size(), 2u);
  EXPECT_EQ(here->next_row, 4);
  const auto past = ChangesFrom(difference, 4);
  ASSERT_TRUE(past.ok());
  EXPECT_EQ(past->behind.size(), 2u);
  EXPECT_TRUE(past->ahead.empty());
  EXPECT_EQ(past->next_row, 7);
}

TEST(ChangesFrom, KnowsTheStartTheEndAndNothingBeyond) {
  const auto difference = Between(kBefore, {".xx..", "...x.", "x...x", ".....", "....."});
  const auto start = ChangesFrom(difference, 0);
  ASSERT_TRUE(start.ok());
  EXPECT_EQ(start->ahead.size(), 2u);
  EXPECT_EQ(start->next_row, 1);
  const auto end = ChangesFrom(difference, 5);
  ASSERT_TRUE(end.ok());
  EXPECT_EQ(end->behind.size(), 2u);
  EXPECT_EQ(end->next_row, 0);
  EXPECT_EQ(FieldOf(ChangesFrom(difference, -1).status()), "last_row");
  EXPECT_EQ(FieldOf(ChangesFrom(difference, 6).status()), "last_row");
}

TEST(Carrying, AgreesWithTheAlignmentAndWithTheStitches) {
  std::mt19937_64 random(61);
  for (int round = 0; round < 150; ++round) {
    VersionContent before = RandomVersion(random);
    VersionContent after = before;
    if (round % 2 == 0) {
      after.design = RandomVersion(random).design;
      after.design.technique = before.design.technique;
      after.design.form = before.design.form;
      if (before.design.technique == chart::Technique::kInset) {
        after.design.form = chart::Form::kFlat;
      }
    } else {
      after.design.cells.set(Pick(random, 1, after.design.cells.rows()),
                             Pick(random, 1, after.design.cells.stitches()), true);
    }
    const SizeDifference difference = CompareSize(before.design, 0, after.design, 0);
    const RowContents old_rows = WorkedRows(before.design, 0);
    const RowContents new_rows = WorkedRows(after.design, 0);
    ASSERT_EQ(difference.new_row.size(), old_rows.rows.size());
    const int old_stitches = old_rows.stitches.stitches();
    for (int row = 1; row <= static_cast<int>(old_rows.rows.size()); ++row) {
      const int first = Pick(random, 1, old_stitches);
      const Place place{row, first, Pick(random, first, old_stitches)};
      const CarriedPlace carried = CarriedBy(difference, place);
      const int to = difference.new_row[static_cast<size_t>(row - 1)];
      ASSERT_EQ(carried.to.row, to);
      ASSERT_EQ(carried.kind == CarriedKind::kRowGone, to == 0);
      const bool same = to != 0 && difference.same_old_row[static_cast<size_t>(to - 1)] == row;
      ASSERT_EQ(carried.kind == CarriedKind::kSamePlace || carried.kind == CarriedKind::kMoved,
                same);
      if (carried.to.first_stitch == 0) continue;
      ASSERT_LE(carried.to.last_stitch, new_rows.stitches.stitches());
      if (carried.touched) continue;
      // An untouched place holds the same stitches in its new place.
      ASSERT_EQ(carried.to.last_stitch - carried.to.first_stitch,
                place.last_stitch - place.first_stitch);
      const auto& old_row = old_rows.rows[static_cast<size_t>(row - 1)];
      const auto& new_row = new_rows.rows[static_cast<size_t>(to - 1)];
      const auto drop = [](const RowContents& rows, int at, int stitch) {
        return at != 0 && rows.stitches.at(at, stitch);
      };
      for (int n = 0; n <= place.last_stitch - place.first_stitch; ++n) {
        const int from_stitch = place.first_stitch + n;
        const int to_stitch = carried.to.first_stitch + n;
        ASSERT_EQ(drop(old_rows, old_row.drops_row, from_stitch),
                  drop(new_rows, new_row.drops_row, to_stitch));
        ASSERT_EQ(drop(old_rows, old_row.skips_row, from_stitch),
                  drop(new_rows, new_row.skips_row, to_stitch));
      }
    }
  }
}

}  // namespace
}  // namespace rowproof::patterns
