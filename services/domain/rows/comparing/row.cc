#include "services/domain/rows/comparing/row.h"

#include <algorithm>
#include <cstdlib>

#include "fmt/format.h"

namespace rowproof::rows {
namespace {

using Runs = std::span<const WorkedRun>;
using Kind = WorkedRun::Kind;

bool Equal(Runs a, Runs b) { return std::equal(a.begin(), a.end(), b.begin(), b.end()); }

// The stitch that the same word means in the other system of terms (Craft Yarn Council, US and UK).
TextStitch InOtherTerms(TextStitch stitch, chart::Terms terms) {
  const bool us = terms == chart::Terms::kUs;
  switch (stitch) {
    case TextStitch::kSingleCrochet:
      return us ? stitch : TextStitch::kDouble;  // written dc in UK terms; sc is a US word alone
    case TextStitch::kDouble:
      return us ? TextStitch::kSingleCrochet : TextStitch::kTreble;
    case TextStitch::kTreble:
      return us ? TextStitch::kDouble : TextStitch::kDoubleTreble;
    default:
      return stitch;
  }
}

bool AgreesInOtherTerms(Runs text, Runs chart, const RowTerms& terms) {
  bool changed = false;
  std::vector<WorkedRun> other;
  for (WorkedRun run : text) {
    if (run.kind == Kind::kStitches) {
      const TextStitch stitch = InOtherTerms(run.stitch, terms.terms);
      changed |= stitch != run.stitch;
      run.stitch = stitch;
    }
    other.push_back(run);
  }
  return changed && Equal(PlainAndDrop(other, terms.technique), chart);
}

bool RepeatsToTheEnd(std::span<const TextStep> steps) {
  return std::any_of(steps.begin(), steps.end(), [](const TextStep& step) {
    return step.kind == TextStep::Kind::kUntil && step.inside.size() > 1;
  });
}

// How many times too many (below 0: too few) a group would have to be worked to be off by so many
// stitches; 0: none of the groups explains it.
int TimesTooMany(std::span<const TextStep> steps, int size, int stitches, int off_by) {
  for (const TextStep& step : steps) {
    if (step.kind != TextStep::Kind::kGroup) continue;
    const int unit = ExpandSteps(step.inside, size, {stitches, {}}).taken;
    if (unit > 1 && off_by % unit == 0) return off_by / unit;
  }
  return 0;
}

StitchFault MisfitOf(const ExpandedText& expanded, int stitches) {
  StitchFault fault;
  fault.at = expanded.at;
  fault.chart_says = CountedStitches(stitches);
  if (expanded.fit == ExpandedText::Fit::kTooMuch) {
    fault.code = ComparisonCode::kWrongCount;
    fault.text_says = fmt::format("more than {} sts", chart::kMostStitches);
    fault.off_by = chart::kMostStitches - stitches + 1;
    return fault;
  }
  const bool over = expanded.fit == ExpandedText::Fit::kLeavesOver;
  fault.code = over ? ComparisonCode::kLeavesOver : ComparisonCode::kRunsShort;
  fault.off_by = over ? -expanded.off_by : expanded.off_by;
  const std::string many = CountedStitches(expanded.off_by);
  fault.text_says = over ? fmt::format("a repeat that leaves {} unworked", many)
                         : fmt::format("a repeat that needs {} more", many);
  return fault;
}

StitchFault CountFaultOf(std::span<const TextStep> steps, int size, const ExpandedText& expanded,
                         Runs text, Runs chart, int stitches, const RowTerms& terms) {
  StitchFault fault;
  fault.off_by = expanded.taken - stitches;
  fault.text_says = CountedStitches(expanded.taken);
  fault.chart_says = CountedStitches(stitches);
  fault.code = ComparisonCode::kWrongCount;
  RowDifference(text, chart, terms).Place(fault);
  // One group more or less says it best; else how a repeat of several meets the row's end.
  const bool one_group = fault.code != ComparisonCode::kWrongCount;
  const int times = TimesTooMany(steps, size, stitches, fault.off_by);
  if (one_group && std::abs(times) <= 1) return fault;
  if (times != 0 || RepeatsToTheEnd(steps)) {
    fault.code = fault.off_by < 0 ? ComparisonCode::kLeavesOver : ComparisonCode::kRunsShort;
    fault.text_says = CountedStitches(expanded.taken);
    fault.chart_says = CountedStitches(stitches);
  }
  return fault;
}

}  // namespace

std::vector<WorkedRun> PlainAndDrop(Runs runs, chart::Technique technique) {
  std::vector<WorkedRun> read;
  for (WorkedRun run : runs) {
    if (run.kind == Kind::kStitches) {
      if (IsPlainStitch(run.stitch)) run.stitch = TextStitch::kPlain;
      if (IsDropStitch(run.stitch, technique)) run.stitch = TextStitch::kDrop;
    }
    AppendRun(read, run);
  }
  return read;
}

std::optional<StitchFault> CompareStitches(std::span<const TextStep> steps, int size,
                                           const ExpandedText& expanded, Runs chart, int stitches,
                                           const RowTerms& terms) {
  if (expanded.fit != ExpandedText::Fit::kFits) return MisfitOf(expanded, stitches);
  const std::vector<WorkedRun> text = PlainAndDrop(expanded.runs, terms.technique);
  if (Equal(text, chart)) return std::nullopt;
  if (expanded.taken != stitches) {
    return CountFaultOf(steps, size, expanded, text, chart, stitches, terms);
  }
  StitchFault fault = RowDifference(text, chart, terms).Exchanged();
  if (AgreesInOtherTerms(expanded.runs, chart, terms)) {
    fault.code = ComparisonCode::kMixedTerms;
  } else if (Equal(Reversed(text), chart)) {
    fault.code = ComparisonCode::kWrongEdge;
  }
  return fault;
}

}  // namespace rowproof::rows
