#include "services/domain/rows/comparing/labels.h"

#include "fmt/format.h"

namespace rowproof::rows {
namespace {

using What = StatedCount::What;

class Labels {
 public:
  Labels(const ComparedText& text, const PlacedRow& row, int worked, std::vector<RowFault>& faults)
      : text_(text),
        row_(row),
        worked_(worked),
        faults_(faults),
        line_(text.document.rows[static_cast<size_t>(row.line)]),
        repeats_(row.line != row.worked) {}

  void Compare() {
    CompareSide();
    CompareColour();
    CompareCounts();
    CompareFirstChain();
    CompareTurn();
  }

 private:
  ChartRows& chart() const { return text_.chart; }

  RowFault& Add(ComparisonCode code, std::string text_says, std::string chart_says) {
    RowFault fault;
    fault.code = code;
    fault.worked = worked_;
    fault.number = chart().number(worked_);
    fault.line = row_.line;
    fault.source = row_.worked;
    fault.at = line_.at;
    fault.text_says = std::move(text_says);
    fault.chart_says = std::move(chart_says);
    faults_.push_back(std::move(fault));
    return faults_.back();
  }

  void CompareSide() {
    const chart::Side side = chart().kind(worked_).side;
    if (row_.side.value_or(side) == side) return;
    Add(ComparisonCode::kWrongSide, chart::Name(*row_.side), chart::Name(side));
  }

  void CompareColour() {
    const chart::Colour colour = chart().kind(worked_).colour;
    if (row_.colour.value_or(colour) == colour) return;
    Add(ComparisonCode::kWrongColour, fmt::format("colour {}", chart::Name(*row_.colour)),
        fmt::format("colour {}", chart::Name(colour)));
  }

  // A line that repeats rows may state a count; the rows' own counts are checked where they are
  // written.
  void CompareCounts() {
    if (line_.stated.empty()) {
      if (!repeats_) {
        Add(ComparisonCode::kNoStatedCount, "no count", "").severity = chart::Severity::kNote;
      }
      return;
    }
    for (const StatedCount& stated : line_.stated) CompareCount(stated);
  }

  void CompareCount(const StatedCount& stated) {
    const ComparedSteps& compared = text_.steps.Compare(row_.worked, worked_);
    int right = compared.chart.stitches;
    int worked_out = compared.text.stitches;
    std::string what = "st";
    if (stated.what == What::kChainSpaces) {
      right = compared.chart.chain_spaces;
      worked_out = compared.text.chain_spaces;
      what = "ch-sp";
    } else if (stated.what == What::kOneKind) {
      right = text_.steps.ChartCount(worked_, stated.stitch);
      worked_out = text_.steps.TextCount(row_.worked, worked_, stated.stitch);
      what = AbbreviationOf(stated.stitch, text_.terms.terms);
    }
    const int count = stated.count.Of(chart().size());
    if (count == right) return;
    // Of a row that differs anyway the count may be right for what the text has.
    if (compared.fault.has_value() && count == worked_out) return;
    const auto counted = [&](int n) {
      const bool plural = n != 1 && stated.what != What::kOneKind;
      return fmt::format("{} {}{}", n, what, plural ? "s" : "");
    };
    RowFault& fault = Add(ComparisonCode::kWrongStatedCount, counted(count), counted(right));
    fault.off_by = count - right;
    fault.at = stated.at;
  }

  void CompareFirstChain() {
    if (repeats_ || line_.first_chain == 0) return;
    const chart::Design& design = chart().design();
    const bool into_chain =
        worked_ == 1 && design.form == chart::Form::kFlat && !design.foundation_colour.has_value();
    if (into_chain) return;  // comparison_foundation.h
    Add(ComparisonCode::kIntoChain, "stitches into the foundation chain",
        "stitches into the row below");
  }

  // "ch 1, turn" may be at a row's start or at its end: either turn may be meant.
  void CompareTurn() {
    const bool turn = line_.has(RowMark::kTurn);
    const bool no_turn = line_.has(RowMark::kNoTurn);
    if (repeats_ || turn == no_turn) return;
    bool any = false;
    for (const int later : {worked_, worked_ + 1}) {
      if (later < 2 || later > chart().count()) {
        any = true;
        continue;
      }
      any |= (chart().kind(later).side != chart().kind(later - 1).side) == turn;
    }
    if (any) return;
    Add(ComparisonCode::kTurnDoesNotFit, turn ? "turn" : "do not turn",
        turn ? "the same side in the rows before and after" : "the other side in the rows beside")
        .severity = chart::Severity::kWarning;
  }

  const ComparedText& text_;
  const PlacedRow& row_;
  int worked_;
  std::vector<RowFault>& faults_;
  const TextRow& line_;
  bool repeats_;  // the line works the steps of another
};

}  // namespace

void CompareLabels(const ComparedText& text, const PlacedRow& row, int worked,
                   std::vector<RowFault>& faults) {
  Labels(text, row, worked, faults).Compare();
}

}  // namespace rowproof::rows
