// The findings of the workability rules about a chart.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FINDINGS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FINDINGS_H_

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/edit.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

// Raised whenever the same design could get other findings; stored with them.
inline constexpr int kRulesVersion = 2;
inline constexpr int kMostFindings = 1000;

enum class Severity : uint8_t { kNote, kWarning, kError };

// Numbers are stored; never change them.
enum class FindingCode : uint8_t {
  kNoAnchor,
  kDropOverDrop,
  kUncoveredTopRow,
  kForeignAnchor,
  kPointlessDrop,
  kEdgeDrop,
  kLooseStrand,
  kColourOrder,
  kOddRowRepeat,
  kFacingRepeat,
  kEndsDoNotFit,
  kForeignColour,
  kEdgeSkip,
  kLongSkip,
  kLooseFlap,
  kTooManyColours,
  kEndsCouldWait,
  // Another reading of the chart is certain; see other_reading.h.
  kOtherConvention,
  kMarksOfOtherConvention,
  kColoursSwapped,
};
inline constexpr size_t kFindingCodes = 20;

// Where two repetitions of a band of rows or stitches meet, or a round of a tube meets itself;
// kNone inside the chart as drawn. Numbers are stored; never change them.
enum class Seam : uint8_t { kNone, kRowRepeat, kStitchRepeat, kJoin };

// One fault. The same code at the same place in several sizes or repetitions is one finding.
struct Finding {
  FindingCode code = FindingCode::kNoAnchor;
  Severity severity = Severity::kError;
  // Place in the chart as given, from 1: in a picture the off-colour cell, in a working chart the
  // drop; of two that clash, the upper one. Stitch 0: the whole row (kColourOrder, the upper of the
  // two rows; kTooManyColours, the first row of a third colour) or the row band, by its first row
  // (kOddRowRepeat, kFacingRepeat). Row 0: the whole chart. `last_stitch` is `stitch` but for runs,
  // and lies before it where a run crosses a seam.
  int row = 0;
  int stitch = 0;
  int last_stitch = 0;
  // Named if the rows or stitches concerned are neighbours only there.
  Seam seam = Seam::kNone;
  // Index of the first size in which it occurs, and in how many sizes it does.
  int size = 0;
  int size_count = 1;
  // A change of one of the finding's own cells after which no finding of this code is left at any
  // of its stitches in this row, in any size; none if no such change exists. Other findings may
  // stay or come: the nearest workable chart is what FindRepair (repair.h) returns.
  std::optional<Edit> edit = std::nullopt;

  bool operator==(const Finding&) const = default;
};

struct CheckResult {
  // Errors first, then by row, stitch and code; kMostFindings at most.
  std::vector<Finding> findings;
  int64_t error_count = 0;  // true totals
  int64_t warning_count = 0;
  int64_t note_count = 0;
  // True totals by FindingCode (a design has a code in one severity only).
  std::array<int64_t, kFindingCodes> code_counts{};
  int64_t count(FindingCode code) const { return code_counts[static_cast<size_t>(code)]; }
  bool workable() const { return error_count == 0; }
  bool operator==(const CheckResult&) const = default;
};

// Longest runs that are still held well; none negative.
struct CheckSettings {
  // loose-strand: drops that hold a carried strand (project's setting).
  int longest_carried_run = 5;
  // long-skip: a skipped run that does not gape (project's setting; no published limit).
  int longest_skip = 3;
  // loose-flap: drops without a loose flap behind them (assumption).
  int longest_flap = 8;
};

// All workability rules, for every technique, facing, treatment of ends and form, across the seams
// and in every size; exact. The design must be valid. Time O(cells / 64), whatever the repeats;
// memory besides the result O(rows) and, if another reading is examined, one bit per cell.
// Thread-safe.
//
// - A picture's off-colour cell in row r counts as the drop of row r+1 that covers it, also in the
//   last row, where `uncovered-top-row` applies too; the rules about edges and long runs are about
//   what is worked and do not apply there.
// - `no-anchor`: a drop in row 2 has an anchor if Design.foundation_colour is that row's colour.
// - `pointless-drop` is not applied to a drop without an anchor row (`no-anchor` is).
// - `edge-drop` names the cells that make an edge column uneven (edges.h): a lone drop, or the one
// cell
//   missing in a column of drops.
// - Runs: the first and last stitch of a tube are neighbours.
// - `colour-order` is a warning in a chart of two colours at most, and an error if the
//   colours have to alternate; `too-many-colours` then names the first row of a third colour.
// - A picture cell that names a colour which neither its own row nor the row above it has, in some
//   size, is `foreign-colour`.
// - If `odd-row-repeat` applies, the other rules look at the band worked once: the colours
//   change places from one repetition to the next, and every further finding would only repeat
//   that.
// - `facing-repeat` also names an explicit colour order's band that leaves RS and WS changed.
// - If the work has to stop, which the caller asks the stop, what is returned is no result.
CheckResult Check(const Design& design, const CheckSettings& settings = {}, const Stop& stop = {});

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FINDINGS_H_
