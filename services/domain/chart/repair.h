// The nearest workable chart: the fewest changed cells, proved by an exact method.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_H_

#include <cstdint>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/chart/edit.h"

namespace rowproof::chart {

// What another way out would leave to change.
struct Alternative {
  enum class Kind : uint8_t { kPlainRowBelow, kPlainRowAbove, kColoursExchanged, kRepeatMoved };
  Kind kind = Kind::kPlainRowBelow;
  int rows_moved = 0;  // kRepeatMoved only: 1 up, -1 down
  int64_t edits_left = 0;
  bool operator==(const Alternative&) const = default;
};

struct Repair {
  std::vector<Edit> edits;  // by row, then stitch
  int64_t edit_count = 0;
  // Empty where nothing is to mend. Otherwise every kind that makes a valid design without errors
  // that no cell causes; colours exchanged for a picture only (drops do not depend on colours).
  std::vector<Alternative> alternatives;
  Grid repaired;  // the chart as given, with the edits made
};

// Mends every error that changing cells can mend, in every size (rules 1-4). The design must be
// valid. Thread-safe.
//
// Exact. All these rules forbid marks (off-colour cells, drops) or pairs of them, so that a nearest
// workable chart only takes marks away, and columns are independent. A cell of a repeated band is
// one variable, changed once. In a column without a seam that clashes, the marks that stay are
// chosen from row 1 up, each one unless the mark below stays: in a line of k marks that takes away
// floor(k/2), and fewer cannot do. Where the band's first and last row clash, one of the two has to
// go; both choices are followed to the end and the one that costs less is taken.
//
// Among equals the marks lower in the chart stay: read upwards, at the first row in which two
// repairs of a column differ, the one that keeps the mark is taken.
//
// Errors:
//   FAILED_PRECONDITION  errors that no cell causes (ends, odd repeat, colour order): one condition
//                        for each code, type CELLS_CANNOT_MEND, subject the code
absl::StatusOr<Repair> FindRepair(const Design& design);

// The design with another way out taken. kPlainRowBelow: a row without marks becomes row 1, all
// else moves up by one; under the alternation the colours follow the new row numbers (a picture's
// cells keep the colours seen, a working chart's drops stay drops), in an explicit order all rows
// keep theirs and the new row gets the other colour than the row next to it. kPlainRowAbove: the
// same above the last row. Bands move along. The chart must have a row to spare (kMostRows);
// kRepeatMoved must leave the band within the chart.
Design WithAlternative(const Design& design, const Alternative& alternative);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_H_
