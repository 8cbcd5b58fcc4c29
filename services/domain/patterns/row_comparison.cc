#include "services/domain/patterns/row_comparison.h"

#include <algorithm>
#include <bit>
#include <utility>

#include "absl/container/flat_hash_map.h"
#include "services/domain/patterns/row_contents.h"

namespace rowproof::patterns {
namespace {

// What makes two rows equal.
struct RowKey {
  const uint64_t* drops;
  const uint64_t* skips;
  size_t words;
  int stitches;
  chart::Colour colour;
  chart::Side side;

  bool operator==(const RowKey& other) const {
    return stitches == other.stitches && colour == other.colour && side == other.side &&
           std::equal(drops, drops + words, other.drops) &&
           std::equal(skips, skips + words, other.skips);
  }
  template <typename H>
  friend H AbslHashValue(H state, const RowKey& key) {
    state = H::combine_contiguous(std::move(state), key.drops, key.words);
    state = H::combine_contiguous(std::move(state), key.skips, key.words);
    return H::combine(std::move(state), key.stitches, key.colour, key.side);
  }
};

uint64_t ReverseBits(uint64_t word) {
  word = (word >> 1 & 0x5555555555555555) | (word & 0x5555555555555555) << 1;
  word = (word >> 2 & 0x3333333333333333) | (word & 0x3333333333333333) << 2;
  word = (word >> 4 & 0x0f0f0f0f0f0f0f0f) | (word & 0x0f0f0f0f0f0f0f0f) << 4;
  return __builtin_bswap64(word);
}

// Stitch s becomes stitch S + 1 - s.
chart::Grid TurnRound(const chart::Grid& grid) {
  chart::Grid turned(grid.rows(), grid.stitches());
  const size_t words = grid.words_per_row();
  const size_t shift = words * 64 - static_cast<size_t>(grid.stitches());
  for (int row = 1; row <= grid.rows(); ++row) {
    const auto source = grid.row(row);
    const auto target = turned.mutable_row(row);
    for (size_t w = 0; w < words; ++w) {
      const uint64_t low = ReverseBits(source[words - 1 - w]);
      const uint64_t high = w + 1 < words ? ReverseBits(source[words - 2 - w]) : 0;
      target[w] = shift == 0 ? low : low >> shift | high << (64 - shift);
    }
  }
  return turned;
}

}  // namespace

RowComparison::RowComparison(const RowContents& before, const RowContents& after)
    : before_(before),
      after_(after),
      before_stitches_(before.stitches.stitches()),
      after_stitches_(after.stitches.stitches()),
      words_(std::min(before.stitches.words_per_row(), after.stitches.words_per_row())),
      zeros_(std::max(before.stitches.words_per_row(), after.stitches.words_per_row()), 0) {
  old_.rows = Point(before, before.stitches, zeros_.data());
  new_.rows = Point(after, after.stitches, zeros_.data());
  if (before_stitches_ != after_stitches_) {
    old_.turned = TurnRound(before.stitches);
    new_.turned = TurnRound(after.stitches);
    old_.reversed = Point(before, old_.turned, zeros_.data());
    new_.reversed = Point(after, new_.turned, zeros_.data());
  }
  Intern();
}

std::vector<RowComparison::Words> RowComparison::Point(const RowContents& contents,
                                                       const chart::Grid& stitches,
                                                       const uint64_t* zeros) {
  std::vector<Words> rows;
  rows.reserve(contents.rows.size());
  for (const RowContents::Row& row : contents.rows) {
    rows.push_back({row.drops_row == 0 ? zeros : stitches.row(row.drops_row).data(),
                    row.skips_row == 0 ? zeros : stitches.row(row.skips_row).data()});
  }
  return rows;
}

void RowComparison::Intern() {
  absl::flat_hash_map<RowKey, uint32_t> ids;
  const auto intern = [&ids](const RowContents& contents, const Version& version,
                             std::vector<uint32_t>& out) {
    out.reserve(contents.rows.size());
    for (size_t i = 0; i < contents.rows.size(); ++i) {
      const RowKey key{
          version.rows[i].drops,        version.rows[i].skips,   contents.stitches.words_per_row(),
          contents.stitches.stitches(), contents.rows[i].colour, contents.rows[i].side};
      out.push_back(ids.try_emplace(key, static_cast<uint32_t>(ids.size())).first->second);
    }
  };
  intern(before_, old_, before_ids_);
  intern(after_, new_, after_ids_);
}

int RowComparison::CommonStart(const Words& a, const Words& b) const {
  const int shorter = std::min(before_stitches_, after_stitches_);
  for (size_t w = 0; w < words_; ++w) {
    const uint64_t differing = Differing(a, b, w);
    if (differing != 0) {
      return std::min(shorter, static_cast<int>(w) * 64 + std::countr_zero(differing));
    }
  }
  return shorter;
}

int RowComparison::CommonEnd(size_t before, size_t after, int start) const {
  const int shorter = std::min(before_stitches_, after_stitches_);
  return std::min(shorter - start, CommonStart(old_.reversed[before], new_.reversed[after]));
}

int RowComparison::Score(size_t before, size_t after) const {
  const Words& a = old_.rows[before];
  const Words& b = new_.rows[after];
  int common = 0;
  if (before_stitches_ == after_stitches_) {
    common = before_stitches_;
    for (size_t w = 0; w < words_; ++w) common -= std::popcount(Differing(a, b, w));
  } else {
    const int start = CommonStart(a, b);
    common = start + CommonEnd(before, after, start);
  }
  const int longer = std::max(before_stitches_, after_stitches_);
  int score = 2 * common - longer;
  if (before_.rows[before].colour != after_.rows[after].colour) score -= longer / 2;
  if (before_.rows[before].side != after_.rows[after].side) score -= longer / 8;
  return score;
}

void RowComparison::AddRanges(const Words& a, const Words& b,
                              std::vector<StitchRange>& ranges) const {
  for (size_t w = 0; w < words_; ++w) {
    uint64_t differing = Differing(a, b, w);
    while (differing != 0) {
      const int skipped = std::countr_zero(differing);
      const int length = std::countr_one(differing >> skipped);
      const int first = static_cast<int>(w) * 64 + skipped + 1;
      const int last = first + length - 1;
      const bool adjoins = !ranges.empty() && ranges.back().last + 1 == first;
      if (adjoins || ranges.size() == kMostStitchRanges) {
        ranges.back().last = last;
      } else {
        ranges.push_back({first, last});
      }
      const int done = skipped + length;
      differing = done >= 64 ? 0 : differing >> done << done;
    }
  }
}

RowDifference RowComparison::Changed(size_t before, size_t after) const {
  RowDifference row;
  row.change = RowChange::kChanged;
  row.old_row = static_cast<int>(before) + 1;
  row.new_row = static_cast<int>(after) + 1;
  row.colour_changed = before_.rows[before].colour != after_.rows[after].colour;
  row.side_changed = before_.rows[before].side != after_.rows[after].side;
  if (before_stitches_ == after_stitches_) {
    AddRanges(old_.rows[before], new_.rows[after], row.old_stitches);
    row.new_stitches = row.old_stitches;
    return row;
  }
  const int start = CommonStart(old_.rows[before], new_.rows[after]);
  const int end = CommonEnd(before, after, start);
  if (start < before_stitches_ - end) row.old_stitches = {{start + 1, before_stitches_ - end}};
  if (start < after_stitches_ - end) row.new_stitches = {{start + 1, after_stitches_ - end}};
  return row;
}

}  // namespace rowproof::patterns
