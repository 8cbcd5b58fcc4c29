// What a calibration was measured in, and so what it holds for. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_CALIBRATION_SCOPE_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_CALIBRATION_SCOPE_H_

#include <optional>
#include <string>

#include "absl/status/status.h"
#include "services/domain/chart/design.h"

namespace rowproof::estimate {

// Absent: not known, and not compared.
struct CalibrationScope {
  std::optional<chart::Technique> technique;
  std::optional<chart::Facing> facing;  // in worked rows (chart::FacingOf)
  std::optional<chart::Ends> ends;
  std::optional<int> weight_class;  // 0 to 7
  bool operator==(const CalibrationScope&) const = default;
};

// INVALID_ARGUMENT for "weight_class" out of range.
absl::Status Validate(const CalibrationScope& scope);
// A kept calibration is found by technique and weight class: INVALID_ARGUMENT also if either is
// missing.
absl::Status ValidateKept(const CalibrationScope& scope);

std::string InWords(const CalibrationScope& scope);  // "spike, two-face, ends cut, weight class 4"

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_CALIBRATION_SCOPE_H_
