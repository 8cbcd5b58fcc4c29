// The difference of two versions: rows of the chart, and everything that is not in a row.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_DIFFERENCE_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_DIFFERENCE_H_

#include <string>
#include <vector>

#include "services/domain/patterns/row_alignment.h"
#include "services/domain/patterns/version_content.h"
#include "services/domain/stop.h"

namespace rowproof::patterns {

// Differing lines of one text that are listed one by one; the rest are counted in a last entry.
inline constexpr size_t kMostTextDifferences = 200;

// One difference that is not in a row, ready to be read: values carry their units, lengths and
// masses metric and US; long texts are cut.
struct FieldDifference {
  std::string field;  // stable path: "design.ends", "materials.gauge.rows_per_decimetre"
  std::string label;  // what a maker calls it: "row gauge"
  std::string was;    // empty: there was none
  std::string now;    // empty: there is none
  bool operator==(const FieldDifference&) const = default;
};

struct VersionDifference {
  // Every row of the chart as drawn, bands once, same rows included, in working order. Row numbers
  // are chart rows from 1.
  std::vector<RowDifference> rows;
  std::vector<FieldDifference> fields;
  int same_row_count = 0;
  int changed_row_count = 0;
  int added_row_count = 0;
  int removed_row_count = 0;
  // True if technique or form differ: every row is then worked otherwise, whatever its stitches
  // are.
  bool worked_otherwise = false;

  bool empty() const {
    return fields.empty() && changed_row_count + added_row_count + removed_row_count == 0;
  }
  bool operator==(const VersionDifference&) const = default;
};

// Both contents must be valid.
// Not whole if the work has to stop, which the caller asks.
VersionDifference Compare(const VersionContent& before, const VersionContent& after,
                          const Stop& stop = {});

// The difference of one size as it is worked.
struct SizeDifference {
  int old_size = 0;  // index in the earlier design's sizes
  int new_size = 0;
  // Every worked row, same rows included, in working order. If technique or form differ no row
  // is the same: equal rows count as changed, without stitches.
  std::vector<RowDifference> rows;
  // New worked row of each old worked row (index 0 is row 1); 0: gone.
  std::vector<int> new_row;
  // For each new worked row (index 0 is row 1) the old row that reads the same; 0: none does.
  std::vector<int> same_old_row;
  bool operator==(const SizeDifference&) const = default;
};

// Expanded rows are aligned directly, not by way of the chart: a repeat that was drawn out, worked
// once more or given another seam then still maps row by row as the maker meets it.
SizeDifference CompareSize(const chart::Design& before, int old_size, const chart::Design& after,
                           int new_size, const Stop& stop = {});

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_DIFFERENCE_H_
