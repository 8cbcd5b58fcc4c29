// A rectangular chart of two-valued cells, packed 64 to a word.
//
// Rows are numbered from 1 at the bottom, stitches from 1 at the right edge (face 1 towards the
// reader). Bit s-1 of a row's words is stitch s; bits past the last stitch are always zero.
// A value type: copies are deep; const access from several threads is safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_GRID_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_GRID_H_

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "services/domain/check.h"

namespace rowproof::chart {

// Limits of a chart, before and after its bands are expanded.
inline constexpr int kMostRows = 4000;
inline constexpr int kMostStitches = 4000;

class Grid {
 public:
  Grid() = default;
  // All cells zero. 1 <= rows <= kMostRows, 1 <= stitches <= kMostStitches (a bug otherwise).
  Grid(int rows, int stitches);

  int rows() const { return rows_; }
  int stitches() const { return stitches_; }
  size_t words_per_row() const { return words_per_row_; }
  bool empty() const { return rows_ == 0; }

  bool at(int row, int stitch) const {
    return (words_[Index(row, stitch)] >> Bit(stitch) & 1) != 0;
  }
  void set(int row, int stitch, bool value) {
    uint64_t& word = words_[Index(row, stitch)];
    const uint64_t mask = uint64_t{1} << Bit(stitch);
    word = value ? word | mask : word & ~mask;
  }

  std::span<const uint64_t> row(int row) const {
    ROWPROOF_CHECK(row >= 1 && row <= rows_);
    return {words_.data() + static_cast<size_t>(row - 1) * words_per_row_, words_per_row_};
  }
  // The caller keeps the bits past the last stitch zero.
  std::span<uint64_t> mutable_row(int row) {
    ROWPROOF_CHECK(row >= 1 && row <= rows_);
    return {words_.data() + static_cast<size_t>(row - 1) * words_per_row_, words_per_row_};
  }
  // Ones in the last word of a row that are cells.
  uint64_t last_word_mask() const;

  bool operator==(const Grid&) const = default;

 private:
  size_t Index(int row, int stitch) const {
    ROWPROOF_CHECK(row >= 1 && row <= rows_ && stitch >= 1 && stitch <= stitches_);
    return static_cast<size_t>(row - 1) * words_per_row_ + static_cast<size_t>(stitch - 1) / 64;
  }
  static unsigned Bit(int stitch) { return static_cast<unsigned>(stitch - 1) % 64; }

  int rows_ = 0;
  int stitches_ = 0;
  size_t words_per_row_ = 0;
  std::vector<uint64_t> words_;
};

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_GRID_H_
