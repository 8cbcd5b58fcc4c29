#include "services/domain/rows/comparing/steps.h"

#include <algorithm>
#include <cstdlib>

#include "fmt/format.h"
#include "services/domain/rows/comparing/difference.h"
#include "services/domain/rows/text_expansion.h"

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

// The text's runs as the chart has them: of kPlain, kDrop and chain spaces. Stitches that are
// neither plain nor the technique's drop stay what they are.
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

// `steps` are the row's, `expanded` their stitches over the row below as the chart has it, `chart`
// the chart's runs of the row, `stitches` those of its every row.
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

// Not the content of any row.
constexpr int kNoMatter = -2;

RowCounts CountsOf(std::span<const WorkedRun> runs) {
  RowCounts counts;
  for (const WorkedRun& run : runs) {
    if (run.kind == Kind::kStitches) {
      counts.stitches += run.count;
    } else if (run.chains > 0) {
      counts.chain_spaces += run.count;
    }
  }
  return counts;
}

int CountOf(std::span<const WorkedRun> runs, TextStitch stitch) {
  int count = 0;
  for (const WorkedRun& run : runs) {
    if (run.kind == Kind::kStitches && run.stitch == stitch) count += run.count;
  }
  return count;
}

TextStitch AsChart(TextStitch stitch, chart::Technique technique) {
  const std::vector<WorkedRun> one = {{Kind::kStitches, stitch, 1, 0, 0}};
  return PlainAndDrop(one, technique).front().stitch;
}

}  // namespace

StepsComparer::StepsComparer(const TextDocument& document, ChartRows& chart, const RowTerms& terms,
                             ComparisonWork& work)
    : document_(document), chart_(chart), terms_(terms), work_(work) {
  facts_.resize(document.rows.size());
}

const StepsComparer::LineFacts& StepsComparer::FactsOf(int line) {
  std::optional<LineFacts>& facts = facts_[static_cast<size_t>(line)];
  if (facts.has_value()) return *facts;
  facts.emplace();
  const auto add = [&](const auto& self, const std::vector<TextStep>& steps) -> void {
    facts->steps += static_cast<int64_t>(steps.size());
    for (const TextStep& step : steps) {
      facts->copies_chains |= step.kind == TextStep::Kind::kFollow && !step.inside.empty() &&
                              step.inside[0].count.Largest() == 0;
      facts->needs_below |=
          step.kind == TextStep::Kind::kFollow || step.kind == TextStep::Kind::kSkipSpace;
      self(self, step.inside);
    }
  };
  add(add, document_.rows[static_cast<size_t>(line)].steps);
  return *facts;
}

ExpandedText StepsComparer::Expand(int line, int worked) {
  const LineFacts& facts = FactsOf(line);
  work_.Take(facts.steps + chart_.stitches());
  const std::vector<WorkedRun> below =
      facts.needs_below ? chart_.below(worked) : std::vector<WorkedRun>();
  const std::vector<TextStep>& steps = document_.rows[static_cast<size_t>(line)].steps;
  return ExpandSteps(steps, chart_.size(), {chart_.stitches(), below});
}

const ComparedSteps& StepsComparer::Compare(int line, int worked) {
  const bool below = FactsOf(line).needs_below;
  const auto [found, added] = compared_.try_emplace(
      std::make_tuple(line, chart_.content(worked), below ? chart_.content(worked - 1) : kNoMatter,
                      below && chart_.turned(worked)));
  ComparedSteps& compared = found->second;
  if (!added || work_.ran_out()) return compared;
  const ExpandedText expanded = Expand(line, worked);
  const std::vector<WorkedRun> chart = chart_.runs(worked);
  const std::vector<TextStep>& steps = document_.rows[static_cast<size_t>(line)].steps;
  compared.fault =
      CompareStitches(steps, chart_.size(), expanded, chart, chart_.stitches(), terms_);
  compared.text = {expanded.stitches, expanded.chain_spaces};
  compared.chart = CountsOf(chart);
  return compared;
}

std::vector<WorkedRun> StepsComparer::TextRuns(int line, int worked) {
  return PlainAndDrop(Expand(line, worked).runs, terms_.technique);
}

int StepsComparer::TextCount(int line, int worked, TextStitch stitch) {
  return CountOf(TextRuns(line, worked), AsChart(stitch, terms_.technique));
}

int StepsComparer::ChartCount(int worked, TextStitch stitch) {
  return CountOf(chart_.runs(worked), AsChart(stitch, terms_.technique));
}

}  // namespace rowproof::rows
