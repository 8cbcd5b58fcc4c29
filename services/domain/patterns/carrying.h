// What becomes of a place in an earlier version (an erratum's, a tester's last row) in a later one.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_CARRYING_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_CARRYING_H_

#include <cstdint>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/patterns/difference.h"

namespace rowproof::patterns {

// Worked row and stitches of one size, from 1, as the chart numbers them. Stitches 0: the whole
// row.
struct Place {
  int row = 0;
  int first_stitch = 0;
  int last_stitch = 0;
  bool operator==(const Place&) const = default;
};

enum class CarriedKind : uint8_t {
  kSamePlace,   // the row reads the same and has the same number
  kMoved,       // the row reads the same under another number
  kRowChanged,  // the row reads differently; its number may differ too
  kRowGone,
};

struct CarriedPlace {
  CarriedKind kind = CarriedKind::kSamePlace;
  // In the later version; all 0 if the row is gone. If stitches were added or removed inside the
  // row, stitches before and after the change keep their distance from their edge; 0 if none of the
  // place's stitches is left.
  Place to;
  // In a changed row: the place itself is concerned (one of its stitches changed, or the row's
  // colour or side).
  bool touched = false;
  bool operator==(const CarriedPlace&) const = default;
};

// INVALID_ARGUMENT with "row", "first_stitch" or "last_stitch": row outside the earlier size,
// stitches below 1 or reversed. The last stitch is not checked against the row's count.
absl::StatusOr<CarriedPlace> Carry(const SizeDifference& difference, const Place& place);

// The rows that differ, as seen by a tester at a row.
struct ChangesAround {
  std::vector<RowDifference> behind;  // at or below the last row worked
  std::vector<RowDifference> ahead;
  // Row of the later version to continue with; 0: none is left.
  int next_row = 0;
};

// `last_row`: last worked row finished, 0 to the size's rows (INVALID_ARGUMENT "last_row"). A row
// added right after it is ahead.
absl::StatusOr<ChangesAround> ChangesFrom(const SizeDifference& difference, int last_row);

const char* Name(CarriedKind kind);  // "same-place", "moved", "row-changed", "row-gone"

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_CARRYING_H_
