// The errata sheet that goes with a correction, as PDF: text and bytes as in pattern_sheet.h.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DRAWING_SHEETS_ERRATA_SHEET_H_
#define ROWPROOF_SERVICES_DRAWING_SHEETS_ERRATA_SHEET_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/sheets/errata_sheet.h"
#include "services/drawing/paper.h"

namespace rowproof::drawing {

// Errors: INVALID_ARGUMENT if `release_date` is no civil date, or title, designer or hash is over
// kLongestTitle; OverLimit and INTERNAL as DrawPatternSheet.
absl::StatusOr<std::string> DrawErrataSheet(const sheets::ErrataSheet& sheet, Paper paper,
                                            const Stop& stop = {});

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_SHEETS_ERRATA_SHEET_H_
