// A version's own text against its chart.
#ifndef ROWPROOF_SERVICES_USECASES_COMPARE_TEXT_H_
#define ROWPROOF_SERVICES_USECASES_COMPARE_TEXT_H_

#include "absl/status/statusor.h"
#include "services/domain/patterns/version_content.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

// The content has a text. Errors as rows::CompareRows.
absl::StatusOr<rows::Comparison> CompareText(const patterns::VersionContent& content,
                                             const Stop& stop);

// Compares the designer's text of a version with its chart by the present rules.
// FAILED_PRECONDITION if there is no such text (NO_DESIGNER_TEXT) or the chart cannot be written as
// rows.
absl::StatusOr<rows::Comparison> CompareVersionRows(Application& application,
                                                    RequestContext& context,
                                                    const PatternId& pattern, int number);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_COMPARE_TEXT_H_
