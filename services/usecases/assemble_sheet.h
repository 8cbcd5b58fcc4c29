// Puts together the sheets that a release writes. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_ASSEMBLE_SHEET_H_
#define ROWPROOF_SERVICES_USECASES_ASSEMBLE_SHEET_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/sheets/errata_sheet.h"
#include "services/drawing/sheets/sheets.h"
#include "services/usecases/releases.h"

namespace rowproof::usecases {

// `date`: civil date YYYY-MM-DD. The sheet points into `ground`, which must outlive it. Errors as
// rows::WriteRows, and INVALID_ARGUMENT "sheet.terms" for terms that the version's own text does
// not have.
absl::StatusOr<drawing::PatternSheet> AssemblePatternSheet(const ReleaseGround& ground,
                                                           const SheetStyle& style,
                                                           const std::string& date);

// One entry for each accepted fault (reports of one fault joined by version and row), and the
// difference from the version before.
sheets::ErrataSheet AssembleErrataSheet(const ReleaseGround& ground, const std::string& date);

// Finished sizes: the estimate's, corrected where a reconciliation has measured widths or heights,
// and which of them they are. Used by AssemblePatternSheet.
void AddSizes(const ReleaseGround& ground, drawing::PatternSheet& sheet);
// The rows, for both hands, and what stands around them: the designer's own where the version has
// them, else those written from the chart. Used by AssemblePatternSheet.
absl::Status AddRows(const ReleaseGround& ground, const SheetStyle& style,
                     drawing::PatternSheet& sheet);
// Amounts of yarn by size and colour, and for whom they suffice. Used by AssemblePatternSheet.
void AddAmounts(const ReleaseGround& ground, drawing::PatternSheet& sheet);
// Lines on who worked what. Used by AssemblePatternSheet.
std::vector<std::string> TestedLines(const ReleaseGround& ground);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_ASSEMBLE_SHEET_H_
