#include "services/domain/estimate/accepted_range.h"

#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof::estimate {

absl::Status CheckRange(const std::string& field, double value, double low, double high,
                        const char* unit) {
  if (value >= low && value <= high) return absl::OkStatus();
  return InvalidField(field, fmt::format("{}", value),
                      fmt::format("between {} and {}{}{}", low, high, *unit ? " " : "", unit));
}

absl::Status CheckCount(const std::string& field, int value, int low, int high, const char* unit) {
  if (value >= low && value <= high) return absl::OkStatus();
  return InvalidField(
      field, std::to_string(value),
      fmt::format("a whole number from {} to {}{}{}", low, high, *unit ? " " : "", unit));
}

}  // namespace rowproof::estimate
