// Puts together the sheets that a release writes. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_SHEETS_SHEETS_H_
#define ROWPROOF_SERVICES_USECASES_SHEETS_SHEETS_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/sheets/errata_sheet.h"
#include "services/drawing/sheets/pattern_sheet.h"
#include "services/usecases/release_basis.h"
#include "services/usecases/releases.h"

namespace rowproof::usecases {

// `date`: civil date YYYY-MM-DD. The sheet points into `basis`, which must outlive it. Errors as
// rows::WriteRows, and INVALID_ARGUMENT "sheet.terms" for terms that the version's own text does
// not have. The stop's status if the work has to stop.
absl::StatusOr<drawing::PatternSheet> AssemblePatternSheet(const ReleaseBasis& basis,
                                                           const sheets::SheetStyle& style,
                                                           const std::string& date,
                                                           const Stop& stop);

// One entry for each accepted fault (reports of one fault joined by version and row), and the
// difference from the version before.
// Not whole if the work has to stop, which the caller asks.
sheets::ErrataSheet AssembleErrataSheet(const ReleaseBasis& basis, const std::string& date,
                                        const Stop& stop);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_SHEETS_SHEETS_H_
