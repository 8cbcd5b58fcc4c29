#include "tests/images/sample_grids.h"

#include <random>

namespace rowproof::images {

chart::Grid RandomGrid(int rows, int stitches, uint32_t seed) {
  std::mt19937 random(seed);
  chart::Grid cells(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    for (int stitch = 1; stitch <= stitches; ++stitch) cells.set(row, stitch, random() % 2 == 0);
  }
  return cells;
}

chart::Grid GridOf(const std::vector<std::string>& lines) {
  chart::Grid cells(static_cast<int>(lines.size()), static_cast<int>(lines.front().size()));
  for (int row = 1; row <= cells.rows(); ++row) {
    const std::string& line = lines[static_cast<size_t>(cells.rows() - row)];
    for (int stitch = 1; stitch <= cells.stitches(); ++stitch) {
      cells.set(row, stitch, line[static_cast<size_t>(cells.stitches() - stitch)] == 'x');
    }
  }
  return cells;
}

std::string Drawn(const chart::Grid& cells) {
  std::string drawn;
  for (int row = cells.rows(); row >= 1; --row) {
    for (int stitch = cells.stitches(); stitch >= 1; --stitch) {
      drawn += cells.at(row, stitch) ? 'x' : '.';
    }
    drawn += '\n';
  }
  return drawn;
}

}  // namespace rowproof::images
