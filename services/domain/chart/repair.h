// The nearest workable chart: the fewest changed cells, proved by an exact method.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_H_

#include <cstdint>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"

namespace rowproof::chart {

// One cell of the chart as given, from 1, and the value it should have.
struct Edit {
  int row = 0;
  int stitch = 0;
  bool value = false;
  bool operator==(const Edit&) const = default;
};

// What another way out would leave to change.
struct Alternative {
  enum class Kind : uint8_t { kPlainRowBelow, kPlainRowAbove, kColoursExchanged, kRepeatMoved };
  Kind kind = Kind::kPlainRowBelow;
  int rows_moved = 0;  // kRepeatMoved only
  int64_t edits_left = 0;
};

struct Repair {
  std::vector<Edit> edits;  // by row, then stitch
  int64_t edit_count = 0;
  std::vector<Alternative> alternatives;
  Grid repaired;  // the chart as given, with the edits made
};

// Mends every error that changing cells can mend, in every size (rules 1-4). Errors that no cell
// causes (colour order, ends, odd repeat) stay: FAILED_PRECONDITION names them. The design must be
// valid. Exact: a dynamic programme over the rows of each column; a cell in a repeated band is one
// variable.
absl::StatusOr<Repair> FindRepair(const Design& design);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_H_
