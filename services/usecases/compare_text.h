// A version's own text against its chart.
#ifndef ROWPROOF_SERVICES_USECASES_COMPARE_TEXT_H_
#define ROWPROOF_SERVICES_USECASES_COMPARE_TEXT_H_

#include "absl/status/statusor.h"
#include "services/domain/patterns/version_content.h"
#include "services/domain/rows/comparing/comparison.h"

namespace rowproof::usecases {

// The content has a text. Errors as rows::CompareRows.
absl::StatusOr<rows::Comparison> CompareText(const patterns::VersionContent& content);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_COMPARE_TEXT_H_
