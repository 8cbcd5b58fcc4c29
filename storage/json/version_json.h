// Findings and estimates as the database keeps them as JSON text.
// Keys are the field names; enums their stable names. Thread-safe.
#ifndef ROWPROOF_STORAGE_JSON_VERSION_JSON_H_
#define ROWPROOF_STORAGE_JSON_VERSION_JSON_H_

#include <string>
#include <vector>

#include "services/domain/chart/check/findings.h"
#include "services/domain/estimate/estimate.h"

namespace rowproof::storage {

// The findings and the totals by code.
std::string FindingsToJson(const chart::CheckResult& check);
std::string EstimatesToJson(const std::vector<estimate::SizeEstimate>& estimates);

// Inverse of the above. Throws UnreadableValue for another text.
void FindingsFromJson(const std::string& json, chart::CheckResult* check);
std::vector<estimate::SizeEstimate> EstimatesFromJson(const std::string& json);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_JSON_VERSION_JSON_H_
