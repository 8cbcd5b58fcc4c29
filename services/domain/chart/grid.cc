#include "services/domain/chart/grid.h"

namespace rowproof::chart {

Grid::Grid(int rows, int stitches)
    : rows_(rows), stitches_(stitches), words_per_row_(static_cast<size_t>(stitches + 63) / 64) {
  ROWPROOF_CHECK(rows >= 1 && rows <= kMostRows && stitches >= 1 && stitches <= kMostStitches);
  words_.assign(static_cast<size_t>(rows) * words_per_row_, 0);
}

uint64_t Grid::last_word_mask() const {
  const int used = stitches_ % 64;
  return used == 0 ? ~uint64_t{0} : (uint64_t{1} << used) - 1;
}

}  // namespace rowproof::chart
