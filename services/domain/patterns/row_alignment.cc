#include "services/domain/patterns/row_alignment.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "services/domain/patterns/longest_common.h"
#include "services/domain/patterns/row_comparison.h"

namespace rowproof::patterns {
namespace {

// Bounds of the search for similar rows in one alignment: comparisons, and words compared.
constexpr int64_t kMostComparisons = 4'000'000;
constexpr int64_t kMostWords = 16'000'000;

using Pair = std::pair<int, int>;

// Rows before_first .. before_end - 1 and after_first .. after_end - 1, between two equal rows.
struct Gap {
  int before_first;
  int before_end;
  int after_first;
  int after_end;
  int before_length() const { return before_end - before_first; }
  int after_length() const { return after_end - after_first; }
};

// Weighted alignment of a gap's rows within a band around its diagonal.
class GapSearch {
 public:
  GapSearch(const RowComparison& rows, const Gap& gap, int64_t comparisons, const Stop& stop)
      : rows_(rows), gap_(gap), stop_(stop), m_(gap.before_length()), n_(gap.after_length()) {
    const int64_t half = std::max(comparisons / (2 * int64_t{m_}), int64_t{n_ / m_ + 2});
    half_ = static_cast<int>(std::min(half, int64_t{n_}));
  }

  std::vector<Pair> Run() {
    steps_.reserve(static_cast<size_t>(m_ + 1));
    std::vector<int64_t> best(static_cast<size_t>(Last(0) - First(0) + 1), 0);
    steps_.emplace_back(best.size(), Step::kSkipAfter);
    for (int i = 1; i <= m_; ++i) {
      if (stop_.After(rows_.words() * best.size())) return {};
      best = NextRow(i, best);
    }
    return WalkBack();
  }

 private:
  enum class Step : uint8_t { kPair, kSkipBefore, kSkipAfter };
  static constexpr int64_t kNone = std::numeric_limits<int64_t>::min() / 2;

  int Centre(int i) const { return static_cast<int>(int64_t{i} * n_ / m_); }
  int First(int i) const { return std::max(0, Centre(i) - half_); }
  int Last(int i) const { return std::min(n_, Centre(i) + half_); }

  std::vector<int64_t> NextRow(int i, const std::vector<int64_t>& below) {
    const int first = First(i);
    const int last = Last(i);
    const int below_first = First(i - 1);
    const auto value_below = [&](int j) {
      const int at = j - below_first;
      return at < 0 || at >= static_cast<int>(below.size()) ? kNone
                                                            : below[static_cast<size_t>(at)];
    };
    std::vector<int64_t> best(static_cast<size_t>(last - first + 1));
    std::vector<Step> steps(best.size());
    for (int j = first; j <= last; ++j) {
      // Ties go to the earlier row: skip a later one first.
      int64_t value = j > first ? best[static_cast<size_t>(j - first - 1)] : kNone;
      Step step = Step::kSkipAfter;
      if (value_below(j) > value) {
        value = value_below(j);
        step = Step::kSkipBefore;
      }
      if (j > 0 && value_below(j - 1) > kNone) {
        const int score = rows_.Score(static_cast<size_t>(gap_.before_first + i - 1),
                                      static_cast<size_t>(gap_.after_first + j - 1));
        // One more for the pair itself, so that a row half alike is paired rather than dropped.
        if (score >= 0 && value_below(j - 1) + score + 1 > value) {
          value = value_below(j - 1) + score + 1;
          step = Step::kPair;
        }
      }
      best[static_cast<size_t>(j - first)] = value;
      steps[static_cast<size_t>(j - first)] = step;
    }
    steps_.push_back(std::move(steps));
    return best;
  }

  std::vector<Pair> WalkBack() const {
    std::vector<Pair> pairs;
    int i = m_;
    int j = n_;
    while (i > 0 && j > 0) {
      const Step step = steps_[static_cast<size_t>(i)][static_cast<size_t>(j - First(i))];
      if (step == Step::kPair) {
        pairs.emplace_back(gap_.before_first + --i, gap_.after_first + --j);
      } else if (step == Step::kSkipBefore) {
        --i;
      } else {
        --j;
      }
    }
    std::reverse(pairs.begin(), pairs.end());
    return pairs;
  }

  const RowComparison& rows_;
  const Gap gap_;
  const Stop& stop_;
  const int m_;
  const int n_;
  int half_ = 0;
  std::vector<std::vector<Step>> steps_;
};

class Alignment {
 public:
  Alignment(const RowContents& before, const RowContents& after, const Stop& stop)
      : stop_(stop), rows_(before, after) {
    const auto equal = LongestCommonSubsequence(rows_.before_ids(), rows_.after_ids());
    const int before_end = static_cast<int>(before.rows.size());
    const int after_end = static_cast<int>(after.rows.size());
    const int64_t total = CountComparisons(equal, before_end, after_end);
    const int64_t most = std::min(
        kMostComparisons, kMostWords / std::max<int64_t>(1, static_cast<int64_t>(rows_.words())));
    share_ = total <= most ? 1.0 : static_cast<double>(most) / static_cast<double>(total);
    out_.reserve(static_cast<size_t>(std::max(before_end, after_end)));
    int i = 0;
    int j = 0;
    for (const auto& [at_before, at_after] : equal) {
      FillGap({i, at_before, j, at_after});
      out_.push_back({RowChange::kSame, at_before + 1, at_after + 1, false, false, {}, {}});
      i = at_before + 1;
      j = at_after + 1;
    }
    FillGap({i, before_end, j, after_end});
  }

  std::vector<RowDifference> Take() { return std::move(out_); }

 private:
  static int64_t CountComparisons(const std::vector<Pair>& equal, int before_end, int after_end) {
    int64_t total = 0;
    int i = 0;
    int j = 0;
    for (const auto& [at_before, at_after] : equal) {
      total += int64_t{at_before - i} * (at_after - j);
      i = at_before + 1;
      j = at_after + 1;
    }
    return total + int64_t{before_end - i} * (after_end - j);
  }

  void FillGap(const Gap& gap) {
    std::vector<Pair> similar;
    if (gap.before_length() > 0 && gap.after_length() > 0) {
      const int64_t all = int64_t{gap.before_length()} * gap.after_length();
      // A whole gap is searched when its band is as wide as the gap on both sides.
      const auto comparisons =
          share_ == 1.0 ? 2 * all : static_cast<int64_t>(static_cast<double>(all) * share_);
      similar = GapSearch(rows_, gap, comparisons, stop_).Run();
    }
    int i = gap.before_first;
    int j = gap.after_first;
    for (const auto& [at_before, at_after] : similar) {
      Unpaired({i, at_before, j, at_after});
      AddChanged(at_before, at_after);
      i = at_before + 1;
      j = at_after + 1;
    }
    Unpaired({i, gap.before_end, j, gap.after_end});
  }

  // As many rows there as before: rewritten in place. Otherwise nothing says which became which.
  void Unpaired(const Gap& gap) {
    if (gap.before_length() == gap.after_length()) {
      for (int n = 0; n < gap.before_length(); ++n) {
        AddChanged(gap.before_first + n, gap.after_first + n);
      }
      return;
    }
    for (int i = gap.before_first; i < gap.before_end; ++i) {
      out_.push_back({RowChange::kRemoved, i + 1, 0, false, false, {}, {}});
    }
    for (int j = gap.after_first; j < gap.after_end; ++j) {
      out_.push_back({RowChange::kAdded, 0, j + 1, false, false, {}, {}});
    }
  }

  void AddChanged(int before, int after) {
    if (stop_.After(10 * rows_.words())) return;
    out_.push_back(rows_.Changed(static_cast<size_t>(before), static_cast<size_t>(after)));
  }

  const Stop& stop_;
  RowComparison rows_;
  double share_ = 1;
  std::vector<RowDifference> out_;
};

}  // namespace

std::vector<RowDifference> AlignRows(const RowContents& before, const RowContents& after,
                                     const Stop& stop) {
  return Alignment(before, after, stop).Take();
}

const char* Name(RowChange change) {
  switch (change) {
    case RowChange::kSame:
      return "same";
    case RowChange::kChanged:
      return "changed";
    case RowChange::kAdded:
      return "added";
    case RowChange::kRemoved:
      return "removed";
    case RowChange::kTextChanged:
      return "text-changed";
  }
  return "";
}

}  // namespace rowproof::patterns
