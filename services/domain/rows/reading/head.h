// How a row begins: "Row 7 (RS, A):", "Rows 5, 9 and 13:", "Rnd 27 (35, 43) with B:".
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_HEAD_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_HEAD_H_

#include "services/domain/rows/reading/row.h"

namespace rowproof::rows {

// Reads numbers, side and colour, up to the row's body. False with an error; false without one if
// the line only began like a row ("Rows are numbered from the bottom").
bool ReadHead(RowReading& reading);

// "7", "27 (35, 43)", "9-24", "5, 9 and 13", "- (11-18)", after the word "Row" or "Rows".
bool ReadRowNumbers(RowReading& reading, bool several, std::vector<NumberedRows>* numbers);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_HEAD_H_
