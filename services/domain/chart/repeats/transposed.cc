#include "services/domain/chart/repeats/transposed.h"

#include <algorithm>
#include <array>

namespace rowproof::chart {
namespace {

using Block = std::array<uint64_t, 64>;

// Bit c of word r goes to bit r of word c: the off-diagonal halves of the block are exchanged, then
// those of its quarters, and so on.
void Transpose(Block& block) {
  uint64_t low = 0xffffffff;
  for (unsigned half = 32; half != 0; half /= 2, low ^= low << half) {
    for (unsigned row = 0; row < 64; row = (row + half + 1) & ~half) {
      const uint64_t moved = (block[row] >> half ^ block[row + half]) & low;
      block[row] ^= moved << half;
      block[row + half] ^= moved;
    }
  }
}

}  // namespace

Grid Transposed(const Grid& grid) {
  Grid result(grid.stitches(), grid.rows());
  for (int row = 1; row <= grid.rows(); row += 64) {
    const int rows = std::min(64, grid.rows() - row + 1);
    for (size_t word = 0; word < grid.words_per_row(); ++word) {
      Block block{};
      for (int i = 0; i < rows; ++i) block[static_cast<size_t>(i)] = grid.row(row + i)[word];
      Transpose(block);
      const int first = static_cast<int>(word * 64) + 1;
      const int stitches = std::min(64, grid.stitches() - first + 1);
      for (int i = 0; i < stitches; ++i) {
        result.mutable_row(first + i)[static_cast<size_t>(row - 1) / 64] =
            block[static_cast<size_t>(i)];
      }
    }
  }
  return result;
}

}  // namespace rowproof::chart
