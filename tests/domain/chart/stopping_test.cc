// Every search of a chart ends when it is told to, wherever it is.
#include <gtest/gtest.h>

#include <random>

#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/conversion/conversion.h"
#include "services/domain/chart/repair/repair.h"
#include "services/domain/chart/repeats/repeat_finder.h"
#include "services/domain/chart/technique.h"
#include "tests/support/expect_stops.h"

namespace rowproof::chart {
namespace {

// Hardly a column can be worked.
Design RandomCells(int rows, int stitches) {
  std::mt19937_64 random(1);
  Design design;
  design.cells = Grid(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    const auto words = design.cells.mutable_row(row);
    for (uint64_t& word : words) word = random();
    words.back() &= design.cells.last_word_mask();
  }
  return design;
}

// Four colours, row by row in turn; the cells show any of them.
Design RandomColours(int rows, int stitches) {
  std::mt19937_64 random(2);
  Design design;
  design.cells = Grid(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    design.row_colours.push_back(static_cast<Colour>((row - 1) % 4));
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      const auto colour = static_cast<Colour>(random() % 4);
      design.picture_colours.push_back(colour);
      design.cells.set(row, stitch, colour != design.row_colours.back());
    }
  }
  return design;
}

Design Plain(int rows, int stitches) {
  Design design;
  design.convention = Convention::kWorking;
  design.cells = Grid(rows, stitches);
  return design;
}

template <typename Result>
absl::Status StatusOf(const absl::StatusOr<Result>& result) {
  return result.status();
}

TEST(Stopping, EndsACheck) {
  const Design design = RandomColours(300, 600);
  ExpectStops(3, [&](const Stop& stop) {
    Check(design, {}, stop);
    return stop.status();
  });
}

TEST(Stopping, EndsAValidation) {
  const Design design = RandomColours(600, 1200);
  ExpectStops(2, [&](const Stop& stop) { return Validate(design, stop); });
}

TEST(Stopping, EndsARepair) {
  const Design design = RandomCells(400, 900);
  ExpectStops(5, [&](const Stop& stop) { return StatusOf(FindRepair(design, {}, stop)); });
}

TEST(Stopping, EndsARepairOfColours) {
  const Design design = RandomColours(200, 400);
  ExpectStops(4, [&](const Stop& stop) { return StatusOf(FindRepair(design, {}, stop)); });
}

TEST(Stopping, EndsARepairWithEverySymmetry) {
  const Design design = RandomCells(151, 200);
  for (const bool half_turn : {false, true}) {
    RepairOptions options;
    options.left_right = true;
    options.half_turn = half_turn;
    ExpectStops(5, [&](const Stop& stop) { return StatusOf(FindRepair(design, options, stop)); });
  }
}

TEST(Stopping, EndsARepairWithLocks) {
  const Design design = Plain(200, 300);
  RepairOptions options;
  options.locked = Grid(200, 300);
  for (int row = 1; row <= 200; ++row) options.locked.set(row, row, true);
  ExpectStops(5, [&](const Stop& stop) { return StatusOf(FindRepair(design, options, stop)); });
}

// Wide enough for strips.
TEST(Stopping, EndsARepairWithALimitOnRuns) {
  const Design design = RandomCells(80, 120);
  RepairOptions options;
  options.longest_run = 2;
  options.most_steps = 2'000'000;
  ExpectStops(20, [&](const Stop& stop) { return StatusOf(FindRepair(design, options, stop)); });
}

TEST(Stopping, LeavesNothingBehindInARepair) {
  const Design design = RandomCells(60, 80);
  RepairOptions options;
  options.longest_run = 2;
  options.most_steps = 500'000;
  const auto before = FindRepair(design, options);
  ASSERT_TRUE(before.ok());
  StopsAtLook signal(3);
  ASSERT_FALSE(FindRepair(design, options, Stop(signal)).ok());
  const auto after = FindRepair(design, options);
  ASSERT_TRUE(after.ok());
  EXPECT_EQ(before->edits, after->edits);
  EXPECT_EQ(before->lower_bound, after->lower_bound);
}

TEST(Stopping, EndsTheSearchForRepeats) {
  const Design design = Plain(1000, 1000);
  RepeatOptions options;
  options.most_answers = kMostRepeatAnswers;
  ExpectStops(5, [&](const Stop& stop) { return StatusOf(FindRepeats(design, options, stop)); });
}

TEST(Stopping, EndsAConversion) {
  Design design = RandomCells(300, 600);
  // Rows of one colour: every mark is lost.
  design.row_colours.assign(300, Colour::kA);
  ConversionTarget target;
  target.convention = Convention::kWorking;
  ExpectStops(3, [&](const Stop& stop) { return StatusOf(Convert(design, target, stop)); });
}

}  // namespace
}  // namespace rowproof::chart
