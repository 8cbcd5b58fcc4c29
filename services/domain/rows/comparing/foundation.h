// The foundation as the text states it, against the chart. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_FOUNDATION_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_FOUNDATION_H_

#include <vector>

#include "services/domain/rows/comparing/size.h"
#include "services/domain/rows/comparing/steps.h"
#include "services/domain/rows/text_rows.h"

namespace rowproof::rows {

// Chains: one more than stitches if the first row (or a worked foundation) goes into the second
// chain from the hook, N - 1 more for the Nth; as many as stitches for a tube. Its colour is the
// declared one, or that of row 1. What the text does not state is no fault.
void CheckFoundation(const TextDocument& document, ChartRows& chart, std::vector<RowFault>& faults);

// Whether a row numbered as the one below the first is the foundation: nothing but chains, or,
// if the chart declares a worked foundation, a plain stitch in each place.
bool IsFoundationRow(const TextDocument& document, ChartRows& chart, const PlacedRow& row,
                     StepsComparer& steps);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_FOUNDATION_H_
