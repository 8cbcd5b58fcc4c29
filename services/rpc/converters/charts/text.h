// Designers' own texts between proto and domain. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_TEXT_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_TEXT_H_

#include <optional>
#include <string>

#include "absl/status/statusor.h"
#include "rowproof/v1/chart_service.pb.h"
#include "rowproof/v1/text.pb.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/reading/reader.h"

namespace rowproof::rpc {

// None if unspecified: as the text has it. INVALID_ARGUMENT with `field` for a foreign number.
absl::StatusOr<std::optional<chart::Terms>> TermsFrom(const std::string& field, v1::Terms terms);

// INVALID_ARGUMENT "terms", "colour_names[i].colour", "definitions[i].meaning".
absl::StatusOr<rows::ReaderSettings> FromProto(const v1::ReadRowsRequest& request);

// "hand", and the same.
absl::StatusOr<rows::ComparisonSettings> FromProto(const v1::CompareRowsRequest& request);

v1::TextRows ToProto(const rows::TextDocument& document);
v1::TextComparison ToProto(const rows::Comparison& comparison, int comparison_version);
// Without findings and rows, as lists have it.
v1::TextComparison CountsToProto(const rows::Comparison& comparison, int comparison_version);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_TEXT_H_
