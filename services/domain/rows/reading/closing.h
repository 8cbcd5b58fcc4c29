// What closes a row: stated counts, remarks in brackets, ends.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_CLOSING_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_CLOSING_H_

#include "services/domain/rows/reading/row.h"

namespace rowproof::rows {

// Commas, full stops, "and", "then", dashes.
void SkipSeparators(RowReading& reading);

// Whether the bracket at `open` holds words that are no instructions.
bool IsRemark(const RowReading& reading, size_t open);

// Whether this is the row's count: "(53 sts)", "= 53 sts", "(41 sts, 12 ch-sps)".
bool AtClosingCount(const RowReading& reading);
// Reads it into the row.
bool ReadClosingCount(RowReading& reading);

// The rest of the row: counts, "turn", "fasten off", remarks. Up to the row's end.
bool ReadRowEnd(RowReading& reading);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_CLOSING_H_
