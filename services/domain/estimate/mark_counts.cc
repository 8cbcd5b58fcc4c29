#include "services/domain/estimate/mark_counts.h"

#include <bit>
#include <optional>
#include <span>

#include "services/domain/check.h"

namespace rowproof::estimate {
namespace {

using Words = std::span<const uint64_t>;

// Bits [from, to) of word number `index` that are wanted; 0 past them.
uint64_t Wanted(size_t index, size_t from, size_t to) {
  uint64_t mask = ~uint64_t{0};
  if (index * 64 >= to || (index + 1) * 64 <= from) return 0;
  if (index * 64 < from) mask &= ~uint64_t{0} << from % 64;
  if ((index + 1) * 64 > to) mask &= (uint64_t{1} << to % 64) - 1;
  return mask;
}

// Ones of word(i) over a whole row, and among the stitches of the band.
template <typename WordAt>
RepeatedCount Ones(size_t words, const std::optional<chart::Band>& band, const WordAt& word) {
  RepeatedCount count;
  for (size_t i = 0; i < words; ++i) {
    const uint64_t bits = word(i);
    count.drawn += std::popcount(bits);
    if (!band.has_value()) continue;
    count.added += std::popcount(
        bits & Wanted(i, static_cast<size_t>(band->first - 1), static_cast<size_t>(band->last)));
  }
  return count;
}

RepeatedCount OnesOfBoth(Words lower, Words upper, const std::optional<chart::Band>& band) {
  return Ones(lower.size(), band, [&](size_t i) { return lower[i] & upper[i]; });
}

bool IsSet(Words words, int stitch) {
  const auto bit = static_cast<size_t>(stitch - 1);
  return (words[bit / 64] >> bit % 64 & 1) != 0;
}

// A run starts where a cell is set and the one before is not. In a further repetition the band's
// first cell comes after its last.
RepeatedCount RunsOf(Words words, const std::optional<chart::Band>& band) {
  RepeatedCount runs = Ones(words.size(), band, [&](size_t i) {
    const uint64_t before = i == 0 ? 0 : words[i - 1] >> 63;
    return words[i] & ~(words[i] << 1 | before);
  });
  if (!band.has_value() || !IsSet(words, band->first)) return runs;
  const bool starts_as_drawn = band->first == 1 || !IsSet(words, band->first - 1);
  const bool starts_at_seam = !IsSet(words, band->last);
  runs.added += (starts_at_seam ? 1 : 0) - (starts_as_drawn ? 1 : 0);
  return runs;
}

}  // namespace

MarkCounts::MarkCounts(const chart::Design& design, bool with_runs) : with_runs_(with_runs) {
  const chart::Grid& cells = design.cells;
  rows_.resize(static_cast<size_t>(cells.rows()));
  for (int row = 1; row <= cells.rows(); ++row) {
    const Words words = cells.row(row);
    rows_[static_cast<size_t>(row - 1)].set =
        Ones(words.size(), design.stitch_band, [&](size_t i) { return words[i]; });
  }
  if (design.row_band.has_value()) {
    band_first_ = design.row_band->first;
    band_last_ = design.row_band->last;
  }
  if (with_runs) AddRuns(design);
}

void MarkCounts::AddRuns(const chart::Design& design) {
  const chart::Grid& cells = design.cells;
  for (int row = 1; row <= cells.rows(); ++row) {
    const Words words = cells.row(row);
    Row& counts = rows_[static_cast<size_t>(row - 1)];
    counts.runs = RunsOf(words, design.stitch_band);
    counts.first_set = IsSet(words, 1);
    counts.last_set = IsSet(words, cells.stitches());
    if (row == cells.rows()) continue;
    counts.set_here_and_above = OnesOfBoth(words, cells.row(row + 1), design.stitch_band);
  }
  if (!design.row_band.has_value()) return;
  set_at_seam_ = OnesOfBoth(cells.row(band_last_), cells.row(band_first_), design.stitch_band);
}

int64_t MarkCounts::Count(Marks marks, int stitch_repeats, int64_t stitches) const {
  const int64_t set = At(marks.row).set.Times(stitch_repeats);
  return marks.inverted ? stitches - set : set;
}

// Cells that are not set have one run more than the set ones, but for each edge that is set.
int64_t MarkCounts::Runs(Marks marks, int stitch_repeats) const {
  ROWPROOF_CHECK(with_runs_);
  const Row& row = At(marks.row);
  const int64_t runs = row.runs.Times(stitch_repeats);
  return marks.inverted ? runs + 1 - (row.first_set ? 1 : 0) - (row.last_set ? 1 : 0) : runs;
}

int64_t MarkCounts::Both(Marks lower, Marks upper, int stitch_repeats, int64_t stitches) const {
  ROWPROOF_CHECK(with_runs_);
  const bool follows = upper.row == lower.row + 1;
  ROWPROOF_CHECK(follows || (lower.row == band_last_ && upper.row == band_first_));
  const int64_t both =
      (follows ? At(lower.row).set_here_and_above : set_at_seam_).Times(stitch_repeats);
  const int64_t set_below = At(lower.row).set.Times(stitch_repeats);
  const int64_t set_above = At(upper.row).set.Times(stitch_repeats);
  if (lower.inverted && upper.inverted) return stitches - set_below - set_above + both;
  if (lower.inverted) return set_above - both;
  return upper.inverted ? set_below - both : both;
}

}  // namespace rowproof::estimate
