#include "services/domain/chart/conversion/conversion.h"

#include <algorithm>
#include <bit>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/marks.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::chart {
namespace {

struct Place {
  int row = 0;
  int stitch = 0;
  auto operator<=>(const Place&) const = default;
};

void AddMarksOfRow(const MarkRow& marks, int row, std::vector<Place>& places) {
  for (size_t i = 0; i < marks.words; ++i) {
    for (uint64_t word = marks.word(i); word != 0; word &= word - 1) {
      places.push_back({row, static_cast<int>(i * 64) + std::countr_zero(word) + 1});
    }
  }
}

// One colour a chart row, bottom first.
std::vector<Colour> RowColours(const Design& design) {
  std::vector<Colour> colours;
  colours.reserve(static_cast<size_t>(design.cells.rows()));
  for (int row = 1; row <= design.cells.rows(); ++row) colours.push_back(RowColour(design, row));
  return colours;
}

Grid MarksMoved(const Design& design, int rows_up) {
  const Marks marks(design);
  Grid moved(design.cells.rows(), design.cells.stitches());
  for (int row = 1; row <= moved.rows(); ++row) {
    const int from = row - rows_up;
    if (from < 1 || from > moved.rows()) continue;
    const MarkRow source = marks.row(from);
    const auto target = moved.mutable_row(row);
    for (size_t i = 0; i < source.words; ++i) target[i] = source.word(i);
  }
  return moved;
}

// The drawn rows without regard to the bands: neighbours stay neighbours.
Design WithCells(const Design& design, Convention convention) {
  Design changed = design;
  changed.convention = convention;
  if (convention == Convention::kWorking) {
    changed.cells = MarksMoved(design, 1);
    changed.picture_colours.clear();
  } else if (HasMoreThanTwoColours(design)) {
    changed.cells = MarksMoved(design, -1);
    changed.picture_colours = PictureColours(design.cells, RowColours(design));
  } else {
    changed.cells = PictureFromDrops(design.cells, RowColours(design));
  }
  return changed;
}

// What a maker works: the places in the chart are left out.
bool WorkedAlike(const Design& one, const Design& other, const Stop& stop) {
  for (int size = 0; size < static_cast<int>(one.sizes.size()); ++size) {
    if (stop.Now()) return false;
    const ExpandedSize a = Expand(one, size);
    const ExpandedSize b = Expand(other, size);
    if (a.drops != b.drops || a.row_colours != b.row_colours) return false;
  }
  return true;
}

absl::Status NoBandSaysTheSame(const Design& design, Convention convention) {
  const std::string sentence = fmt::format(
      "Rows {} to {} repeat in the {} chart, but not in the {} chart: what the last of them shows "
      "depends on the row that follows, which is another after the last repeat. Convert the chart "
      "without a repeat.",
      design.row_band->first, design.row_band->last, Name(design.convention), Name(convention));
  return UnmetConditions(sentence, {{"CANNOT_BE_CONVERTED", "row_band", sentence}});
}

// Takes the marks at these places away (an off-colour cell becomes its row's colour, a drop a plain
// stitch) and gives the edits that say so, by row, then stitch. Places may repeat. Not all if the
// work has to stop.
void TakeMarksAway(const std::vector<Place>& places, const Stop& stop, Conversion& conversion) {
  Design& design = conversion.design;
  for (const Place& place : places) {
    if (stop.After(2)) return;
    Edit edit{place.row, place.stitch, false, std::nullopt};
    if (NamesColours(design)) {
      edit.colour = RowColour(design, place.row);
    } else {
      edit.value = !design.cells.at(place.row, place.stitch);
    }
    Apply(edit, design);
    ++conversion.edit_count;
    if (conversion.edits.size() < kMostEditsNamed) conversion.edits.push_back(edit);
  }
}

// The marks that the other convention cannot show: of a picture, off-colour cells of the last row
// (no row is left to cover them) and cells of a colour that neither their own row nor the row above
// has; of a working chart, drops in row 1 and drops over a row of their own colour.
std::vector<Place> MarksLostIn(const Design& design, Convention convention, const Stop& stop) {
  std::vector<Place> places;
  if (convention == design.convention) return places;
  const Marks marks(design);
  const int rows = design.cells.rows();
  for (int row = 1; row <= rows; ++row) {
    if (stop.After(design.cells.stitches())) return places;
    const bool of_picture = design.convention == Convention::kPicture;
    const int lower = of_picture ? row : row - 1;
    if (lower < 1 || lower == rows || RowColour(design, lower) == RowColour(design, lower + 1)) {
      AddMarksOfRow(marks.row(row), row, places);
    } else if (of_picture && NamesColours(design)) {
      std::vector<Place> marked;
      AddMarksOfRow(marks.row(row), row, marked);
      for (const Place& place : marked) {
        const size_t cell = PictureCell(design, place.row, place.stitch);
        if (design.picture_colours[cell] != RowColour(design, row + 1)) places.push_back(place);
      }
    }
  }
  return places;
}

// The same stitches in every size, in the other convention. A picture's repeated rows a to b become
// a working chart's rows a+1 to b+1, and back; if those are not rows of the chart or would not
// say the same, rows a to b stay if they do. The design must be valid and have no marks that are
// lost. FAILED_PRECONDITION, type CANNOT_BE_CONVERTED, subject row_band: no band of rows says the
// same.
absl::StatusOr<Design> InConvention(const Design& design, Convention convention, const Stop& stop) {
  if (convention == design.convention) return design;
  Design changed = WithCells(design, convention);
  if (!design.row_band.has_value()) return changed;
  const int step = convention == Convention::kWorking ? 1 : -1;
  for (const int rows : {step, 0}) {
    const Band moved{design.row_band->first + rows, design.row_band->last + rows};
    if (moved.first < 1 || moved.last > design.cells.rows()) continue;
    changed.row_band = moved;
    if (WorkedAlike(design, changed, stop)) return changed;
    RETURN_IF_ERROR(stop.status());
  }
  return NoBandSaysTheSame(design, convention);
}

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

absl::StatusOr<Conversion> Convert(const Design& design, const ConversionTarget& target,
                                   const Stop& stop) {
  Conversion conversion;
  Design& made = conversion.design;
  made = design;
  RETURN_IF_ERROR(SetTechnique(target, made));
  RETURN_IF_ERROR(SetEnds(target, made));
  const Convention convention = target.convention.value_or(design.convention);
  std::vector<Place> lost = MarksLostIn(made, convention, stop);
  if (made.technique != design.technique) {
    const std::vector<Place> edges = EdgeMarks(made);
    // Both ascend; there can be millions of the first.
    const auto middle = lost.insert(lost.end(), edges.begin(), edges.end());
    std::inplace_merge(lost.begin(), middle, lost.end());
  }
  lost.erase(std::unique(lost.begin(), lost.end()), lost.end());
  TakeMarksAway(lost, stop, conversion);
  RETURN_IF_ERROR(stop.status());
  ASSIGN_OR_RETURN(auto converted, InConvention(made, convention, stop));
  made = std::move(converted);
  conversion.facing_changed = FacingOf(made) != FacingOf(design);
  conversion.ends_changed = made.ends != design.ends;
  return conversion;
}

}  // namespace rowproof::chart
