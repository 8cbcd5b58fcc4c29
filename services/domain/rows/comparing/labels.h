// What a row says besides its stitches: side, colour, closing count, start and end.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_LABELS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_LABELS_H_

#include <vector>

#include "services/domain/rows/comparing/size.h"
#include "services/domain/rows/comparing/steps.h"
#include "services/domain/rows/text_rows.h"

namespace rowproof::rows {

struct ComparedText {
  const TextDocument& document;
  ChartRows& chart;
  StepsComparer& steps;
  RowTerms terms;
};

// Adds the faults of a row that was read, against the chart's row `worked`.
void CompareLabels(const ComparedText& text, const PlacedRow& row, int worked,
                   std::vector<RowFault>& faults);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_LABELS_H_
