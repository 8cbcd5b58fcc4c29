#include "services/domain/rows/text_expansion.h"

#include <algorithm>

#include "services/domain/chart/grid.h"

namespace rowproof::rows {
namespace {

using Kind = TextStep::Kind;
using Steps = std::span<const TextStep>;

constexpr int64_t kNoMore = 1'000'000'000'000;
// A chain space of the row below, whose width is known once the place in that row is.
constexpr int kSpaceBelow = -1;

bool IsSkip(const TextStep& step) {
  return step.kind == Kind::kSkip || step.kind == Kind::kSkipSpace;
}

// Whether the steps at i and i+1 are one chain space: chains and a skip, in either order.
bool IsSpace(Steps steps, size_t i) {
  if (i + 1 >= steps.size()) return false;
  const TextStep& a = steps[i];
  const TextStep& b = steps[i + 1];
  return (a.kind == Kind::kChains && IsSkip(b)) || (IsSkip(a) && b.kind == Kind::kChains);
}

int64_t LeastOf(const TextStep& step, int size) {
  switch (step.kind) {
    case Kind::kStitches:
      return step.count.Of(size);
    case Kind::kChains:
    case Kind::kSkip:
    case Kind::kSkipSpace:
      return step.count.Of(size) > 0 ? 1 : 0;
    case Kind::kGroup:
      return std::min(kNoMore, LeastElements(step.inside, size) * step.count.Of(size));
    case Kind::kUntil:
      return LeastElements(step.inside, size);
    case Kind::kFollow:
      return 0;
  }
  return 0;
}

// Walks along the row below; positions only grow.
class Below {
 public:
  explicit Below(const RowBelow& row) : runs_(row.runs) {}

  // Width of the chain space that starts at a position; 0 if none does.
  int SpaceAt(int64_t position) {
    MoveTo(position);
    if (run_ == runs_.size()) return 0;
    const WorkedRun& run = runs_[run_];
    if (run.kind != WorkedRun::Kind::kChainSpace) return 0;
    return (position - start_) % run.skipped == 0 ? run.skipped : 0;
  }

  // Index and start of the run that holds a position.
  size_t MoveTo(int64_t position) {
    while (run_ < runs_.size() && start_ + Width(runs_[run_]) <= position) {
      start_ += Width(runs_[run_]);
      ++run_;
    }
    return run_;
  }
  int64_t start() const { return start_; }

  static int64_t Width(const WorkedRun& run) {
    return run.kind == WorkedRun::Kind::kStitches ? run.count
                                                  : int64_t{run.count} * std::max(0, run.skipped);
  }

 private:
  std::span<const WorkedRun> runs_;
  size_t run_ = 0;
  int64_t start_ = 0;
};

class Expander {
 public:
  Expander(int size, const RowBelow& below) : size_(size), row_(below), below_(below) {}

  ExpandedText Expand(Steps steps) {
    AddSteps(steps);
    Settle();
    if (elements_ > chart::kMostStitches) return TooMuch();
    Merge();
    result_.taken = static_cast<int>(std::min<int64_t>(taken_, INT32_MAX));
    return std::move(result_);
  }

 private:
  std::vector<WorkedRun>& runs() { return result_.runs; }
  bool full() const { return elements_ > chart::kMostStitches; }

  static ExpandedText TooMuch() {
    ExpandedText result;
    result.fit = ExpandedText::Fit::kTooMuch;
    return result;
  }

  void AddSteps(Steps steps) {
    for (size_t i = 0; i < steps.size(); ++i) {
      if (IsSpace(steps, i)) {
        const bool chains_first = steps[i].kind == Kind::kChains;
        AddSpace(&steps[chains_first ? i : i + 1], &steps[chains_first ? i + 1 : i]);
        ++i;
      } else {
        AddStep(steps[i]);
      }
    }
  }

  void AddStep(const TextStep& step) {
    switch (step.kind) {
      case Kind::kStitches:
        return AddStitches(step.stitch, step.count.Of(size_));
      case Kind::kChains:
        return AddSpace(&step, nullptr);
      case Kind::kSkip:
      case Kind::kSkipSpace:
        return AddSpace(nullptr, &step);
      case Kind::kGroup:
        return AddGroup(step);
      case Kind::kUntil:
        return AddUntil(step);
      case Kind::kFollow:
        return AddFollow(step);
    }
  }

  void AddStitches(TextStitch stitch, int64_t count) {
    if (count <= 0) return;
    runs().push_back({WorkedRun::Kind::kStitches, stitch, static_cast<int>(count), 0, 0});
  }

  void AddSpace(const TextStep* chains, const TextStep* skip) {
    WorkedRun run{WorkedRun::Kind::kChainSpace, TextStitch::kSingleCrochet, 1, 0, 0};
    if (chains != nullptr) run.chains = chains->count.Of(size_);
    if (skip != nullptr) {
      run.skipped = skip->kind == Kind::kSkip ? skip->count.Of(size_) : kSpaceBelow;
    }
    if (run.chains == 0 && run.skipped == 0) return;
    runs().push_back(run);
  }

  // The inside is expanded once and copied; its length was counted before.
  void AddGroup(const TextStep& step) {
    const int times = step.count.Of(size_);
    // What is left out is not worked out either: its inside was not counted.
    if (times == 0) return;
    const size_t start = runs().size();
    AddSteps(step.inside);
    const size_t length = runs().size() - start;
    if (length == 0) return;
    for (int n = 1; n < times; ++n) {
      for (size_t i = 0; i < length; ++i) runs().push_back(WorkedRun(runs()[start + i]));
    }
  }

  void AddUntil(const TextStep& step) {
    Settle();
    const int64_t end = row_.stitches - step.count.Of(size_);
    const bool one_stitch = step.inside.size() == 1 && step.inside[0].kind == Kind::kStitches;
    if (taken_ >= end) {
      if (taken_ == end && one_stitch) return;
      if (!one_stitch) AddSteps(step.inside);
      Settle();
      return Misfit(ExpandedText::Fit::kRunsShort, taken_ - end, step.at);
    }
    if (one_stitch && step.inside[0].count.Of(size_) == 1) {
      AddStitches(step.inside[0].stitch, std::min<int64_t>(end - taken_, chart::kMostStitches + 1));
      return Settle();
    }
    const int64_t start = taken_;
    for (int64_t before = start; taken_ < end && !full(); before = taken_) {
      const size_t kept = runs().size();
      const int64_t elements = elements_;
      const Below below = below_;
      AddSteps(step.inside);
      Settle();
      if (taken_ == before) return;  // a unit that takes nothing in this size
      if (taken_ <= end) continue;
      if (before == start) {
        return Misfit(ExpandedText::Fit::kRunsShort, taken_ - end, step.at);
      }
      runs().resize(kept);
      settled_ = kept;
      elements_ = elements;
      taken_ = before;
      below_ = below;
      return Misfit(ExpandedText::Fit::kLeavesOver, end - taken_, step.at);
    }
  }

  void AddFollow(const TextStep& step) {
    Settle();
    const int64_t end = row_.stitches - step.count.Of(size_);
    if (row_.runs.empty()) return AddStitches(step.stitch, std::max<int64_t>(0, end - taken_));
    int64_t position = taken_;
    for (size_t i = below_.MoveTo(position); i < row_.runs.size() && position < end; ++i) {
      const WorkedRun& run = row_.runs[i];
      const int64_t last = std::min(end, below_.start() + Below::Width(run));
      if (run.kind == WorkedRun::Kind::kStitches) {
        AddStitches(step.stitch, last - position);
      } else if (run.skipped > 0) {
        WorkedRun space = run;
        space.count = static_cast<int>((last - position) / run.skipped);
        if (step.inside.empty()) {
          space.chains = 0;
        } else if (const int chains = step.inside[0].count.Of(size_); chains > 0) {
          space.chains = chains;
        }
        if (space.count > 0) runs().push_back(space);
      }
      position = std::max(position, last);
      below_.MoveTo(position);
    }
    Settle();
  }

  void Misfit(ExpandedText::Fit fit, int64_t off_by, TextPlace at) {
    if (result_.fit != ExpandedText::Fit::kFits) return;
    result_.fit = fit;
    result_.off_by = static_cast<int>(std::min<int64_t>(off_by, INT32_MAX));
    result_.at = at;
  }

  // Takes what was added since: stitches below, and the widths of chain spaces below.
  void Settle() {
    for (; settled_ < runs().size(); ++settled_) {
      WorkedRun& run = runs()[settled_];
      if (run.kind == WorkedRun::Kind::kStitches) {
        taken_ += run.count;
        elements_ += run.count;
        continue;
      }
      if (run.skipped == kSpaceBelow) {
        const int width = below_.SpaceAt(taken_);
        run.skipped = width > 0 ? width : std::max(1, run.chains - 1);
      }
      taken_ += int64_t{run.skipped} * run.count;
      elements_ += run.count;
    }
  }

  void Merge() {
    std::vector<WorkedRun> merged;
    for (const WorkedRun& run : runs()) AppendRun(merged, run);
    for (const WorkedRun& run : merged) {
      if (run.kind == WorkedRun::Kind::kStitches) result_.stitches += run.count;
      if (run.kind == WorkedRun::Kind::kChainSpace && run.chains > 0) {
        result_.chain_spaces += run.count;
      }
    }
    result_.runs = std::move(merged);
  }

  int size_;
  const RowBelow& row_;
  Below below_;
  ExpandedText result_;
  size_t settled_ = 0;
  int64_t taken_ = 0;
  int64_t elements_ = 0;
};

}  // namespace

int64_t LeastElements(std::span<const TextStep> steps, int size) {
  int64_t elements = 0;
  for (size_t i = 0; i < steps.size(); ++i) {
    elements += LeastOf(steps[i], size);
    if (IsSpace(steps, i)) ++i;
  }
  return std::min(kNoMore, elements);
}

ExpandedText ExpandSteps(std::span<const TextStep> steps, int size, const RowBelow& below) {
  if (LeastElements(steps, size) > chart::kMostStitches) {
    ExpandedText result;
    result.fit = ExpandedText::Fit::kTooMuch;
    return result;
  }
  return Expander(size, below).Expand(steps);
}

void AppendRun(std::vector<WorkedRun>& runs, const WorkedRun& run) {
  if (!runs.empty()) {
    WorkedRun like = runs.back();
    like.count = run.count;
    if (like == run) {
      runs.back().count += run.count;
      return;
    }
  }
  runs.push_back(run);
}

std::vector<WorkedRun> Reversed(std::span<const WorkedRun> runs) {
  return {runs.rbegin(), runs.rend()};
}

}  // namespace rowproof::rows
