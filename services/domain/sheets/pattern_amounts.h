// How much yarn the pattern sheet says to buy. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_SHEETS_PATTERN_AMOUNTS_H_
#define ROWPROOF_SERVICES_DOMAIN_SHEETS_PATTERN_AMOUNTS_H_

#include "services/domain/sheets/pattern_sheet.h"

namespace rowproof::sheets {

// Amounts of yarn by size and colour, and for whom they suffice.
void AddAmounts(const SheetVersion& version, PatternSheetText& sheet);

}  // namespace rowproof::sheets

#endif  // ROWPROOF_SERVICES_DOMAIN_SHEETS_PATTERN_AMOUNTS_H_
