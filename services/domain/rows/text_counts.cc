#include "services/domain/rows/text_counts.h"

#include <algorithm>
#include <utility>

#include "services/domain/rows/text_expansion.h"
#include "services/domain/rows/text_rows.h"

namespace rowproof::rows {
namespace {

bool IsOpenEnded(const std::vector<TextStep>& steps) {
  return std::any_of(steps.begin(), steps.end(), [](const TextStep& step) {
    return step.kind == TextStep::Kind::kUntil || step.kind == TextStep::Kind::kFollow ||
           IsOpenEnded(step.inside);
  });
}

// What the text says of a row's stitches if they cannot be worked out.
std::optional<int> StatedStitches(const TextRow& row, int size) {
  for (const StatedCount& stated : row.stated) {
    if (stated.what == StatedCount::What::kStitches) return stated.count.Of(size);
  }
  return std::nullopt;
}

// One size, row by row.
class Counting {
 public:
  Counting(const TextDocument& document, int size) : document_(document), size_(size) {
    if (!document.foundation.has_value()) return;
    const int chains = document.foundation->chains.Of(size);
    // The first stitch goes into the 2nd chain unless the first row says otherwise.
    const int first = document.rows.empty() ? 0 : document.rows.front().first_chain;
    below_ = std::max(0, document.foundation->ring ? chains : chains - std::max(1, first - 1));
  }

  // The count of the row; adds to `counted` what was worked out.
  LineCount Add(const PlacedRow& placed, int64_t& counted) {
    const TextRow* row =
        placed.worked < 0 ? nullptr : &document_.rows[static_cast<size_t>(placed.worked)];
    if (row == nullptr || row->body != TextRow::Body::kSteps ||
        (below_ == kNotKnown && IsOpenEnded(row->steps))) {
      below_ = row == nullptr ? kNotKnown : StatedStitches(*row, size_).value_or(kNotKnown);
      runs_.clear();
      return std::nullopt;
    }
    const bool turned = placed.side.has_value() && has_side_ ? *placed.side != side_ : !row->round;
    if (turned) std::reverse(runs_.begin(), runs_.end());
    ExpandedText expanded = ExpandSteps(row->steps, size_, {std::max(0, below_), runs_});
    has_side_ = placed.side.has_value();
    if (has_side_) side_ = *placed.side;
    counted += expanded.stitches + expanded.chain_spaces + 1;
    if (expanded.fit == ExpandedText::Fit::kTooMuch) {
      below_ = kNotKnown;
      runs_.clear();
      return std::nullopt;
    }
    below_ = expanded.taken;
    runs_ = std::move(expanded.runs);
    return ClosingCount{expanded.stitches, expanded.chain_spaces};
  }

 private:
  const TextDocument& document_;
  const int size_;
  // No optionals: g++ 12 takes their inside for uninitialized once it has inlined all this.
  static constexpr int kNotKnown = -1;
  int below_ = kNotKnown;  // stitches of the row below
  // That row's stitches and side.
  std::vector<WorkedRun> runs_;
  bool has_side_ = false;
  chart::Side side_{};
};

}  // namespace

TextCounts CountRows(const TextDocument& document, int64_t most) {
  TextCounts counts;
  counts.lines.assign(document.rows.size(),
                      std::vector<LineCount>(static_cast<size_t>(document.size_count())));
  int64_t counted = 0;
  for (int size = 0; size < document.size_count(); ++size) {
    Counting counting(document, size);
    for (const PlacedRow& placed : RowsOfSize(document, size)) {
      if (counted >= most) {
        counts.complete = false;
        return counts;
      }
      const LineCount count = counting.Add(placed, counted);
      LineCount& kept = counts.lines[static_cast<size_t>(placed.line)][static_cast<size_t>(size)];
      if (placed.worked == placed.line && !kept.has_value()) kept = count;
    }
  }
  return counts;
}

}  // namespace rowproof::rows
