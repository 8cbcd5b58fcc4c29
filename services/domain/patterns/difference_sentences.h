// The sentences of a difference. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_DIFFERENCE_SENTENCES_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_DIFFERENCE_SENTENCES_H_

#include <string>

#include "services/domain/patterns/difference.h"
#include "services/domain/patterns/row_alignment.h"

namespace rowproof::patterns {

// "Row gauge: was 16 rows in 100 mm (16.3 in 4 in); now 17 rows in 100 mm (17.3 in 4 in)."
std::string Sentence(const FieldDifference& difference);

// How a pattern numbers its rows.
struct RowNumbers {
  int old_first = 1;  // the number that the earlier version gives to the first worked row
  int new_first = 1;  // and the later one
  // chart::WorkedRows of each: 2 if the chart's rows are counted and the technique is inset.
  int old_rows_per_chart_row = 1;
  int new_rows_per_chart_row = 1;
};

// "Row 7: stitches 5 to 8 and 20 changed.", "Row 9 (row 7 before): colour changed.", "Row 9 added."
std::string Sentence(const RowDifference& difference, const RowNumbers& numbers);

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_DIFFERENCE_SENTENCES_H_
