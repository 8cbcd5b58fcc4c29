// A row as it was read, in one plain form: repeats in brackets with the total number of times,
// whatever the text's own words were. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_WORDS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_WORDS_H_

#include <string>

#include "services/domain/rows/text_row.h"

namespace rowproof::rows {

// "sc 4, [ssc, sc 2] 9 (13, 17) times, sc 3"; "as Row 3"; empty if the row was not read. Read
// again, it gives the same steps. Stitches that the text defines are "plain" and "drop".
std::string Words(const TextRow& row, chart::Terms terms);

// "7"; "9-24"; "5, 9, 13"; "27 (35, 43)".
std::string Numbers(const TextRow& row);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_TEXT_WORDS_H_
