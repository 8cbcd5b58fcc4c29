#include "services/client/tables/measures.h"

namespace rowproof::client {

Units UnitsOfLocale(const std::string& locale) {
  const size_t line = locale.find('_');
  if (line == std::string::npos) return Units::kMetric;
  const std::string territory = locale.substr(line + 1, 2);
  const bool imperial = territory == "US" || territory == "LR" || territory == "MM";
  return imperial ? Units::kImperial : Units::kMetric;
}

}  // namespace rowproof::client
