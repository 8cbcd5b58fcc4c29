#include "services/domain/chart/repair/alternatives.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "services/domain/chart/check/design_findings.h"
#include "services/domain/chart/repair/kept_marks.h"
#include "services/domain/chart/repair/lock_clashes.h"
#include "services/domain/chart/repair/mark_limits.h"
#include "services/domain/chart/repair/symmetry.h"
#include "services/domain/chart/repair/tied_repair.h"
#include "services/domain/chart/repair/variables.h"
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
  if (design.convention == Convention::kPicture && !NamesColours(design) &&
      RowColour(changed, plain_row) == Colour::kB) {
    const auto words = changed.cells.mutable_row(plain_row);
    std::fill(words.begin(), words.end(), ~uint64_t{0});
    words.back() = changed.cells.last_word_mask();
  }
  if (NamesColours(design)) {
    auto& named = changed.picture_colours;
    const auto at = plain_row == 1 ? named.begin() : named.end();
    named.insert(at, static_cast<size_t>(design.cells.stitches()), RowColour(changed, plain_row));
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
      return design.convention == Convention::kPicture && !NamesColours(design);
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

RepairOptions WithAlternative(const RepairOptions& options, const Alternative& alternative) {
  RepairOptions changed = options;
  const bool below = alternative.kind == Kind::kPlainRowBelow;
  if (options.locked.empty() || (!below && alternative.kind != Kind::kPlainRowAbove)) {
    return changed;
  }
  changed.locked = Grid(options.locked.rows() + 1, options.locked.stitches());
  for (int row = 1; row <= options.locked.rows(); ++row) {
    const auto source = options.locked.row(row);
    std::copy(source.begin(), source.end(),
              changed.locked.mutable_row(below ? row + 1 : row).begin());
  }
  return changed;
}

namespace {

// Edits left and the least that is proved; none if the options cannot be kept to, or the work has
// to stop.
std::optional<std::pair<int64_t, int64_t>> EditsLeft(Design& design, const RepairOptions& options,
                                                     const Stop& stop) {
  if (options.any()) {
    if (!RequireRowSymmetry(design, options).ok()) return std::nullopt;
    const RepairVariables variables(design, options, stop);
    if (!stop.status().ok() || !RequireLocksHold(variables, stop).ok()) return std::nullopt;
    const MendedMarks mended = Mend(variables, stop);
    return std::pair{mended.edits, mended.least};
  }
  int64_t edits = 0;
  if (NamesColours(design)) {
    edits = TakeForeignAway(design, LimitsOf(design, StructureOf(design)), stop);
  }
  edits += MarkRemover(design).Count();
  return std::pair{edits, edits};
}

}  // namespace

std::vector<Alternative> AlternativesOf(const Design& design, const RepairOptions& options,
                                        const Stop& stop) {
  std::vector<Alternative> alternatives;
  for (const Alternative& candidate :
       {Alternative{Kind::kPlainRowBelow}, Alternative{Kind::kPlainRowAbove},
        Alternative{Kind::kColoursExchanged}, Alternative{Kind::kRepeatMoved, -1},
        Alternative{Kind::kRepeatMoved, 1}}) {
    if (!stop.status().ok()) break;
    if (!Applies(design, candidate)) continue;
    Design changed = WithAlternative(design, candidate);
    if (!Validate(changed).ok() || !UnmendableErrors(changed).empty()) continue;
    RepairOptions changed_options = WithAlternative(options, candidate);
    changed_options.most_steps /= 4;
    const auto left = EditsLeft(changed, changed_options, stop);
    if (!left.has_value()) continue;
    alternatives.push_back(
        {candidate.kind, candidate.rows_moved, left->first, left->first == left->second});
  }
  return alternatives;
}

}  // namespace rowproof::chart
