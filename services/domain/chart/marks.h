// The marks of a chart, 64 to a word: the off-colour cells of a picture, the drops of a working
// chart.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_MARKS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_MARKS_H_

#include <cstddef>
#include <cstdint>
#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

// Words a row at most.
inline constexpr size_t kMostWords = (kMostStitches + 63) / 64;

// One row's marks; refers to the design's cells.
struct MarkRow {
  const uint64_t* cells = nullptr;
  size_t words = 0;
  uint64_t flip = 0;       // ones if a set cell is no mark
  uint64_t last_mask = 0;  // cells of the last word

  uint64_t word(size_t index) const {
    const uint64_t marks = cells[index] ^ flip;
    return index + 1 == words ? marks & last_mask : marks;
  }
  bool at(int stitch) const {
    const auto bit = static_cast<size_t>(stitch - 1);
    return ((cells[bit / 64] ^ flip) >> (bit % 64) & 1) != 0;
  }
};

// All rows of a design, which must outlive this.
class Marks {
 public:
  explicit Marks(const Design& design)
      : cells_(design.cells.row(1).data()),
        words_(design.cells.words_per_row()),
        last_mask_(design.cells.last_word_mask()),
        flips_(design.convention == Convention::kPicture && design.picture_colours.empty()),
        colours_(design.row_colours) {}

  MarkRow row(int row) const {
    const auto index = static_cast<size_t>(row - 1);
    return {cells_ + index * words_, words_,
            flips_ && IsColourB(index) ? ~uint64_t{0} : uint64_t{0}, last_mask_};
  }

 private:
  bool IsColourB(size_t index) const {
    return colours_.empty() ? index % 2 == 1 : colours_[index] == Colour::kB;
  }

  const uint64_t* cells_;
  size_t words_;
  uint64_t last_mask_;
  bool flips_;  // cells of colour B rows are set if they are no mark
  const std::vector<Colour>& colours_;
};

// Whether some stitch is marked in both rows (of the same width).
inline bool Touch(const MarkRow& one, const MarkRow& other) {
  uint64_t any = 0;
  const size_t last = one.words - 1;
  for (size_t i = 0; i < last; ++i) {
    any |= (one.cells[i] ^ one.flip) & (other.cells[i] ^ other.flip);
  }
  return (any | (one.word(last) & other.word(last))) != 0;
}

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_MARKS_H_
