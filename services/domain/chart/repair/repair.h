// The nearest workable chart: the fewest changed cells, proved by an exact method.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_REPAIR_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_REPAIR_H_

#include <cstdint>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/chart/edit.h"
#include "services/domain/chart/repair/options.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

// What another way out would leave to change.
struct Alternative {
  enum class Kind : uint8_t { kPlainRowBelow, kPlainRowAbove, kColoursExchanged, kRepeatMoved };
  Kind kind = Kind::kPlainRowBelow;
  int rows_moved = 0;  // kRepeatMoved only: 1 up, -1 down
  int64_t edits_left = 0;
  bool optimal = true;  // fewer are proved not to do; can be false with a limit on runs only
  bool operator==(const Alternative&) const = default;
};

struct Repair {
  std::vector<Edit> edits;  // by row, then stitch; the first kMostEditsNamed
  int64_t edit_count = 0;
  // No repair changes fewer cells. Below `edit_count` only with a limit on runs, where `optimal` is
  // then false: it is the best that was found.
  int64_t lower_bound = 0;
  bool optimal = true;
  // Empty if nothing is to mend. Otherwise every kind that makes a valid design without errors
  // that no cell causes and that can be mended under the same options; colours exchanged for a
  // picture of two colours only (drops do not depend on colours).
  std::vector<Alternative> alternatives;
  Grid repaired;                        // the chart as given, with the edits made
  std::vector<Colour> picture_colours;  // likewise; empty if the design names none
};

// Mends every error that changing cells can mend, in every size (no-anchor, drop-over-drop,
// uncovered-top-row, edge-drop and edge-skip in overlay and inset, foreign-colour), and makes the
// chart keep to the options. The design must be valid. Nothing is changed unless this is called.
// Thread-safe.
//
// Exact without a limit on runs. All these rules forbid marks (off-colour cells, drops) or pairs of
// them one above the other, so a plain cell is always allowed.
//
// - Without options a nearest workable chart only removes marks, and columns are independent. A
//   cell of a repeated band is one variable, changed once. In a column without a seam that clashes,
//   the marks to keep are chosen from row 1 up, each one unless the mark below is kept: in a line
//   of k marks that removes floor(k/2), and no smaller number is enough. If the band's first and
//   last row clash, one of the two has to go; both choices are followed to the end and the cheaper
//   one is taken. Among equals the marks lower in the chart are kept: read upwards, at the first
//   row in which two repairs of a column differ, the one that keeps the mark is taken.
// - Cells that symmetries tie are one variable with their joint weight (options.h): a mark if that
//   changes fewer of its cells, plain if it does not, and then removed as the rules demand, at the
//   least weight (cover.h). Locked cells have one value.
// - With a limit on runs columns depend on each other. The repair is exact if its steps suffice,
//   as they always do for small and nearly workable charts; otherwise `lower_bound` is below
//   `edit_count` and bounds the distance to the best repair.
//
// A cell in a foreign colour gets its row's own colour, or that of a mark if its images need it.
// With options, the choice among equals is always the same.
//
// Errors:
//   FAILED_PRECONDITION  errors that no cell causes (ends, odd repeat, colour order): one condition
//                        for each code, type CELLS_CANNOT_MEND, subject the code; a symmetry that
//                        the row colours rule out (symmetry.h), type SYMMETRY_CANNOT_HOLD; locks
//                        that no repair can keep (lock_clashes.h), type LOCKS_CLASH
//   INVALID_ARGUMENT     locked: not of the chart's rows and stitches; longest_run, most_steps: out
//                        of range
//   the stop's status if the work has to stop
absl::StatusOr<Repair> FindRepair(const Design& design, const RepairOptions& options = {},
                                  const Stop& stop = {});

// The design with another way out taken. kPlainRowBelow: a row without marks becomes row 1, all
// else moves up by one; under the alternation the colours follow the new row numbers (a picture's
// cells keep the colours seen, a working chart's drops stay drops), in an explicit order all rows
// keep theirs and the new row gets the other colour than the row next to it (B next to A, else A).
// kPlainRowAbove: the same above the last row. Bands and locks move along; a new row has no lock.
// The chart must have a row to spare (kMostRows); kRepeatMoved must leave the band within the
// chart.
Design WithAlternative(const Design& design, const Alternative& alternative);
RepairOptions WithAlternative(const RepairOptions& options, const Alternative& alternative);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_REPAIR_H_
