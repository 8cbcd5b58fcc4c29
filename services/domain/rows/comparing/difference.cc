#include "services/domain/rows/comparing/difference.h"

#include <algorithm>

#include "fmt/format.h"

namespace rowproof::rows {
namespace {

using Runs = std::span<const WorkedRun>;
using Kind = WorkedRun::Kind;

// Of a long group the words of its beginning.
constexpr size_t kMostGroupRuns = 6;

int WidthOf(const WorkedRun& element) {
  return element.kind == Kind::kStitches ? 1 : element.skipped;
}

int WidthOf(Runs elements) {
  int width = 0;
  for (const WorkedRun& element : elements) width += WidthOf(element);
  return width;
}

std::vector<WorkedRun> Apart(Runs runs) {
  std::vector<WorkedRun> elements;
  for (const WorkedRun& run : runs) {
    WorkedRun one = run;
    one.count = 1;
    elements.insert(elements.end(), static_cast<size_t>(std::max(0, run.count)), one);
  }
  return elements;
}

// By stitch of the row below, what takes it.
std::vector<const WorkedRun*> ByStitch(Runs elements) {
  std::vector<const WorkedRun*> stitches;
  for (const WorkedRun& element : elements) {
    stitches.insert(stitches.end(), static_cast<size_t>(std::max(0, WidthOf(element))), &element);
  }
  return stitches;
}

std::string StitchName(TextStitch stitch, const RowTerms& terms) {
  if (stitch == TextStitch::kPlain) stitch = TextStitch::kSingleCrochet;
  if (stitch == TextStitch::kDrop) {
    stitch =
        terms.technique == chart::Technique::kSpike ? TextStitch::kSpike : TextStitch::kMosaicDrop;
  }
  return AbbreviationOf(stitch, terms.terms);
}

}  // namespace

std::string Words(const WorkedRun& element, const RowTerms& terms) {
  if (element.kind == Kind::kStitches) return StitchName(element.stitch, terms);
  const char* skip = terms.terms == chart::Terms::kUs ? "sk" : "miss";
  if (element.chains == 0) return fmt::format("{} {}", skip, element.skipped);
  if (element.skipped == 0) return fmt::format("ch {}", element.chains);
  return fmt::format("ch {}, {} {}", element.chains, skip, element.skipped);
}

std::string CountedStitches(int count) {
  return fmt::format("{} {}", count, count == 1 ? "st" : "sts");
}

RowDifference::RowDifference(Runs text, Runs chart, const RowTerms& terms)
    : text_(Apart(text)), chart_(Apart(chart)), terms_(terms) {
  const size_t shorter = std::min(text_.size(), chart_.size());
  while (prefix_ < shorter && text_[prefix_] == chart_[prefix_]) ++prefix_;
  while (suffix_ < shorter - prefix_ &&
         text_[text_.size() - 1 - suffix_] == chart_[chart_.size() - 1 - suffix_]) {
    ++suffix_;
  }
}

StitchFault RowDifference::Exchanged() const {
  StitchFault fault;
  if (OnlyChains(&fault)) return fault;
  // Chains without a skip take no stitch and may follow the last one.
  fault.text_says = prefix_ < text_.size() ? Words(text_[prefix_], terms_) : "nothing";
  fault.chart_says = prefix_ < chart_.size() ? Words(chart_[prefix_], terms_) : "nothing";
  const std::vector<const WorkedRun*> text = ByStitch(text_);
  const std::vector<const WorkedRun*> chart = ByStitch(chart_);
  fault.first = WidthOf(Runs(chart_).first(prefix_)) + 1;
  fault.last = fault.first;
  for (size_t i = 0; i < std::min(text.size(), chart.size()); ++i) {
    if (*text[i] == *chart[i]) continue;
    ++fault.off_by;
    const int stitch = static_cast<int>(i) + 1;
    if (stitch == fault.last + 1) fault.last = stitch;
  }
  fault.off_by = std::max(1, fault.off_by);
  return fault;
}

void RowDifference::Place(StitchFault& fault) const {
  fault.first = WidthOf(Runs(chart_).first(prefix_)) + 1;
  fault.last = fault.first;
  const bool extra = prefix_ + suffix_ == chart_.size();
  const bool left_out = prefix_ + suffix_ == text_.size();
  if (extra == left_out) return;
  const std::vector<WorkedRun>& longer = extra ? text_ : chart_;
  const Runs block = Runs(longer).subspan(prefix_, longer.size() - prefix_ - suffix_);
  if (left_out) fault.last = fault.first + std::max(1, WidthOf(block)) - 1;
  const bool one_kind = std::all_of(block.begin(), block.end(),
                                    [&](const WorkedRun& run) { return run == block[0]; });
  if (one_kind || (extra && !StandsBeside(block))) return;
  fault.code = extra ? ComparisonCode::kDoubledGroup : ComparisonCode::kDroppedGroup;
  if (extra) {
    fault.text_says = GroupWords(block) + " once more";
    fault.chart_says = "once less";
  } else {
    fault.text_says = "nothing";
    fault.chart_says = GroupWords(block);
  }
}

// Spaces over the same stitches, but of other chains; all else agrees.
bool RowDifference::OnlyChains(StitchFault* fault) const {
  if (text_.size() != chart_.size()) return false;
  int position = 0;
  int more = 0;
  bool alike = true;
  for (size_t i = 0; i < text_.size(); ++i) {
    const WorkedRun& text = text_[i];
    const WorkedRun& chart = chart_[i];
    if (text.kind == Kind::kChainSpace && chart.kind == Kind::kChainSpace && text.chains > 0 &&
        text.skipped == chart.skipped) {
      const int here = text.chains - chart.chains;
      if (here != 0 && fault->first == 0) {
        fault->first = position + 1;
        fault->last = position + WidthOf(chart);
        fault->text_says = Words(text, terms_);
        fault->chart_says = Words(chart, terms_);
        fault->off_by = here;
      }
      alike = alike && here != 0 && (more == 0 || more == here);
      more = here;
    } else if (text != chart) {
      return false;
    }
    position += WidthOf(chart);
  }
  fault->code = ComparisonCode::kWrongChains;
  fault->chains_more = alike ? more : 0;
  return true;
}

bool RowDifference::StandsBeside(Runs block) const {
  const auto stands_at = [&](size_t at) {
    return at + block.size() <= text_.size() &&
           std::equal(block.begin(), block.end(), text_.begin() + static_cast<std::ptrdiff_t>(at));
  };
  return (prefix_ >= block.size() && stands_at(prefix_ - block.size())) ||
         stands_at(prefix_ + block.size());
}

std::string RowDifference::GroupWords(Runs elements) const {
  std::vector<WorkedRun> runs;
  for (const WorkedRun& element : elements) AppendRun(runs, element);
  std::string words;
  for (size_t i = 0; i < runs.size(); ++i) {
    if (i == kMostGroupRuns) return words + ", ...";
    if (i > 0) words += ", ";
    words += Words(runs[i], terms_);
    if (runs[i].count == 1) continue;
    words += runs[i].kind == Kind::kStitches ? fmt::format(" {}", runs[i].count)
                                             : fmt::format(" ({} times)", runs[i].count);
  }
  return words;
}

}  // namespace rowproof::rows
