#include "services/domain/chart/check/runs.h"

#include <algorithm>
#include <bit>
#include <utility>

namespace rowproof::chart {
namespace {

// Marks in an unbroken line from bit `from` upwards, at most `most`.
int OnesFrom(const MarkRow& row, int from, int most) {
  int count = 0;
  while (count < most) {
    const int bit = from + count;
    const int offset = bit % 64;
    const int ones =
        std::min(std::countr_one(row.word(static_cast<size_t>(bit / 64)) >> offset), 64 - offset);
    count += ones;
    if (ones < 64 - offset) break;
  }
  return std::min(count, most);
}

// Marks in an unbroken line from bit `from` downwards, at most `most`.
int OnesDownFrom(const MarkRow& row, int from, int most) {
  int count = 0;
  while (count < most) {
    const int bit = from - count;
    const int offset = bit % 64;
    const int ones = std::min(
        std::countl_one(row.word(static_cast<size_t>(bit / 64)) << (63 - offset)), offset + 1);
    count += ones;
    if (ones < offset + 1) break;
  }
  return std::min(count, most);
}

// The places in `word` at which more than kLongest marks in a line start, where lines of kLength
// start at the set bits of `word` and `next`. Each step joins two lines that overlap or touch.
template <int kLongest, int kLength>
uint64_t StartsIn(uint64_t word, uint64_t next) {
  if constexpr (kLength > kLongest) {
    return word;
  } else {
    constexpr int kStep = std::min(kLength, kLongest + 1 - kLength);
    return StartsIn<kLongest, kLength + kStep>(word & (word >> kStep | next << (64 - kStep)),
                                               next & next >> kStep);
  }
}

// One pass, 64 stitches at a time: everything needed is in one word and the next. Constant shifts
// are faster than variable ones.
template <int kLongest>
uint64_t ShortStarts(const MarkRow& row, uint64_t* starts) {
  const size_t last = row.words - 1;
  uint64_t any = 0;
  for (size_t i = 0; i + 1 < last; ++i) {
    any |= starts[i] = StartsIn<kLongest, 1>(row.cells[i] ^ row.flip, row.cells[i + 1] ^ row.flip);
  }
  if (last > 0) {
    any |= starts[last - 1] = StartsIn<kLongest, 1>(row.word(last - 1), row.word(last));
  }
  any |= starts[last] = StartsIn<kLongest, 1>(row.word(last), 0);
  return any;
}

// A line of up to 63 marks that starts in a word ends in the next one at most, before its last.
constexpr int kLongestShort = 62;
using StartsOfRow = uint64_t (*)(const MarkRow&, uint64_t*);

template <int... kLongest>
constexpr std::array<StartsOfRow, sizeof...(kLongest)> TableOf(
    std::integer_sequence<int, kLongest...>) {
  return {ShortStarts<kLongest>...};
}

// By the longest run that is allowed.
constexpr auto kShortStarts = TableOf(std::make_integer_sequence<int, kLongestShort + 1>());

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

RunFinder::RunFinder(const Design& design, int longest)
    : stitches_(design.cells.stitches()), longest_(longest), tube_(design.form == Form::kTube) {
  ROWPROOF_CHECK(longest >= 0);
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    const SizeSet bit = SizeSet{1} << i;
    all_sizes_ |= bit;
    repeats_.push_back(design.sizes[i].stitch_repeats);
    if (design.sizes[i].stitch_repeats > 1) seam_sizes_ |= bit;
  }
  if (seam_sizes_ != 0) band_ = *design.stitch_band;
}

int RunFinder::CountUp(const MarkRow& row, int stitch, int end) {
  return stitch > end ? 0 : OnesFrom(row, stitch - 1, end - stitch + 1);
}

int RunFinder::CountDown(const MarkRow& row, int stitch, int end) {
  return stitch < end ? 0 : OnesDownFrom(row, stitch - 1, stitch - end + 1);
}

SizeSet RunFinder::TooLongIn(int drawn, bool with_band) const {
  SizeSet sizes = 0;
  for (size_t i = 0; i < repeats_.size(); ++i) {
    const int more = with_band && seam_sizes_ != 0 ? (repeats_[i] - 1) * band_.length() : 0;
    if (drawn + more > longest_) sizes |= SizeSet{1} << i;
  }
  return sizes;
}

bool RunFinder::FindStarts(const MarkRow& row, Starts& starts) const {
  if (longest_ <= kLongestShort) {
    starts[row.words] = 0;
    return kShortStarts[static_cast<size_t>(longest_)](row, starts.data()) != 0;
  }
  const size_t words = row.words;
  uint64_t any = 0;
  for (size_t i = 0; i < words; ++i) any |= starts[i] = row.cells[i] ^ row.flip;
  starts[words - 1] &= row.last_mask;
  starts[words] = 0;
  // Each step joins two lines of `length` marks that overlap or touch.
  for (int length = 1; length <= longest_ && any != 0;) {
    const int step = std::min({length, longest_ + 1 - length, 63});
    any = 0;
    for (size_t i = 0; i < words; ++i) {
      any |= starts[i] &= starts[i] >> step | starts[i + 1] << (64 - step);
    }
    length += step;
  }
  return any != 0;
}

std::optional<int64_t> RunFinder::CountDrawn(const MarkRow& row) const {
  if (seam_sizes_ != 0 || Joined(row)) return std::nullopt;
  Starts starts;
  if (longest_ >= stitches_ || !FindStarts(row, starts)) return 0;
  int64_t count = 0;
  uint64_t carry = 0;
  for (size_t i = 0; i < row.words; ++i) {
    count += std::popcount(starts[i] & ~(starts[i] << 1 | carry));
    carry = starts[i] >> 63;
  }
  return count;
}

void RunFinder::AddDrawnRuns(const MarkRow& row, std::vector<Run>& runs) const {
  if (longest_ >= stitches_) return;
  Starts starts;
  if (!FindStarts(row, starts)) return;
  uint64_t carry = 0;  // a line starts at the last stitch of the word before
  for (size_t i = 0; i < row.words; ++i) {
    // A run starts where a line starts and none did one stitch earlier.
    uint64_t fresh = starts[i] & ~(starts[i] << 1 | carry);
    carry = starts[i] >> 63;
    for (; fresh != 0; fresh &= fresh - 1) {
      const int bit = std::countr_zero(fresh);
      const int stitch = static_cast<int>(i * 64) + bit + 1;
      // Most runs end in the word that they start in.
      const int here = std::countr_one(row.word(i) >> bit);
      const int count = bit + here < 64 ? here : CountUp(row, stitch, stitches_);
      runs.push_back({stitch, stitch + count - 1, Seam::kNone, all_sizes_});
    }
  }
}

void RunFinder::AddFilledBandRun(const MarkRow& row, std::vector<Run>& runs) const {
  const int first = band_.first - CountDown(row, band_.first - 1, 1);
  const int last = band_.last + CountUp(row, band_.last + 1, stitches_);
  // A drawn run that is long enough has been found as such.
  if (last - first + 1 > longest_) return;
  const SizeSet sizes = TooLongIn(last - first + 1, true);
  if (sizes != 0) runs.push_back({first, last, Seam::kStitchRepeat, sizes});
}

void RunFinder::AddSeamRun(const MarkRow& row, std::vector<Run>& runs) const {
  const int head = CountUp(row, band_.first, band_.last);
  if (head == band_.length()) {
    AddFilledBandRun(row, runs);
    return;
  }
  const int tail = CountDown(row, band_.last, band_.first);
  if (head + tail <= longest_) return;
  // If only one of the two repetitions brings marks, the run may be one of the drawn chart too.
  const bool drawn_head = tail == 0 && (band_.first == 1 || !row.at(band_.first - 1));
  const bool drawn_tail = head == 0 && (band_.last == stitches_ || !row.at(band_.last + 1));
  if (drawn_head || drawn_tail) return;
  runs.push_back({tail == 0 ? band_.first : band_.last - tail + 1,
                  head == 0 ? band_.last : band_.first + head - 1,
                  tail > 0 && head > 0 ? Seam::kStitchRepeat : Seam::kNone, seam_sizes_});
}

bool RunFinder::Joined(const MarkRow& row) const { return tube_ && row.at(1) && row.at(stitches_); }

// The run across the join of a round whose first and last stitch are marked; without sizes if it
// is too long in none.
Run RunFinder::JoinedRun(const MarkRow& row) const {
  const int tail = CountDown(row, stitches_, 1);
  if (tail == stitches_) {
    return {1, stitches_, stitches_ > longest_ ? Seam::kNone : Seam::kStitchRepeat,
            TooLongIn(stitches_, true)};
  }
  const int head = CountUp(row, 1, stitches_);
  const int first = stitches_ - tail + 1;
  const bool with_band = seam_sizes_ != 0 && (first <= band_.first || head >= band_.last);
  return {first, head, Seam::kJoin, TooLongIn(tail + head, with_band)};
}

void RunFinder::JoinEnds(const MarkRow& row, std::vector<Run>& runs) const {
  // Runs that touch an end of the row continue at the other. They stay as they are if they also end
  // at a seam of the band.
  std::erase_if(runs, [&](Run& run) {
    if (run.first > run.last || (run.first > 1 && run.last < stitches_)) return false;
    const bool starts_at_seam = seam_sizes_ != 0 && run.first == 1 && band_.first == 1 &&
                                run.last < band_.last && !row.at(band_.last);
    const bool ends_at_seam = seam_sizes_ != 0 && run.last == stitches_ &&
                              band_.last == stitches_ && run.first > band_.first &&
                              !row.at(band_.first);
    if (!starts_at_seam && !ends_at_seam) return true;
    run.sizes = seam_sizes_;
    return false;
  });
  const Run joined = JoinedRun(row);
  if (joined.sizes == 0) return;
  for (Run& run : runs) {
    if (run.first != joined.first || run.last != joined.last) continue;
    run.sizes |= joined.sizes;
    run.seam = joined.seam;
    return;
  }
  runs.push_back(joined);
}

void RunFinder::Find(const MarkRow& row, std::vector<Run>& runs) const {
  runs.clear();
  AddDrawnRuns(row, runs);
  if (seam_sizes_ != 0) AddSeamRun(row, runs);
  if (Joined(row)) JoinEnds(row, runs);
}

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
