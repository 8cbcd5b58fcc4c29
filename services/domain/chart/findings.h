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
};

// Where two bands of rows or stitches meet; kNone inside the chart as drawn.
enum class Seam : uint8_t { kNone, kRowRepeat, kStitchRepeat };

struct Finding {
  FindingCode code = FindingCode::kNoAnchor;
  Severity severity = Severity::kError;
  // Place in the chart as given, from 1; 0 where the finding concerns the whole chart. `last_stitch`
  // is `stitch` but for runs.
  int row = 0;
  int stitch = 0;
  int last_stitch = 0;
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
};

// Rules 1-7 and 9 for the spike technique, one-face and two-face, ends cut or carried, across the
// seams and in every size; exact. The design must be valid. Time O(cells / 64).
CheckResult Check(const Design& design, const CheckSettings& settings = {});

// Stable code ("no-anchor") and its inverse; nullptr and false where there is none.
const char* CodeName(FindingCode code);
bool ParseCode(const std::string& name, FindingCode* code);
const char* SeverityName(Severity severity);  // "error", "warning", "note"

// One sentence that a maker understands, with the place.
std::string Sentence(const Finding& finding, const Design& design);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_FINDINGS_H_
