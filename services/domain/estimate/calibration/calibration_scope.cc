#include "services/domain/estimate/calibration/calibration_scope.h"

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/accepted_range.h"
#include "services/domain/estimate/weight_class.h"

namespace rowproof::estimate {

absl::Status Validate(const CalibrationScope& scope) {
  if (!scope.weight_class.has_value()) return absl::OkStatus();
  return CheckCount("weight_class", *scope.weight_class, 0, kHeaviestWeightClass, "");
}

absl::Status ValidateKept(const CalibrationScope& scope) {
  if (!scope.technique.has_value()) return MissingField("technique", "spike, overlay or inset");
  if (!scope.weight_class.has_value())
    return MissingField("weight_class", "a whole number from 0 to 7");
  return Validate(scope);
}

std::string InWords(const CalibrationScope& scope) {
  std::string words;
  const auto add = [&](const std::string& word) { words += (words.empty() ? "" : ", ") + word; };
  if (scope.technique.has_value()) add(chart::Name(*scope.technique));
  if (scope.facing.has_value()) add(chart::Name(*scope.facing));
  if (scope.ends.has_value()) add(fmt::format("ends {}", chart::Name(*scope.ends)));
  if (scope.weight_class.has_value()) add(fmt::format("weight class {}", *scope.weight_class));
  return words.empty() ? "not said" : words;
}

}  // namespace rowproof::estimate
