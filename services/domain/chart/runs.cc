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

bool RunFinder::HasLongDrawnRun(const MarkRow& row) const {
  // starts: bit b is set where `length` marks in a line start at b; each step joins two such lines.
  std::array<uint64_t, kMostWords + 1> starts;
  const size_t words = row.words;
  for (size_t i = 0; i < words; ++i) starts[i] = row.word(i);
  starts[words] = 0;
  for (int length = 1; length <= longest_;) {
    const int step = std::min(length, longest_ + 1 - length);
    if (step >= 64) return true;  // so long a limit is left to Find
    for (size_t i = 0; i < words; ++i) {
      starts[i] &= starts[i] >> step | starts[i + 1] << (64 - step);
    }
    length += step;
  }
  uint64_t any = 0;
  for (size_t i = 0; i < words; ++i) any |= starts[i];
  return any != 0;
}

bool RunFinder::MayFind(const MarkRow& row) const {
  if (seam_sizes_ != 0) {
    const int head = CountUp(row, band_.first, band_.last);
    if (head == band_.length()) return true;
    if (head + CountDown(row, band_.last, band_.first) > longest_) return true;
  }
  return longest_ < stitches_ && HasLongDrawnRun(row);
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
                  head == 0 ? band_.last : band_.first + head - 1, true, seam_sizes_});
}

std::vector<Run> RunFinder::Find(const MarkRow& row) const {
  std::vector<Run> runs;
  for (int stitch = 1; stitch <= stitches_;) {
    const int count = CountUp(row, stitch, stitches_);
    if (count > longest_ && count > 0)
      runs.push_back({stitch, stitch + count - 1, false, all_sizes_});
    stitch += count;
    // To the next mark.
    while (stitch <= stitches_ && !row.at(stitch)) ++stitch;
  }
  if (seam_sizes_ != 0) AddSeamRun(row, runs);
  return runs;
}

}  // namespace rowproof::chart
