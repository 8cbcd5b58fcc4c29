// The steps of a row: terms, groups and repeats, to the row's end.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_STEPS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_STEPS_H_

#include "services/domain/rows/reading/row.h"

namespace rowproof::rows {

// Reads the body of a row into row.steps. Recursion is no deeper than kDeepestReadNesting.
bool ReadSteps(RowReading& reading);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_STEPS_H_
