#include "tests/bench/sample_charts.h"

#include <bit>
#include <functional>
#include <random>

#include "services/domain/chart/check/findings.h"
#include "services/domain/check.h"

namespace rowproof::bench {
namespace {

using OffColour = std::function<bool(int row, int stitch)>;

// Off-colour where wished and allowed: from row 2 to the last but one, never above another, no
// edge.
chart::Design Picture(int rows, int stitches, const OffColour& wished) {
  chart::Design design;
  design.cells = chart::Grid(rows, stitches);
  chart::Grid off(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      const bool wish = wished(row, stitch);
      const bool allowed =
          row >= 2 && row < rows && stitch > 1 && stitch < stitches && !off.at(row - 1, stitch);
      off.set(row, stitch, wish && allowed);
      design.cells.set(row, stitch, (row % 2 == 0) != (wish && allowed));
    }
  }
  ROWPROOF_CHECK(chart::Validate(design).ok() && chart::Check(design).workable());
  return design;
}

}  // namespace

chart::Design RandomDesign(int rows, int stitches, uint64_t seed) {
  std::mt19937_64 random(seed);
  return Picture(rows, stitches, [&](int, int) { return random() % 3 == 0; });
}

chart::Design RandomCells(int rows, int stitches, uint64_t seed) {
  std::mt19937_64 random(seed);
  chart::Design design;
  design.cells = chart::Grid(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    const auto words = design.cells.mutable_row(row);
    for (uint64_t& word : words) word = random();
    words.back() &= design.cells.last_word_mask();
  }
  return design;
}

chart::Design LongRunsDesign(int rows, int stitches) {
  return Picture(rows, stitches,
                 [](int row, int stitch) { return row % 2 == 0 && stitch % 8 != row / 2 % 8; });
}

chart::Design MotifDesign(int rows, int stitches) {
  // Bit 0 is the first stitch of the motif.
  constexpr unsigned kMotif[8] = {0b000000000000, 0b000111111000, 0b000000000000, 0b001100001100,
                                  0b000000000000, 0b011001100110, 0b000000000000, 0b001100001100};
  return Picture(rows, stitches,
                 [&](int row, int stitch) { return (kMotif[row % 8] >> (stitch % 12) & 1U) != 0; });
}

chart::Design EdgedMotifDesign(int rows, int stitches) {
  constexpr int kEdge = 2;
  constexpr int kMotifRows = 40;
  constexpr int kMotifStitches = 24;
  chart::Grid motif(kMotifRows, kMotifStitches);
  std::mt19937_64 random(4);
  for (int row = 1; row <= kMotifRows; ++row) {
    for (int stitch = 1; stitch <= kMotifStitches; ++stitch) {
      // Nothing above a mark, nor in the motif's last row, which the first one stands on.
      const bool below = row > 1 && motif.at(row - 1, stitch);
      motif.set(row, stitch, !below && row < kMotifRows && random() % 3 == 0);
    }
  }
  return Picture(rows, stitches, [&](int row, int stitch) {
    if (row <= kEdge || row > rows - kEdge || stitch <= kEdge || stitch > stitches - kEdge) {
      return false;
    }
    return motif.at((row - kEdge - 1) % kMotifRows + 1, (stitch - kEdge - 1) % kMotifStitches + 1);
  });
}

chart::Design WithFaults(const chart::Design& design, int count, uint64_t seed) {
  chart::Design faulty = design;
  std::mt19937_64 random(seed);
  const auto rows = static_cast<uint64_t>(design.cells.rows());
  const auto stitches = static_cast<uint64_t>(design.cells.stitches());
  for (int i = 0; i < count; ++i) {
    const int row = static_cast<int>(random() % rows) + 1;
    const int stitch = static_cast<int>(random() % stitches) + 1;
    faulty.cells.set(row, stitch, !faulty.cells.at(row, stitch));
  }
  return faulty;
}

estimate::Materials SampleMaterials() {
  estimate::Materials materials;
  materials.yarn_a.weight_class = 4;
  materials.yarn_a.ball_length_m = 85;
  materials.yarn_a.ball_mass_g = 50;
  materials.yarn_b = materials.yarn_a;
  materials.gauge.stitches_per_decimetre = 14;
  materials.gauge.rows_per_decimetre = 16;
  return materials;
}

int64_t CountBits(const chart::Grid& cells) {
  int64_t count = 0;
  for (int row = 1; row <= cells.rows(); ++row) {
    for (const uint64_t word : cells.row(row)) count += std::popcount(word);
  }
  return count;
}

int64_t ReadCells(const chart::Grid& cells) {
  int64_t count = 0;
  for (int row = 1; row <= cells.rows(); ++row) {
    for (int stitch = 1; stitch <= cells.stitches(); ++stitch) count += cells.at(row, stitch);
  }
  return count;
}

}  // namespace rowproof::bench
