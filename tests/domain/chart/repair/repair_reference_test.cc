// FindRepair against exhaustive search on small charts and a plain programme on random ones.
#include <algorithm>
#include <bit>
#include <limits>

#include "gtest/gtest.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/repair/repair.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/plain_rules.h"
#include "tests/domain/chart/random_designs.h"

namespace rowproof::chart {
namespace {

Grid ChartOf(uint32_t bits, int rows, int stitches) {
  Grid grid(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    grid.mutable_row(row)[0] = bits >> ((row - 1) * stitches) & ((uint32_t{1} << stitches) - 1);
  }
  return grid;
}

uint32_t BitsOf(const Grid& grid) {
  uint32_t bits = 0;
  for (int row = grid.rows(); row >= 1; --row) {
    bits = bits << grid.stitches() | static_cast<uint32_t>(grid.row(row)[0]);
  }
  return bits;
}

// Designs of the given dimensions: no band, and every row band that can be repeated, in two sizes.
std::vector<Design> Variants(int rows, int stitches) {
  std::vector<Design> variants;
  for (const Convention convention : {Convention::kPicture, Convention::kWorking}) {
    Design design;
    design.convention = convention;
    design.cells = Grid(rows, stitches);
    variants.push_back(design);
    design.sizes = {{"S", 1, 1}, {"M", 1, 3}};
    for (int first = 1; first <= rows; ++first) {
      for (int last = first; last <= rows; ++last) {
        design.row_band = Band{first, last};
        design.row_colours.clear();
        if (design.row_band->length() % 2 != 0) {
          for (int row = 1; row <= rows; ++row) {
            design.row_colours.push_back(row % 3 == 0 ? Colour::kA : Colour::kB);
          }
        }
        variants.push_back(design);
      }
    }
  }
  return variants;
}

std::vector<bool> WorkableCharts(Design design) {
  const int rows = design.cells.rows();
  const int stitches = design.cells.stitches();
  std::vector<bool> workable(size_t{1} << (rows * stitches));
  for (uint32_t bits = 0; bits < workable.size(); ++bits) {
    design.cells = ChartOf(bits, rows, stitches);
    workable[bits] = PlainCheck(design).error_count == 0;
  }
  return workable;
}

// Fewest changed cells from each chart to a workable one, by stepping one cell at a time.
std::vector<int> Distances(const std::vector<bool>& workable) {
  std::vector<int> distance(workable.size(), -1);
  std::vector<uint32_t> reached;
  for (uint32_t bits = 0; bits < workable.size(); ++bits) {
    if (!workable[bits]) continue;
    distance[bits] = 0;
    reached.push_back(bits);
  }
  for (size_t next = 0; next < reached.size(); ++next) {
    const uint32_t bits = reached[next];
    for (uint32_t cell = 1; cell < workable.size(); cell <<= 1) {
      if (distance[bits ^ cell] >= 0) continue;
      distance[bits ^ cell] = distance[bits] + 1;
      reached.push_back(bits ^ cell);
    }
  }
  return distance;
}

void CompareWithSearch(Design design, uint32_t stride) {
  const int rows = design.cells.rows();
  const int stitches = design.cells.stitches();
  const std::vector<bool> workable = WorkableCharts(design);
  const std::vector<int> distance = Distances(workable);
  for (uint32_t bits = 0; bits < workable.size(); bits += stride) {
    design.cells = ChartOf(bits, rows, stitches);
    const auto repair = FindRepair(design);
    ASSERT_TRUE(repair.ok()) << repair.status();
    const uint32_t mended = BitsOf(repair->repaired);
    ASSERT_TRUE(workable[mended]) << ::testing::PrintToString(ToText(design.cells));
    ASSERT_EQ(repair->edit_count, distance[bits]) << ::testing::PrintToString(ToText(design.cells));
    ASSERT_EQ(std::popcount(bits ^ mended), distance[bits]);
    ASSERT_EQ(static_cast<int64_t>(repair->edits.size()), repair->edit_count);
    for (const Edit& edit : repair->edits) {
      ASSERT_NE(design.cells.at(edit.row, edit.stitch), edit.value);
      ASSERT_EQ(repair->repaired.at(edit.row, edit.stitch), edit.value);
    }
  }
}

TEST(RepairOfEverySmallChart, ChangesAsFewCellsAsASearchFinds) {
  std::vector<std::pair<int, int>> dimensions = {{6, 1}};
  if (kExhaustive) dimensions.insert(dimensions.end(), {{5, 2}, {7, 1}, {9, 1}, {10, 1}});
  // Up to 4 x 5, but for the three largest, which come below and in repair_options_reference_test.
  constexpr int kMostCells = kExhaustive ? 12 : 6;
  for (int rows = 1; rows <= 4; ++rows) {
    for (int stitches = 1; stitches <= 5; ++stitches) {
      if (rows * stitches <= kMostCells) dimensions.emplace_back(rows, stitches);
    }
  }
  for (const auto& [rows, stitches] : dimensions) {
    for (const Design& design : Variants(rows, stitches)) {
      CompareWithSearch(design, 1);
      if (HasFatalFailure()) return;
    }
  }
}

TEST(RepairOfEverySmallChart, OfThreeRowsChangesAsFewCellsAsASearchFinds) {
  constexpr int kStitches = kExhaustive ? 5 : 3;
  for (const Design& design : Variants(3, kStitches)) {
    CompareWithSearch(design, 1);
    if (HasFatalFailure()) return;
  }
}

// Marks of a one-stitch column, row 1 in the highest place, so that a greater number keeps lower
// marks.
uint32_t MarksReadUpwards(const Design& design, uint32_t bits) {
  uint32_t marks = 0;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const bool cell = (bits >> (row - 1) & 1) != 0;
    const bool own =
        design.convention == Convention::kPicture && RowColour(design, row) == Colour::kB;
    marks = marks << 1 | static_cast<uint32_t>(cell != own);
  }
  return marks;
}

TEST(Repair, KeepsTheLowerMarksAmongEquals) {
  constexpr int kRows = kExhaustive ? 7 : 5;
  for (Design design : Variants(kRows, 1)) {
    const std::vector<bool> workable = WorkableCharts(design);
    for (uint32_t bits = 0; bits < workable.size(); ++bits) {
      uint32_t best = 0;
      std::pair<int, uint32_t> best_rank = {-100, 0};
      for (uint32_t other = 0; other < workable.size(); ++other) {
        const std::pair<int, uint32_t> rank = {-std::popcount(bits ^ other),
                                               MarksReadUpwards(design, other)};
        if (!workable[other] || rank <= best_rank) continue;
        best_rank = rank;
        best = other;
      }
      design.cells = ChartOf(bits, kRows, 1);
      const auto repair = FindRepair(design);
      ASSERT_TRUE(repair.ok()) << repair.status();
      ASSERT_EQ(BitsOf(repair->repaired), best);
    }
  }
}

// Fewest changes of one column: rows from 1 up, the state is whether the row below keeps a mark;
// run once for each value of the band's first row where the band stands on itself.
int64_t FewestChanges(const std::vector<bool>& marks, const std::vector<bool>& barred, int first,
                      int last) {
  constexpr int64_t kNever = std::numeric_limits<int64_t>::max() / 4;
  int64_t fewest = kNever;
  for (const int first_value : {0, 1}) {
    int64_t without = 0;    // the row below keeps no mark
    int64_t with = kNever;  // it does
    for (size_t i = 0; i < marks.size(); ++i) {
      const int row = static_cast<int>(i) + 1;
      int64_t next_without = std::min(without, with) + (marks[i] ? 1 : 0);
      int64_t next_with = without + (marks[i] ? 0 : 1);
      if (barred[i]) next_with = kNever;
      if (row == first && first_value == 0) next_with = kNever;
      if (row == first && first_value == 1) next_without = kNever;
      if (row == last && first_value == 1) next_with = kNever;
      without = next_without;
      with = next_with;
    }
    fewest = std::min({fewest, without, with});
  }
  return fewest;
}

int64_t FewestChanges(const Design& design) {
  const int rows = design.cells.rows();
  const bool picture = design.convention == Convention::kPicture;
  int fewest_repeats = design.sizes.front().row_repeats;
  int most_repeats = fewest_repeats;
  for (const Size& size : design.sizes) {
    fewest_repeats = std::min(fewest_repeats, size.row_repeats);
    most_repeats = std::max(most_repeats, size.row_repeats);
  }
  const bool seam = most_repeats > 1;
  std::vector<bool> barred(static_cast<size_t>(rows), false);
  barred[0] = true;
  if (picture) barred.back() = true;
  // Row 2 of a working chart is a second row unless row 1 is always repeated by itself before it.
  const bool row_one_alone = design.row_band == Band{1, 1};
  if (!picture && rows > 1 && (!row_one_alone || fewest_repeats == 1)) barred[1] = true;
  int64_t fewest = 0;
  for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
    std::vector<bool> marks;
    for (int row = 1; row <= rows; ++row) {
      const bool own = picture && RowColour(design, row) == Colour::kB;
      marks.push_back(design.cells.at(row, stitch) != own);
    }
    fewest += seam ? FewestChanges(marks, barred, design.row_band->first, design.row_band->last)
                   : FewestChanges(marks, barred, 0, 0);
  }
  return fewest;
}

TEST(RepairOfRandomDesigns, AgreesWithThePlainProgrammeAndIsWorkable) {
  RandomDesigns random(7);
  int mended = 0;
  int64_t edits = 0;
  constexpr int kDesigns = kExhaustive ? 3000 : 1000;
  for (int i = 0; i < kDesigns; ++i) {
    const Design design = random.Chance(80) ? random.Next(14, 14) : random.Next(40, 140);
    const auto repair = FindRepair(design);
    if (!repair.ok()) {
      ASSERT_EQ(repair.status().code(), absl::StatusCode::kFailedPrecondition);
      continue;
    }
    ++mended;
    edits += repair->edit_count;
    ASSERT_EQ(repair->edit_count, FewestChanges(design)) << "design " << i;
    Design after = design;
    after.cells = repair->repaired;
    ASSERT_TRUE(Check(after).workable()) << "design " << i;
    ASSERT_EQ(PlainCheck(after).error_count, 0) << "design " << i;
    for (const Alternative& alternative : repair->alternatives) {
      const Design other = WithAlternative(design, alternative);
      ASSERT_TRUE(Validate(other).ok()) << Validate(other);
      ASSERT_EQ(FewestChanges(other), alternative.edits_left) << "design " << i;
    }
  }
  EXPECT_GT(mended, kDesigns / 6);
  EXPECT_GT(edits, kExhaustive ? 5000 : 1000);
}

}  // namespace
}  // namespace rowproof::chart
