// FindRepair with symmetries, locks and limits on runs, against search through all small charts and
// on random designs.
#include <algorithm>
#include <bit>
#include <string>

#include "gtest/gtest.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/repair/lock_clashes.h"
#include "services/domain/chart/repair/repair.h"
#include "services/domain/chart/repair/tied_repair.h"
#include "services/domain/errors.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/chart/chart_text.h"
#include "tests/domain/chart/plain_rules.h"
#include "tests/domain/chart/random_designs.h"
#include "tests/domain/chart/repair/plain_repair.h"

namespace rowproof::chart {
namespace {

Design Mended(const Design& design, const Repair& repair) {
  Design mended = design;
  for (const Edit& edit : repair.edits) Apply(edit, mended);
  EXPECT_EQ(mended.cells, repair.repaired);
  EXPECT_EQ(mended.picture_colours, repair.picture_colours);
  return mended;
}

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

// A chart without marks but those of one stitch (0: none), whose cells are the bits of `column`.
Grid ChartOfColumn(const Design& design, int stitch, uint32_t column) {
  Grid grid = design.cells;
  const bool picture = design.convention == Convention::kPicture;
  for (int row = 1; row <= grid.rows(); ++row) {
    for (int other = 1; other <= grid.stitches(); ++other) {
      const bool cell = other == stitch ? (column >> (row - 1) & 1) != 0
                                        : picture && RowColour(design, row) == Colour::kB;
      grid.set(row, other, cell);
    }
  }
  return grid;
}

// By the bits of a chart: whether it is workable and keeps to the options, locks apart. Marks can
// only do harm, so that a chart with a column that does harm alone is not looked at any further.
std::vector<bool> AcceptableCharts(Design design, RepairOptions options) {
  options.locked = Grid();
  const int rows = design.cells.rows();
  const int stitches = design.cells.stitches();
  const uint32_t columns = uint32_t{1} << rows;
  std::vector<std::vector<bool>> column_works(static_cast<size_t>(stitches));
  for (int stitch = 0; stitch < stitches; ++stitch) {
    for (uint32_t column = 0; column < columns; ++column) {
      design.cells = ChartOfColumn(design, stitch + 1, column);
      column_works[static_cast<size_t>(stitch)].push_back(PlainCheck(design).error_count == 0);
    }
  }
  std::vector<bool> acceptable(size_t{1} << (rows * stitches));
  for (uint32_t bits = 0; bits < acceptable.size(); ++bits) {
    bool works = true;
    for (int stitch = 0; stitch < stitches && works; ++stitch) {
      uint32_t column = 0;
      for (int row = 0; row < rows; ++row) column |= (bits >> (row * stitches + stitch) & 1) << row;
      works = column_works[static_cast<size_t>(stitch)][column];
    }
    if (!works) continue;
    design.cells = ChartOf(bits, rows, stitches);
    acceptable[bits] = IsAcceptable(design, design, options);
  }
  return acceptable;
}

// Fewest changed cells from each chart to an acceptable one, by stepping one unlocked cell at a
// time; -1 where none is reached.
std::vector<int> Distances(const std::vector<bool>& acceptable, uint32_t locked) {
  std::vector<int> distance(acceptable.size(), -1);
  std::vector<uint32_t> reached;
  for (uint32_t bits = 0; bits < acceptable.size(); ++bits) {
    if (!acceptable[bits]) continue;
    distance[bits] = 0;
    reached.push_back(bits);
  }
  for (size_t next = 0; next < reached.size(); ++next) {
    const uint32_t bits = reached[next];
    for (uint32_t cell = 1; cell < acceptable.size(); cell <<= 1) {
      if ((cell & locked) != 0 || distance[bits ^ cell] >= 0) continue;
      distance[bits ^ cell] = distance[bits] + 1;
      reached.push_back(bits ^ cell);
    }
  }
  return distance;
}

void CompareWithSearch(Design design, const RepairOptions& options, uint32_t stride) {
  const int rows = design.cells.rows();
  const int stitches = design.cells.stitches();
  const std::vector<bool> acceptable = AcceptableCharts(design, options);
  const uint32_t locked = options.locked.empty() ? 0 : BitsOf(options.locked);
  const std::vector<int> distance = Distances(acceptable, locked);
  const uint32_t plain = BitsOf(ChartOfColumn(design, 0, 0));
  constexpr uint32_t kWholeAnswers = 13;
  for (uint32_t bits = 0; bits < acceptable.size(); bits += stride) {
    design.cells = ChartOf(bits, rows, stitches);
    if (options.any() && bits % kWholeAnswers != 0) {
      // The same choice without what else an answer holds.
      const RepairVariables variables(design, options, Stop());
      ASSERT_EQ(RequireLocksHold(variables, Stop()).ok(), distance[bits] >= 0) << bits;
      if (distance[bits] < 0) continue;
      const MendedMarks mended = Mend(variables, Stop());
      const uint32_t cells = BitsOf(mended.marks) ^ plain;
      ASSERT_TRUE(acceptable[cells]) << bits;
      ASSERT_EQ((bits ^ cells) & locked, 0U) << bits;
      ASSERT_EQ(std::popcount(bits ^ cells), distance[bits]) << bits;
      ASSERT_EQ(mended.edits, distance[bits]) << bits;
      ASSERT_EQ(mended.least, distance[bits]) << bits;
      continue;
    }
    const auto repair = FindRepair(design, options);
    ASSERT_EQ(repair.ok(), distance[bits] >= 0)
        << ::testing::PrintToString(ToText(design.cells)) << repair.status();
    if (!repair.ok()) {
      ASSERT_EQ(DetailOf(repair.status()).reason, "LOCKS_CLASH");
      continue;
    }
    const uint32_t mended = BitsOf(repair->repaired);
    ASSERT_TRUE(acceptable[mended]) << ::testing::PrintToString(ToText(design.cells));
    ASSERT_EQ((bits ^ mended) & locked, 0U);
    ASSERT_EQ(std::popcount(bits ^ mended), distance[bits])
        << ::testing::PrintToString(ToText(design.cells));
    ASSERT_EQ(repair->edit_count, distance[bits]);
    ASSERT_EQ(repair->lower_bound, distance[bits]);
    ASSERT_TRUE(repair->optimal);
  }
}

struct Case {
  const char* name;
  int rows;
  int stitches;
  RepairOptions options;
  Convention convention = Convention::kPicture;
  std::optional<Band> row_band = std::nullopt;
  std::optional<Band> stitch_band = std::nullopt;
  Technique technique = Technique::kSpike;
};

Design DesignOf(const Case& one) {
  Design design;
  design.technique = one.technique;
  if (one.technique == Technique::kInset) design.ends = Ends::kWaiting;
  design.convention = one.convention;
  design.cells = Grid(one.rows, one.stitches);
  design.row_band = one.row_band;
  design.stitch_band = one.stitch_band;
  if (one.row_band || one.stitch_band) {
    design.sizes = {{"S", 1, 1}, {"M", one.stitch_band ? 3 : 1, one.row_band ? 2 : 1}};
  }
  return design;
}

Grid Locks(int rows, int stitches, const std::vector<std::pair<int, int>>& cells) {
  Grid locks(rows, stitches);
  for (const auto& [row, stitch] : cells) locks.set(row, stitch, true);
  return locks;
}

constexpr Convention kPicture = Convention::kPicture;
constexpr Convention kWorking = Convention::kWorking;

// The case of its first stitches, at most `most_cells` cells.
Case Narrower(Case one, int most_cells) {
  one.stitches = std::min(one.stitches, most_cells / one.rows);
  if (one.options.locked.empty()) return one;
  Grid locked(one.rows, one.stitches);
  for (int row = 1; row <= one.rows; ++row) {
    for (int stitch = 1; stitch <= one.stitches; ++stitch) {
      locked.set(row, stitch, one.options.locked.at(row, stitch));
    }
  }
  one.options.locked = locked;
  return one;
}

class RepairOfEveryChart : public ::testing::TestWithParam<Case> {};

TEST_P(RepairOfEveryChart, ChangesAsFewCellsAsASearchFinds) {
  // The search alone goes through a million charts of 20 cells.
  const Case one = Narrower(GetParam(), kExhaustive ? 20 : 16);
  // Odd strides go through charts of every kind.
  const uint32_t part = one.rows * one.stitches > 12 ? 401 : 29;
  CompareWithSearch(DesignOf(one), one.options, kExhaustive ? 1 : part);
}

INSTANTIATE_TEST_SUITE_P(
    UpToFourByFive, RepairOfEveryChart,
    ::testing::Values(
        Case{"Picture", 4, 5, {}, kPicture}, Case{"Working", 4, 5, {}, kWorking},
        Case{"PictureFourByFour", 4, 4, {}, kPicture},
        Case{"WorkingFourByFour", 4, 4, {}, kWorking},
        Case{"RowBand", 4, 5, {}, kPicture, Band{2, 3}},
        Case{"Overlay", 4, 5, {}, kPicture, {}, {}, Technique::kOverlay},
        Case{"Inset", 4, 4, {}, kWorking, {}, {}, Technique::kInset},
        Case{"LeftRight", 4, 5, {.left_right = true}, kPicture},
        Case{"LeftRightWorking", 4, 5, {.left_right = true}, kWorking},
        Case{"TopToBottom", 5, 4, {.top_to_bottom = true}, kPicture},
        Case{"TopToBottomWorking", 5, 4, {.top_to_bottom = true}, kWorking},
        Case{"HalfTurn", 5, 4, {.half_turn = true}, kPicture},
        Case{"HalfTurnWorking", 5, 3, {.half_turn = true}, kWorking},
        Case{"TwoMirrors", 5, 4, {.left_right = true, .top_to_bottom = true}, kPicture},
        Case{"MirrorAndTurn", 5, 3, {.top_to_bottom = true, .half_turn = true}, kPicture},
        Case{"TallTopToBottom", 9, 1, {.top_to_bottom = true}, kWorking},
        Case{"TallHalfTurn", 7, 2, {.half_turn = true}, kPicture},
        Case{"TallHalfTurnOneStitch", 11, 1, {.half_turn = true}, kPicture},
        Case{"BandsTwoMirrors",
             5,
             3,
             {.left_right = true, .top_to_bottom = true},
             kPicture,
             Band{2, 3},
             Band{2, 3}},
        Case{"BandHalfTurn", 5, 3, {.half_turn = true}, kWorking, Band{3, 4}, Band{1, 2}},
        Case{"BandOneSideLeftRight", 3, 5, {.left_right = true}, kPicture, {}, Band{1, 2}},
        Case{"BandOneSideTopToBottom", 7, 2, {.top_to_bottom = true}, kPicture, Band{1, 4}}),
    [](const auto& param) { return std::string(param.param.name); });

INSTANTIATE_TEST_SUITE_P(
    WithLocksAndRuns, RepairOfEveryChart,
    ::testing::Values(
        Case{"Locks", 4, 5, {.locked = Locks(4, 5, {{2, 1}, {3, 1}, {2, 2}, {3, 3}, {1, 4}})}},
        Case{"LocksWorking",
             4,
             4,
             {.locked = Locks(4, 4, {{3, 1}, {4, 1}, {4, 2}, {3, 3}})},
             kWorking},
        Case{"LocksAndMirror",
             4,
             4,
             {.left_right = true, .locked = Locks(4, 4, {{2, 1}, {2, 4}, {3, 2}})}},
        Case{
            "LocksAndHalfTurn", 5, 3, {.half_turn = true, .locked = Locks(5, 3, {{2, 1}, {3, 2}})}},
        Case{"LocksAtASeam",
             4,
             3,
             {.locked = Locks(4, 3, {{2, 1}, {3, 1}, {3, 2}})},
             kPicture,
             Band{2, 3}},
        Case{"Runs", 4, 5, {.longest_run = 2}}, Case{"NoTwo", 4, 5, {.longest_run = 1}, kWorking},
        Case{"RunsAndMirror", 4, 5, {.left_right = true, .longest_run = 2}},
        Case{"RunsAndHalfTurn", 5, 4, {.half_turn = true, .longest_run = 2}},
        Case{"RunsAcrossSeams", 4, 4, {.longest_run = 2}, kPicture, Band{2, 3}, Band{2, 3}},
        Case{"RunsInABandOfOne", 4, 4, {.longest_run = 3}, kWorking, {}, Band{2, 2}},
        Case{"RunsAndLocks",
             4,
             4,
             {.locked = Locks(4, 4, {{2, 1}, {2, 2}, {2, 3}, {3, 4}}), .longest_run = 2}}),
    [](const auto& param) { return std::string(param.param.name); });

// Every lock pattern of every chart of three rows.
TEST(RepairOfEveryChartWithEveryLock, ChangesAsFewCellsAsASearchFinds) {
  for (const Convention convention : {kPicture, kWorking}) {
    Design design;
    design.convention = convention;
    design.cells = Grid(4, 2);
    for (uint32_t locked = 1; locked < 256; locked += kExhaustive ? 1 : 61) {
      CompareWithSearch(design, {.locked = ChartOf(locked, 4, 2)}, 1);
      ASSERT_FALSE(HasFatalFailure()) << locked;
    }
  }
}

// A random design of all techniques that symmetries often fit.
Design SymmetryFriendly(RandomDesigns& random, int most_rows, int most_stitches) {
  Design design = random.NextOfAll(most_rows, most_stitches);
  if (random.Chance(40)) {
    design.row_band.reset();
    for (Size& size : design.sizes) size.row_repeats = 1;
  }
  if (!design.row_colours.empty() && !NamesColours(design) && random.Chance(60)) {
    for (size_t i = 0; i < design.row_colours.size() / 2; ++i) {
      design.row_colours[design.row_colours.size() - 1 - i] = design.row_colours[i];
    }
  }
  return design;
}

RepairOptions RandomOptions(RandomDesigns& random, const Design& design) {
  RepairOptions options;
  options.left_right = random.Chance(40);
  if (random.Chance(40)) options.top_to_bottom = true;
  if (random.Chance(30)) options.half_turn = true;
  if (random.Chance(40)) options.longest_run = random.Pick(1, 4);
  if (random.Chance(40)) {
    options.locked = Grid(design.cells.rows(), design.cells.stitches());
    const int percent = random.Pick(2, 30);
    for (int row = 1; row <= design.cells.rows(); ++row) {
      for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
        options.locked.set(row, stitch, random.Chance(percent));
      }
    }
  }
  return options;
}

std::string Told(const Design& design, const RepairOptions& options) {
  std::string text = ::testing::PrintToString(ToText(design.cells)) + Name(design.technique) +
                     Name(design.convention) + Name(design.form);
  for (const Colour colour : design.row_colours) text += Name(colour);
  if (design.row_band) {
    text += " rows " + std::to_string(design.row_band->first) + "-" +
            std::to_string(design.row_band->last);
  }
  if (design.stitch_band) {
    text += " stitches " + std::to_string(design.stitch_band->first) + "-" +
            std::to_string(design.stitch_band->last);
  }
  for (const Size& size : design.sizes) {
    text += " x" + std::to_string(size.stitch_repeats) + "," + std::to_string(size.row_repeats);
  }
  text += options.left_right ? " left-right" : "";
  text += options.top_to_bottom ? " top-to-bottom" : "";
  text += options.half_turn ? " half-turn" : "";
  text += " runs " + std::to_string(options.longest_run);
  if (!options.locked.empty()) text += ::testing::PrintToString(ToText(options.locked));
  return text;
}

TEST(RepairWithOptionsOfRandomSmallDesigns, AgreesWithASearchThroughAllCharts) {
  RandomDesigns random(17);
  int mended = 0;
  int symmetric = 0;
  int refused = 0;
  for (int i = 0; i < (kExhaustive ? 6000 : 300); ++i) {
    Design design = SymmetryFriendly(random, 7, 4);
    if (design.cells.rows() * design.cells.stitches() > (NamesColours(design) ? 6 : 12)) continue;
    const RepairOptions options = RandomOptions(random, design);
    const auto repair = FindRepair(design, options);
    if (!repair.ok()) {
      if (DetailOf(repair.status()).reason == "CELLS_CANNOT_MEND") continue;
      ASSERT_EQ(FewestEdits(design, options), -1) << repair.status() << Told(design, options);
      ++refused;
      continue;
    }
    const int64_t fewest = FewestEdits(design, options);
    ASSERT_EQ(repair->edit_count, fewest) << i << " " << Told(design, options);
    ASSERT_EQ(repair->lower_bound, fewest) << i << " " << Told(design, options);
    ASSERT_TRUE(repair->optimal);
    ASSERT_TRUE(IsAcceptable(design, Mended(design, *repair), options)) << Told(design, options);
    ++mended;
    if (options.top_to_bottom || options.half_turn) ++symmetric;
  }
  EXPECT_GT(mended, kExhaustive ? 900 : 45);
  EXPECT_GT(symmetric, kExhaustive ? 200 : 9);
  EXPECT_GT(refused, kExhaustive ? 200 : 9);
}

TEST(RepairWithOptionsOfRandomDesigns, KeepsToAllOfThemWithABoundThatHolds) {
  RandomDesigns random(23);
  int mended = 0;
  int optimal = 0;
  int limited = 0;
  int alternatives = 0;
  for (int i = 0; i < (kExhaustive ? 3000 : 200); ++i) {
    const Design design =
        random.Chance(80) ? SymmetryFriendly(random, 16, 16) : SymmetryFriendly(random, 40, 90);
    RepairOptions options = RandomOptions(random, design);
    if (random.Chance(30)) options.most_steps = random.Pick(0, 10'000);
    const auto repair = FindRepair(design, options);
    if (!repair.ok()) continue;
    ++mended;
    const Design after = Mended(design, *repair);
    ASSERT_TRUE(IsAcceptable(design, after, options)) << i << " " << Told(design, options);
    ASSERT_TRUE(Check(after).workable());
    ASSERT_EQ(repair->edit_count, static_cast<int64_t>(repair->edits.size()));
    ASSERT_LE(repair->lower_bound, repair->edit_count);
    ASSERT_EQ(repair->optimal, repair->lower_bound == repair->edit_count);
    if (options.longest_run == 0) {
      ASSERT_TRUE(repair->optimal);
    } else {
      ++limited;
      if (repair->optimal) ++optimal;
      RepairOptions without = options;
      without.longest_run = 0;
      const auto unlimited = FindRepair(design, without);
      ASSERT_TRUE(unlimited.ok());
      ASSERT_LE(unlimited->edit_count, repair->lower_bound);
    }
    for (const Alternative& alternative : repair->alternatives) {
      ++alternatives;
      const Design other = WithAlternative(design, alternative);
      ASSERT_TRUE(Validate(other).ok()) << Validate(other);
      const auto left = FindRepair(other, WithAlternative(options, alternative));
      ASSERT_TRUE(left.ok()) << left.status();
      ASSERT_LE(left->lower_bound, alternative.edits_left);
      if (alternative.optimal && left->optimal) {
        ASSERT_EQ(left->edit_count, alternative.edits_left);
      }
    }
  }
  EXPECT_GT(mended, kExhaustive ? 400 : 30);
  EXPECT_GT(alternatives, kExhaustive ? 500 : 30);
  // Wherever the steps suffice, which they nearly always do here.
  EXPECT_GT(optimal * 10, limited * 9);
}

}  // namespace
}  // namespace rowproof::chart
