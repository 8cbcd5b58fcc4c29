// The one stitch whose drop can be removed to leave no run that is too long.
#include <algorithm>

#include "services/domain/chart/check/runs.h"

namespace rowproof::chart {
namespace {

// A row's marks with one of them removed.
class RowWithout {
 public:
  RowWithout(const MarkRow& row, int stitch) : row_{words_.data(), row.words, 0, row.last_mask} {
    for (size_t i = 0; i < row.words; ++i) words_[i] = row.word(i);
    const auto bit = static_cast<size_t>(stitch - 1);
    words_[bit / 64] &= ~(uint64_t{1} << (bit % 64));
  }
  const MarkRow& row() const { return row_; }

 private:
  std::array<uint64_t, kMostWords> words_;
  MarkRow row_;
};

}  // namespace

void RunFinder::AddDrawnRunAt(const MarkRow& row, int stitch, std::vector<Run>& runs) const {
  if (stitch < 1 || stitch > stitches_ || !row.at(stitch)) return;
  const int first = stitch - CountDown(row, stitch - 1, 1);
  const int last = stitch + CountUp(row, stitch + 1, stitches_);
  if (last - first + 1 > longest_) runs.push_back({first, last, Seam::kNone, all_sizes_});
}

bool RunFinder::Overlap(const Run& one, const Run& other) const {
  // The stitches of a run as at most two stretches.
  const auto stretches = [this](const Run& run) {
    using Pair = std::pair<int, int>;
    if (run.first <= run.last) return std::array<Pair, 2>{Pair{run.first, run.last}, Pair{1, 0}};
    if (run.seam == Seam::kJoin) {
      return std::array<Pair, 2>{Pair{run.first, stitches_}, Pair{1, run.last}};
    }
    return std::array<Pair, 2>{Pair{run.first, band_.last}, Pair{band_.first, run.last}};
  };
  for (const auto& [first, last] : stretches(one)) {
    for (const auto& [other_first, other_last] : stretches(other)) {
      if (std::max(first, other_first) <= std::min(last, other_last)) return true;
    }
  }
  return false;
}

bool RunFinder::Breaks(const MarkRow& without, const Run& run, int stitch, SizeSet sizes) const {
  // Whatever is left of the run holds one of these stitches.
  std::vector<Run> left;
  for (const int at : {stitch - 1, stitch + 1, run.first, run.last}) {
    AddDrawnRunAt(without, at, left);
  }
  if (seam_sizes_ != 0) {
    AddDrawnRunAt(without, band_.first, left);
    AddDrawnRunAt(without, band_.last, left);
    AddSeamRun(without, left);
  }
  if (tube_) {
    AddDrawnRunAt(without, 1, left);
    AddDrawnRunAt(without, stitches_, left);
    if (Joined(without)) JoinEnds(without, left);
  }
  return std::none_of(left.begin(), left.end(), [&](const Run& found) {
    return (found.sizes & sizes) != 0 && Overlap(found, run);
  });
}

int RunFinder::StitchThatBreaks(const MarkRow& row, const Run& run, SizeSet sizes) const {
  const int end = run.seam == Seam::kJoin ? stitches_ : band_.last;
  const int start = run.seam == Seam::kJoin ? 1 : band_.first;
  const int length =
      run.first <= run.last ? run.last - run.first + 1 : end - run.first + 1 + run.last - start + 1;
  // Pieces that are drawn side by side are worked side by side.
  if (length > 2 * longest_ + 1) return 0;
  const auto stitch_at = [&](int place) {
    const int stitch = run.first + place;
    return run.first <= run.last || stitch <= end ? stitch : stitch - end - 1 + start;
  };
  const auto breaks = [&](int place) {
    const int stitch = stitch_at(place);
    return Breaks(RowWithout(row, stitch).row(), run, stitch, sizes);
  };
  // The halves of a drawn run are short enough by its length.
  const int middle = (length - 1) / 2;
  if ((seam_sizes_ == 0 && !tube_) || breaks(middle)) return stitch_at(middle);
  for (int place = std::max(0, length - 1 - longest_); place <= std::min(length - 1, longest_);
       ++place) {
    if (breaks(place)) return stitch_at(place);
  }
  return 0;
}

}  // namespace rowproof::chart
