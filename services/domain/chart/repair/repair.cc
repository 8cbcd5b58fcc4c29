#include "services/domain/chart/repair/repair.h"

#include <algorithm>
#include <bit>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/check/design_findings.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/chart/repair/alternatives.h"
#include "services/domain/chart/repair/kept_marks.h"
#include "services/domain/chart/repair/lock_clashes.h"
#include "services/domain/chart/repair/mark_limits.h"
#include "services/domain/chart/repair/symmetry.h"
#include "services/domain/chart/repair/tied_repair.h"
#include "services/domain/chart/repair/variables.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::chart {
namespace {

// One condition for each code, by its first finding.
absl::Status RequireMendable(const Design& design) {
  std::vector<UnmetCondition> conditions;
  for (const Finding& finding : UnmendableErrors(design)) {
    const char* code = CodeName(finding.code);
    const bool named = std::any_of(conditions.begin(), conditions.end(),
                                   [code](const auto& known) { return known.subject == code; });
    if (!named) conditions.push_back({"CELLS_CANNOT_MEND", code, Sentence(finding, design)});
  }
  if (conditions.empty()) return absl::OkStatus();
  std::string sentence =
      fmt::format("No change of cells can repair this chart: {}", conditions.front().description);
  return UnmetConditions(sentence, std::move(conditions));
}

absl::Status ValidateOptions(const Design& design, const RepairOptions& options) {
  const Grid& cells = design.cells;
  const Grid& locked = options.locked;
  if (!locked.empty() && (locked.rows() != cells.rows() || locked.stitches() != cells.stitches())) {
    return InvalidField(
        "locked_areas", fmt::format("{} x {}", locked.rows(), locked.stitches()),
        fmt::format("{} x {} cells like the chart, or unset", cells.rows(), cells.stitches()));
  }
  if (options.longest_run < 0 || options.longest_run > kMostStitches) {
    return InvalidField("longest_run", std::to_string(options.longest_run),
                        fmt::format("a whole number from 1 to {}, or 0 for none", kMostStitches));
  }
  if (options.most_steps < 0 || options.most_steps > kMostRepairSteps) {
    return InvalidField("most_steps", std::to_string(options.most_steps),
                        fmt::format("a whole number from 0 to {}", kMostRepairSteps));
  }
  return absl::OkStatus();
}

// Of 64 cells of which each may be an edit, in units of Stop.
constexpr size_t kWordWork = 64;

// A chart without foreign colours and without options: each removed mark is an edit.
void TakeMarks(const Design& design, const Stop& stop, Repair& repair) {
  const MarkRemover remover(design);
  repair.edit_count = remover.Count();
  if (repair.edit_count == 0) return;
  repair.edits.reserve(std::min(static_cast<size_t>(repair.edit_count), kMostEditsNamed));
  remover.Visit([&repair, &stop](int row, std::span<const uint64_t> removed) {
    if (stop.After(kWordWork * removed.size())) return;
    const auto cells = repair.repaired.mutable_row(row);
    for (size_t i = 0; i < cells.size(); ++i) {
      cells[i] ^= removed[i];
      for (uint64_t word = removed[i]; word != 0 && repair.edits.size() < kMostEditsNamed;
           word &= word - 1) {
        const int bit = std::countr_zero(word);
        repair.edits.push_back(
            {row, static_cast<int>(i * 64) + bit + 1, (cells[i] >> bit & 1) != 0});
      }
    }
  });
}

// Makes the cell of `repair` what it shows with or without a mark; an edit if that is new.
void SetCell(const Design& design, const MarkLimits& limits, int row, int stitch, bool mark,
             Repair& repair) {
  const Colour own = RowColour(design, row);
  Edit edit{row, stitch, mark, std::nullopt};
  if (NamesColours(design)) {
    edit.colour = mark ? limits.MarkColour(row) : own;
    Colour& named = repair.picture_colours[PictureCell(design, row, stitch)];
    if (std::exchange(named, *edit.colour) == *edit.colour) return;
  } else {
    edit.value = mark != (design.convention == Convention::kPicture && own == Colour::kB);
    if (design.cells.at(row, stitch) == edit.value) return;
  }
  repair.repaired.set(row, stitch, edit.value);
  ++repair.edit_count;
  if (repair.edits.size() < kMostEditsNamed) repair.edits.push_back(edit);
}

template <typename IsMark>
void SetCells(const Design& design, const MarkLimits& limits, IsMark is_mark, const Stop& stop,
              Repair& repair) {
  for (int row = 1; row <= design.cells.rows(); ++row) {
    if (stop.After(2 * design.cells.stitches())) return;
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      SetCell(design, limits, row, stitch, is_mark(row, stitch), repair);
    }
  }
}

// Foreign colours are removed first in any case: a plain cell does not restrict others.
void TakeForeignAndMarks(const Design& design, const Stop& stop, Repair& repair) {
  const MarkLimits limits = LimitsOf(design, StructureOf(design));
  Design known = design;
  TakeForeignAway(known, limits, stop);
  const MarkRemover remover(known);
  Grid& stay = known.cells;
  remover.Visit([&](int row, std::span<const uint64_t> removed) {
    for (size_t i = 0; i < removed.size(); ++i) stay.mutable_row(row)[i] &= ~removed[i];
  });
  SetCells(
      design, limits, [&stay](int row, int stitch) { return stay.at(row, stitch); }, stop, repair);
}

absl::Status MendWithOptions(const Design& design, const RepairOptions& options, const Stop& stop,
                             Repair& repair) {
  const RepairVariables variables(design, options, stop);
  RETURN_IF_ERROR(stop.status());
  RETURN_IF_ERROR(RequireLocksHold(variables, stop));
  const MendedMarks mended = Mend(variables, stop);
  RETURN_IF_ERROR(stop.status());
  SetCells(
      design, variables.limits(),
      [&mended](int row, int stitch) { return mended.marks.at(row, stitch); }, stop, repair);
  RETURN_IF_ERROR(stop.status());
  ROWPROOF_CHECK(repair.edit_count == mended.edits && mended.least <= mended.edits);
  repair.lower_bound = mended.least;
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<Repair> FindRepair(const Design& design, const RepairOptions& options,
                                  const Stop& stop) {
  RETURN_IF_ERROR(ValidateOptions(design, options));
  RETURN_IF_ERROR(RequireMendable(design));
  RETURN_IF_ERROR(RequireRowSymmetry(design, options));
  Repair repair;
  repair.repaired = design.cells;
  repair.picture_colours = design.picture_colours;
  if (options.any()) {
    RETURN_IF_ERROR(MendWithOptions(design, options, stop, repair));
  } else {
    NamesColours(design) ? TakeForeignAndMarks(design, stop, repair)
                         : TakeMarks(design, stop, repair);
    RETURN_IF_ERROR(stop.status());
    repair.lower_bound = repair.edit_count;
  }
  repair.optimal = repair.lower_bound == repair.edit_count;
  if (repair.edit_count > 0) repair.alternatives = AlternativesOf(design, options, stop);
  RETURN_IF_ERROR(stop.status());
  return repair;
}

}  // namespace rowproof::chart
