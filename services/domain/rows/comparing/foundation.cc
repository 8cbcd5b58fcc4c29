#include "services/domain/rows/comparing/foundation.h"

#include <algorithm>

#include "fmt/format.h"

namespace rowproof::rows {
namespace {

class Foundation {
 public:
  Foundation(const TextDocument& document, ChartRows& chart, std::vector<RowFault>& faults)
      : document_(document), chart_(chart), faults_(faults) {
    for (size_t i = 0; i < document.rows.size() && into_ == 0; ++i) {
      const TextRow& row = document.rows[i];
      const bool holds = row.only_size == -1 || row.only_size == chart.size();
      const int number =
          row.numbers.empty() ? kNotWorked : row.numbers.front().first.Of(chart.size());
      const bool first = number != kNotWorked && chart.worked(number) <= 1;
      if (!holds || !first || row.body != TextRow::Body::kSteps) continue;
      into_ = row.first_chain;
      into_line_ = static_cast<int>(i);
    }
  }

  void Check() {
    const auto& stated = document_.foundation;
    CheckChains(stated.has_value() ? stated->chains.Of(chart_.size()) : 0);
    if (!stated.has_value()) return;
    if (stated->ring && !tube()) Add("a ring", "a flat chain");
    CheckColour(stated->colour);
  }

 private:
  const chart::Design& design() const { return chart_.design(); }
  bool tube() const { return design().form == chart::Form::kTube; }

  RowFault& Add(std::string text_says, std::string chart_says) {
    RowFault fault;
    fault.code = ComparisonCode::kWrongFoundation;
    fault.number = chart_.number(0);
    if (document_.foundation.has_value()) fault.at = document_.foundation->at;
    fault.text_says = std::move(text_says);
    fault.chart_says = std::move(chart_says);
    faults_.push_back(std::move(fault));
    return faults_.back();
  }

  void CheckChains(int chains) {
    const int usual = chart_.stitches() + (tube() ? 0 : 1);
    // The first row may go into another chain than the second, over as many chains more.
    const bool other_chain = !tube() && into_ > 0 && into_ != 2;
    const int right = other_chain ? chart_.stitches() + into_ - 1 : usual;
    if (other_chain && (chains == 0 || chains == usual)) return AddIntoChain(usual);
    if (tube() && into_ > 0) return AddIntoChain(usual);
    if (chains == 0 || chains == right) return;
    Add(fmt::format("ch {}", chains), fmt::format("ch {}", right)).off_by = chains - right;
  }

  // The chain fits the chart, and the first row does not fit the chain.
  void AddIntoChain(int chains) {
    RowFault& fault = Add(fmt::format("into chain {} from the hook", into_),
                          tube() ? "into each chain of the ring"
                                 : fmt::format("into chain 2 from the hook, of ch {}", chains));
    fault.code = ComparisonCode::kIntoChain;
    fault.off_by = tube() ? 0 : 2 - into_;
    fault.line = into_line_;
    fault.source = into_line_;
    fault.at = document_.rows[static_cast<size_t>(into_line_)].at;
    fault.worked = 1;
    fault.number = chart_.number(1);
  }

  void CheckColour(std::optional<chart::Colour> colour) {
    const chart::Colour right = design().foundation_colour.value_or(chart_.kind(1).colour);
    if (colour.value_or(right) == right) return;
    RowFault& fault = Add(fmt::format("colour {}", chart::Name(*colour)),
                          fmt::format("colour {}", chart::Name(right)));
    // Another colour than row 1 is unusual, but no drop goes into a chain.
    if (!design().foundation_colour.has_value()) fault.severity = chart::Severity::kWarning;
  }

  const TextDocument& document_;
  ChartRows& chart_;
  std::vector<RowFault>& faults_;
  // "in Nth ch from hook" of the first row, or of the row below it; 0: not given.
  int into_ = 0;
  int into_line_ = -1;
};

}  // namespace

void CheckFoundation(const TextDocument& document, ChartRows& chart,
                     std::vector<RowFault>& faults) {
  Foundation(document, chart, faults).Check();
}

bool IsFoundationRow(const TextDocument& document, ChartRows& chart, const PlacedRow& row,
                     StepsComparer& steps) {
  if (row.worked < 0) return false;
  const TextRow& text = document.rows[static_cast<size_t>(row.worked)];
  if (text.body != TextRow::Body::kSteps) return false;
  const std::optional<chart::Colour>& declared = chart.design().foundation_colour;
  const std::vector<WorkedRun> runs = steps.TextRuns(row.worked, 1);
  if (!declared.has_value()) {
    return std::all_of(runs.begin(), runs.end(), [](const WorkedRun& run) {
      return run.kind == WorkedRun::Kind::kChainSpace && run.skipped == 0;
    });
  }
  const bool plain = runs.size() == 1 && runs.front().stitch == TextStitch::kPlain &&
                     runs.front().count == chart.stitches();
  return plain && row.colour.value_or(*declared) == *declared;
}

}  // namespace rowproof::rows
