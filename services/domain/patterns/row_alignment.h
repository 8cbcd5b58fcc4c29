// Rows of two versions, aligned: the longest common subsequence of equal rows first, then, between
// those, the most similar rows. Thread-safe.
//
// A row's content is its working stitches, its colour and its side. Stitches are compared from
// stitch 1; if the rows' stitch counts differ, from both edges inwards.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_ROW_ALIGNMENT_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_ROW_ALIGNMENT_H_

#include <cstdint>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/grid.h"
#include "services/domain/patterns/row_contents.h"
#include "services/domain/stop.h"

namespace rowproof::patterns {

enum class RowChange : uint8_t {
  kSame,
  kChanged,
  kAdded,
  kRemoved,
  kTextChanged,  // the same in the chart, not in the designer's own text: only from MarkTextChanges
};

struct StitchRange {
  int first = 0;
  int last = 0;  // inclusive
  bool operator==(const StitchRange&) const = default;
};

// A row that differs in more places has its last ranges joined into one.
inline constexpr size_t kMostStitchRanges = 200;

struct RowDifference {
  RowChange change = RowChange::kSame;
  int old_row = 0;  // from 1; 0: added
  int new_row = 0;  // from 1; 0: removed
  bool colour_changed = false;
  bool side_changed = false;
  // Stitches that differ, in the old and in the new row's numbers: outside them the two rows are
  // equal. The same ranges if the stitch counts are equal; otherwise at most one each, and empty if
  // stitches were only added or only removed. Empty unless changed.
  std::vector<StitchRange> old_stitches;
  std::vector<StitchRange> new_stitches;
  bool operator==(const RowDifference&) const = default;
};

// In working order; removed rows come before rows added in the same place. Exact in its first part
// (bit-parallel, O(old rows * new rows / 64)); in its second part the search for similar rows keeps
// near the diagonal if a gap is long, so that its time is bounded.
std::vector<RowDifference> AlignRows(const RowContents& before, const RowContents& after,
                                     const Stop& stop = {});

const char* Name(RowChange change);  // "same", "changed", "added", "removed", "text-changed"

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_ROW_ALIGNMENT_H_
