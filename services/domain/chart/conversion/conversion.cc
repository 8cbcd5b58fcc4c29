#include "services/domain/chart/conversion/conversion.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/conversion/convention_change.h"
#include "services/domain/chart/marks.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::chart {
namespace {

// Two colours at most, and no two neighbouring rows of one colour, in any size.
bool AlternatesStrictly(const Design& design) {
  const int rows = design.cells.rows();
  if (design.row_colours.empty()) return true;
  std::set<Colour> met;
  for (int row = 1; row <= rows; ++row) {
    met.insert(RowColour(design, row));
    if (row > 1 && RowColour(design, row) == RowColour(design, row - 1)) return false;
  }
  const bool repeats = std::any_of(design.sizes.begin(), design.sizes.end(),
                                   [](const Size& size) { return size.row_repeats > 1; });
  return met.size() <= 2 && (!repeats || RowColour(design, design.row_band->first) !=
                                             RowColour(design, design.row_band->last));
}

// The cells do not matter to the ends, and are not copied.
bool EndsGoTogether(const Design& design, Ends ends, bool notes_allowed) {
  Design method;
  method.technique = design.technique;
  method.facing = design.facing;
  method.form = design.form;
  method.ends = ends;
  const EndsFit fit = FitOfEnds(method);
  if (fit.verdict == EndsFit::Verdict::kDoesNotFit) return false;
  if (fit.verdict == EndsFit::Verdict::kFitsWithNote && !notes_allowed) return false;
  return !NeedsAlternation(method) || AlternatesStrictly(design);
}

absl::Status CannotBe(const char* subject, const std::string& sentence) {
  return UnmetConditions(sentence, {{"CANNOT_BE_CONVERTED", subject, sentence}});
}

absl::Status SetTechnique(const ConversionTarget& target, Design& design) {
  if (!target.technique.has_value() && !target.facing.has_value()) return absl::OkStatus();
  const Facing facing = FacingOf(design);
  const bool had_choice = !FactsOf(design.technique).only_facing.has_value();
  if (target.technique.has_value()) design.technique = *target.technique;
  const TechniqueFacts& facts = FactsOf(design.technique);
  if (design.form == Form::kTube && !facts.can_be_tube) {
    return CannotBe(
        "form",
        fmt::format("A tube cannot be converted to {}, which is worked flat only.", facts.name));
  }
  if (!had_choice && !facts.only_facing.has_value()) design.facing = facing;
  if (target.facing.has_value()) design.facing = *target.facing;
  const Facing wanted = design.facing;
  SettleFacing(design);
  if (!target.facing.has_value() || design.facing == wanted) return absl::OkStatus();
  return InvalidField("facing", Name(wanted),
                      fmt::format("{} or unset: {} has no other facing in this form",
                                  Name(design.facing), facts.name));
}

absl::Status SetEnds(const ConversionTarget& target, Design& design) {
  if (!target.ends.has_value()) {
    // A chart that is only read in the other way keeps its ends, even wrong ones.
    if (!target.technique.has_value() && !target.facing.has_value()) return absl::OkStatus();
    if (!EndsGoTogether(design, design.ends, true)) design.ends = UsualEnds(design);
    return absl::OkStatus();
  }
  design.ends = *target.ends;
  if (const char* why = WhyEndsDoNotFit(design); why != nullptr) {
    return InvalidField("ends", Name(design.ends),
                        fmt::format("{}: {}", Name(UsualEnds(design)), why));
  }
  if (EndsGoTogether(design, design.ends, true)) return absl::OkStatus();
  return InvalidField("ends", Name(design.ends),
                      fmt::format("{}, because the rows do not alternate between two colours",
                                  Name(UsualEnds(design))));
}

// Drops if the technique allows none.
std::vector<Place> EdgeMarks(const Design& design) {
  std::vector<Place> places;
  if (design.form == Form::kTube || FactsOf(design.technique).edges != EdgeRule::kPlain) {
    return places;
  }
  const Marks marks(design);
  for (int row = 1; row <= design.cells.rows(); ++row) {
    for (const int stitch : {1, design.cells.stitches()}) {
      if (marks.row(row).at(stitch)) places.push_back({row, stitch});
    }
  }
  return places;
}

}  // namespace

Ends UsualEnds(const Design& design) {
  for (const bool notes_allowed : {false, true}) {
    for (const Ends ends : {Ends::kCut, Ends::kWaiting, Ends::kCarried}) {
      if (EndsGoTogether(design, ends, notes_allowed)) return ends;
    }
  }
  return design.ends;
}

void SettleFacing(Design& design) { design.facing = FacingOf(design); }

absl::StatusOr<Conversion> Convert(const Design& design, const ConversionTarget& target) {
  Conversion conversion;
  Design& made = conversion.design;
  made = design;
  RETURN_IF_ERROR(SetTechnique(target, made));
  RETURN_IF_ERROR(SetEnds(target, made));
  const Convention convention = target.convention.value_or(design.convention);
  std::vector<Place> lost = MarksLostIn(made, convention);
  if (made.technique != design.technique) {
    const std::vector<Place> edges = EdgeMarks(made);
    lost.insert(lost.end(), edges.begin(), edges.end());
  }
  conversion.edits = TakeMarksAway(made, std::move(lost));
  ASSIGN_OR_RETURN(auto converted, InConvention(made, convention));
  made = std::move(converted);
  conversion.facing_changed = FacingOf(made) != FacingOf(design);
  conversion.ends_changed = made.ends != design.ends;
  return conversion;
}

}  // namespace rowproof::chart
