#include "services/domain/chart/alternatives.h"

#include <algorithm>

#include "services/domain/chart/design_findings.h"
#include "services/domain/chart/kept_marks.h"
#include "services/domain/chart/row_order.h"

namespace rowproof::chart {
namespace {

using Kind = Alternative::Kind;

Colour OtherThan(Colour colour) { return colour == Colour::kA ? Colour::kB : Colour::kA; }

void ShiftBand(std::optional<Band>& band, int rows) {
  if (!band.has_value()) return;
  band->first += rows;
  band->last += rows;
}

// `plain_row` (1 or the last) is new; the chart's rows keep their order around it.
Design WithPlainRow(const Design& design, int plain_row) {
  const int rows = design.cells.rows();
  const int moved = plain_row == 1 ? 1 : 0;
  Design changed = design;
  changed.cells = Grid(rows + 1, design.cells.stitches());
  if (!design.row_colours.empty()) {
    auto& colours = changed.row_colours;
    if (plain_row == 1) {
      colours.insert(colours.begin(), OtherThan(colours.front()));
    } else {
      colours.push_back(OtherThan(colours.back()));
    }
  }
  for (int row = 1; row <= rows; ++row) {
    const auto source = design.cells.row(row);
    std::copy(source.begin(), source.end(), changed.cells.mutable_row(row + moved).begin());
  }
  if (design.convention == Convention::kPicture && RowColour(changed, plain_row) == Colour::kB) {
    const auto words = changed.cells.mutable_row(plain_row);
    std::fill(words.begin(), words.end(), ~uint64_t{0});
    words.back() = changed.cells.last_word_mask();
  }
  ShiftBand(changed.row_band, moved);
  return changed;
}

Design WithColoursExchanged(const Design& design) {
  Design changed = design;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const auto words = changed.cells.mutable_row(row);
    for (uint64_t& word : words) word = ~word;
    words.back() &= changed.cells.last_word_mask();
  }
  return changed;
}

bool Applies(const Design& design, const Alternative& alternative) {
  switch (alternative.kind) {
    case Kind::kPlainRowBelow:
    case Kind::kPlainRowAbove:
      return design.cells.rows() < kMostRows;
    case Kind::kColoursExchanged:
      return design.convention == Convention::kPicture;
    case Kind::kRepeatMoved:
      return design.row_band.has_value() && design.row_band->first + alternative.rows_moved >= 1 &&
             design.row_band->last + alternative.rows_moved <= design.cells.rows();
  }
  return false;
}

}  // namespace

Design WithAlternative(const Design& design, const Alternative& alternative) {
  ROWPROOF_CHECK(Applies(design, alternative));
  switch (alternative.kind) {
    case Kind::kPlainRowBelow:
      return WithPlainRow(design, 1);
    case Kind::kPlainRowAbove:
      return WithPlainRow(design, design.cells.rows() + 1);
    case Kind::kColoursExchanged:
      return WithColoursExchanged(design);
    case Kind::kRepeatMoved: {
      Design changed = design;
      ShiftBand(changed.row_band, alternative.rows_moved);
      return changed;
    }
  }
  return design;
}

std::vector<Finding> UnmendableErrors(const Design& design) {
  std::vector<Finding> errors = FindingsOfDesign(design, StructureOf(design));
  std::erase_if(errors,
                [](const Finding& finding) { return finding.severity != Severity::kError; });
  return errors;
}

std::vector<Alternative> AlternativesOf(const Design& design) {
  std::vector<Alternative> alternatives;
  for (const Alternative candidate :
       {Alternative{Kind::kPlainRowBelow, 0, 0}, Alternative{Kind::kPlainRowAbove, 0, 0},
        Alternative{Kind::kColoursExchanged, 0, 0}, Alternative{Kind::kRepeatMoved, -1, 0},
        Alternative{Kind::kRepeatMoved, 1, 0}}) {
    if (!Applies(design, candidate)) continue;
    const Design changed = WithAlternative(design, candidate);
    if (!Validate(changed).ok() || !UnmendableErrors(changed).empty()) continue;
    alternatives.push_back({candidate.kind, candidate.rows_moved, MarkRemover(changed).Count()});
  }
  return alternatives;
}

}  // namespace rowproof::chart
