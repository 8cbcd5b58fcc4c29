// The difference of two versions: rows of the chart, and everything that is not in a row.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RELEASES_DIFFERENCE_H_
#define ROWPROOF_SERVICES_DOMAIN_RELEASES_DIFFERENCE_H_

#include <string>
#include <vector>

#include "services/domain/releases/row_alignment.h"
#include "services/domain/releases/version_content.h"

namespace rowproof::releases {

// Differing lines of one text that are listed one by one; what is over is counted in a last entry.
inline constexpr size_t kMostTextDifferences = 200;

// One difference that is not in a row, ready to be read: values carry their units, lengths and
// masses metric and US; long texts are cut.
struct FieldDifference {
  std::string field;  // stable path: "design.ends", "making.gauge.rows_per_100mm"
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
  // True where technique, facing, form or ends differ: every row is then worked otherwise, whatever
  // its stitches are.
  bool worked_otherwise = false;

  bool empty() const {
    return fields.empty() && changed_row_count + added_row_count + removed_row_count == 0;
  }
  bool operator==(const VersionDifference&) const = default;
};

// Both contents must be valid.
VersionDifference Compare(const VersionContent& before, const VersionContent& after);

// "The row gauge was 16 rows in 100 mm and is now 17 rows in 100 mm."
std::string Sentence(const FieldDifference& difference);
// "Row 7: stitches 5 to 8 and 20 changed." `first_row_number`: the number the pattern gives to row
// 1 of the later version (of the earlier version for a removed row). `rows_per_chart_row`: 2 where
// the difference counts chart rows of inset ("Rows 13 and 14: ..."), else 1.
std::string Sentence(const RowDifference& difference, int first_row_number = 1,
                     int rows_per_chart_row = 1);

// The difference of one size as it is worked.
struct SizeDifference {
  int old_size = 0;  // index in the earlier design's sizes
  int new_size = 0;
  // Every worked row, same rows included, in working order.
  std::vector<RowDifference> rows;
  // New worked row of each old worked row (index 0 is row 1); 0: gone.
  std::vector<int> new_row;
  bool worked_otherwise = false;  // as above
};

// Expanded rows are aligned directly, not by way of the chart: a repeat that was drawn out, worked
// once more or given another seam then still maps row by row as the maker meets it.
SizeDifference CompareSize(const chart::Design& before, int old_size, const chart::Design& after,
                           int new_size);

// Index of the later design's size that has the earlier size's name; the only size where both have
// one; -1: it is gone.
int MatchingSize(const chart::Design& before, int old_size, const chart::Design& after);

}  // namespace rowproof::releases

#endif  // ROWPROOF_SERVICES_DOMAIN_RELEASES_DIFFERENCE_H_
