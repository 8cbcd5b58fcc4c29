// Refusal of numbers from outside that are not finite or out of range. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ACCEPTED_RANGE_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ACCEPTED_RANGE_H_

#include <string>

#include "absl/status/status.h"

namespace rowproof::estimate {

// INVALID_ARGUMENT for `field` unless low <= value <= high (so never for NaN). `unit` ends the
// sentence: "must be between 1 and 10 mm"; may be empty.
absl::Status CheckRange(const std::string& field, double value, double low, double high,
                        const char* unit);
absl::Status CheckCount(const std::string& field, int value, int low, int high, const char* unit);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ACCEPTED_RANGE_H_
