#include "services/domain/chart/repair/kept_marks.h"

#include <bit>

namespace rowproof::chart {
namespace {

// Counts of 64 columns at once: bit b of column c's count is bit c of plane b.
class ColumnCounts {
 public:
  void Add(uint64_t ones) {
    for (size_t plane = 0; ones != 0; ++plane) {
      ROWPROOF_CHECK(plane < kPlanes);
      const uint64_t carry = planes_[plane] & ones;
      planes_[plane] ^= ones;
      ones = carry;
    }
  }
  // Columns in which this count is smaller, and in which both are equal.
  struct Order {
    uint64_t less = 0;
    uint64_t equal = 0;
  };
  Order Compare(const ColumnCounts& other) const {
    Order order{0, ~uint64_t{0}};
    for (size_t plane = kPlanes; plane-- > 0;) {
      order.less |= order.equal & ~planes_[plane] & other.planes_[plane];
      order.equal &= ~(planes_[plane] ^ other.planes_[plane]);
    }
    return order;
  }

 private:
  static constexpr size_t kPlanes = 12;  // counts to 4095
  static_assert(kMostRows < 1 << kPlanes);
  std::array<uint64_t, kPlanes> planes_{};
};

}  // namespace

MarkRemover::MarkRemover(const Design& design)
    : design_(design),
      marks_(design),
      limits_(LimitsOf(design, StructureOf(design))),
      words_(design.cells.words_per_row()) {
  if (limits_.plain_edges) {
    const auto last = static_cast<size_t>(design.cells.stitches() - 1);
    edges_[0] |= 1;
    edges_[last / 64] |= uint64_t{1} << (last % 64);
  }
  if (limits_.seam) DecideSeam();
}

void MarkRemover::Step(int row, const Words& drop_first, const Words& drop_last, Walk& walk) const {
  const MarkRow marks = marks_.row(row);
  if (TakesAll(row)) {
    for (size_t i = 0; i < words_; ++i) walk.removed[i] = marks.word(i);
    walk.kept.fill(0);
    return;
  }
  const bool first = limits_.seam && row == design_.row_band->first;
  const bool last = limits_.seam && row == design_.row_band->last;
  for (size_t i = 0; i < words_; ++i) {
    const uint64_t own = marks.cells[i] ^ marks.flip;
    const uint64_t barred = walk.kept[i] | edges_[i];
    walk.removed[i] = own & barred;
    walk.kept[i] = own & ~barred;
  }
  walk.removed[words_ - 1] &= marks.last_mask;
  walk.kept[words_ - 1] &= marks.last_mask;
  if (!first && !last) return;
  for (size_t i = 0; i < words_; ++i) {
    const uint64_t taken = walk.kept[i] & (first ? drop_first[i] : drop_last[i]);
    walk.removed[i] |= taken;
    walk.kept[i] &= ~taken;
  }
}

void MarkRemover::DecideSeam() {
  const Band band = *design_.row_band;
  if (TakesAll(band.first) || TakesAll(band.last)) return;
  const MarkRow first = marks_.row(band.first);
  const MarkRow last = marks_.row(band.last);
  if (!Touch(first, last)) return;
  Words clash{};
  for (size_t i = 0; i < words_; ++i) clash[i] = first.word(i) & last.word(i) & ~edges_[i];

  const Words none{};
  Walk without_first;
  for (int row = 1; row < band.first; ++row) Step(row, none, none, without_first);
  Walk without_last = without_first;
  Words first_stays{};
  std::vector<ColumnCounts> more_without_first(words_);
  std::vector<ColumnCounts> more_without_last(words_);
  for (int row = band.first; row <= design_.cells.rows(); ++row) {
    Step(row, clash, none, without_first);
    Step(row, none, clash, without_last);
    if (row == band.first) first_stays = without_last.kept;
    for (size_t i = 0; i < words_; ++i) {
      more_without_first[i].Add(without_first.removed[i] & ~without_last.removed[i]);
      more_without_last[i].Add(without_last.removed[i] & ~without_first.removed[i]);
    }
    // From here on both continue alike.
    if (row >= band.last && without_first.kept == without_last.kept) break;
  }
  for (size_t i = 0; i < words_; ++i) {
    const auto order = more_without_first[i].Compare(more_without_last[i]);
    drop_first_[i] = clash[i] & (order.less | (order.equal & ~first_stays[i]));
    drop_last_[i] = clash[i] & ~drop_first_[i];
  }
}

int64_t MarkRemover::Count() const {
  int64_t count = 0;
  Visit([&count](int, std::span<const uint64_t> removed) {
    for (const uint64_t word : removed) count += std::popcount(word);
  });
  return count;
}

}  // namespace rowproof::chart
