#include "services/domain/chart/runs.h"

#include <algorithm>
#include <array>
#include <bit>

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

}  // namespace

RunFinder::RunFinder(const Design& design, int longest)
    : stitches_(design.cells.stitches()), longest_(longest) {
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

bool RunFinder::FindStarts(const MarkRow& row, Starts& starts) const {
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

void RunFinder::AddSeamRun(const MarkRow& row, std::vector<Run>& runs) const {
  const int head = CountUp(row, band_.first, band_.last);
  if (head == band_.length()) {
    const int first = band_.first - CountDown(row, band_.first - 1, 1);
    const int last = band_.last + CountUp(row, band_.last + 1, stitches_);
    SizeSet sizes = 0;
    for (size_t i = 0; i < repeats_.size(); ++i) {
      if (last - first + 1 + (repeats_[i] - 1) * band_.length() > longest_)
        sizes |= SizeSet{1} << i;
    }
    // A drawn run that is long enough has been found as such.
    if (sizes != 0 && last - first + 1 <= longest_) runs.push_back({first, last, true, sizes});
    return;
  }
  const int tail = CountDown(row, band_.last, band_.first);
  if (head + tail <= longest_) return;
  // Where only one of the two repetitions brings marks, the run may be one of the drawn chart too.
  const bool drawn_head = tail == 0 && (band_.first == 1 || !row.at(band_.first - 1));
  const bool drawn_tail = head == 0 && (band_.last == stitches_ || !row.at(band_.last + 1));
  if (drawn_head || drawn_tail) return;
  runs.push_back({tail == 0 ? band_.first : band_.last - tail + 1,
                  head == 0 ? band_.last : band_.first + head - 1, tail > 0 && head > 0,
                  seam_sizes_});
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
      const int stitch = static_cast<int>(i * 64) + std::countr_zero(fresh) + 1;
      const int count = CountUp(row, stitch, stitches_);
      runs.push_back({stitch, stitch + count - 1, false, all_sizes_});
    }
  }
}

void RunFinder::Find(const MarkRow& row, std::vector<Run>& runs) const {
  runs.clear();
  AddDrawnRuns(row, runs);
  if (seam_sizes_ != 0) AddSeamRun(row, runs);
}

}  // namespace rowproof::chart
