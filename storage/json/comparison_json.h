// What the comparison of text and chart found, as the database keeps it as JSON text. Keys are the
// field names; enums their stable names. Thread-safe.
#ifndef ROWPROOF_STORAGE_JSON_COMPARISON_JSON_H_
#define ROWPROOF_STORAGE_JSON_COMPARISON_JSON_H_

#include <string>

#include "services/domain/rows/comparing/comparison.h"

namespace rowproof::storage {

// Rows named by findings, over all of them, that are kept; beyond, a finding keeps its first row.
inline constexpr size_t kMostRowsKept = 100'000;

// Terms and findings, without corrected rows and without the rows side by side: those are made
// again from the version if they are wanted.
std::string ComparisonToJson(const rows::Comparison& comparison);

// Inverse of the above for what it keeps. Throws UnreadableValue for another text.
void ComparisonFromJson(const std::string& json, rows::Comparison* comparison);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_JSON_COMPARISON_JSON_H_
