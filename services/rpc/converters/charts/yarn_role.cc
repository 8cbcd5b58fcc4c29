#include "services/rpc/converters/charts/yarn_role.h"

#include "services/domain/errors.h"

namespace rowproof::rpc {

// The API's numbers are the order in which yarns are listed.
v1::YarnRole RoleOf(estimate::YarnColour colour) {
  int number = 0;
  for (const estimate::YarnColour listed : estimate::kYarnColoursAsListed) {
    ++number;
    if (listed == colour) break;
  }
  return static_cast<v1::YarnRole>(number);
}

absl::StatusOr<estimate::YarnColour> ColourOf(const std::string& field, v1::YarnRole role) {
  const int number = static_cast<int>(role);
  if (number >= 1 && number <= static_cast<int>(estimate::kYarnColours)) {
    return estimate::kYarnColoursAsListed[static_cast<size_t>(number - 1)];
  }
  return InvalidField(field, std::to_string(number),
                      "YARN_ROLE_A to YARN_ROLE_H or YARN_ROLE_BORDER");
}

absl::StatusOr<estimate::YarnColour> ColourOrA(const std::string& field, v1::YarnRole role) {
  return role == v1::YARN_ROLE_UNSPECIFIED ? estimate::YarnColour::kA : ColourOf(field, role);
}

}  // namespace rowproof::rpc
