// What the workability rules say about a chart.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_FINDINGS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_FINDINGS_H_

#include <cstdint>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

// Raised whenever the same design could get other findings; stored beside them.
inline constexpr int kRulesVersion = 1;
inline constexpr int kMostFindings = 1000;

enum class Severity : uint8_t { kNote, kWarning, kError };

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
};

// Where two bands of rows or stitches meet; kNone inside the chart as drawn.
enum class Seam : uint8_t { kNone, kRowRepeat, kStitchRepeat };

// One fault. The same code at the same place in several sizes or repetitions is one finding.
struct Finding {
  FindingCode code = FindingCode::kNoAnchor;
  Severity severity = Severity::kError;
  // Place in the chart as given, from 1: in a picture the off-colour cell, in a working chart the
  // drop; of two that clash, the upper one. Stitch 0: the whole row (kColourOrder, the upper of the
  // two rows) or the row band, by its first row (kOddRowRepeat, kFacingRepeat). Row 0: the whole
  // chart. `last_stitch` is `stitch` but for runs, and lies before it where a run crosses a seam.
  int row = 0;
  int stitch = 0;
  int last_stitch = 0;
  // Named where the rows or stitches concerned are neighbours only between two repetitions.
  Seam seam = Seam::kNone;
  // Index of the first size in which it occurs, and in how many sizes it does.
  int size = 0;
  int size_count = 1;

  bool operator==(const Finding&) const = default;
};

struct CheckResult {
  // Errors first, then by row, stitch and code; kMostFindings at most.
  std::vector<Finding> findings;
  int64_t error_count = 0;  // true totals
  int64_t warning_count = 0;
  int64_t note_count = 0;
  bool workable() const { return error_count == 0; }
  bool operator==(const CheckResult&) const = default;
};

struct CheckSettings {
  // Rule 7: longest run of drops that holds a carried strand well (project's setting).
  int longest_carried_run = 5;
  // Rule 8, inset: longest skipped run that does not gape (project's setting; no published limit).
  int longest_skip = 3;
  // Rule 8, overlay: longest run of drops without a loose flap (assumption).
  int longest_flap = 8;
};

// Rules 1-7 and 9 for the spike technique, all facings, ends and forms, across the seams and in
// every size; exact. The design must be valid and its technique one that RequireRules (technique.h)
// lets pass; `longest_carried_run` must not be negative. Time O(cells / 64), whatever the repeats;
// memory beside the result O(rows). Thread-safe.
//
// - A picture's off-colour cell in row r counts as the drop of row r+1 that covers it, also in the
//   last row, where rule 3 applies too.
// - Rule 5 is not applied to a drop without an anchor row (rule 1 is).
// - Rule 6 names the cells that make an edge column uneven (edges.h): a lone drop, or the one cell
//   missing in a column of drops.
// - Rule 7: a round of a tube starts and ends at its join, where a run is taken to end.
// - Where `odd-row-repeat` applies, the other rules look at the band worked once: the colours
// change
//   places from one repetition to the next, and every further finding would only repeat that.
// - `facing-repeat` also names an explicit colour order's band that leaves RS and WS changed.
CheckResult Check(const Design& design, const CheckSettings& settings = {});

// Stable code ("no-anchor") and its inverse; nullptr and false where there is none.
const char* CodeName(FindingCode code);
bool ParseCode(const std::string& name, FindingCode* code);
const char* SeverityName(Severity severity);  // "error", "warning", "note"

// One sentence that a maker understands, with the place.
std::string Sentence(const Finding& finding, const Design& design);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_FINDINGS_H_
