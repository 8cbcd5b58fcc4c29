// Rows that are worked as others: "rep Rows 3-10 twice", "as Row 3", "rep last 2 rows".
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_REFERENCE_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_REFERENCE_H_

#include "services/domain/rows/reading/row.h"

namespace rowproof::rows {

bool AtReference(const RowReading& reading);
// Reads the body of a row into row.sources and row.times.
bool ReadReference(RowReading& reading);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_REFERENCE_H_
