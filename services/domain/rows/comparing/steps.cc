#include "services/domain/rows/comparing/steps.h"

#include <algorithm>

#include "services/domain/rows/comparing/row.h"

namespace rowproof::rows {
namespace {

using Kind = WorkedRun::Kind;

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
