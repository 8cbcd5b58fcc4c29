// How near two measurements are, and how numbers stand in a question to a tester. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_CALLS_SLIP_RATIOS_H_
#define ROWPROOF_SERVICES_DOMAIN_CALLS_SLIP_RATIOS_H_

#include <algorithm>
#include <cmath>
#include <string>

#include "fmt/format.h"

namespace rowproof::calls {

// The project's own settings, as differences of logarithms. kExplains: so near that a slip explains
// the value; kUsual: so near to the expected value that nothing needs to be explained (about one
// and a half times the model's 12 % and the makers' 10 % in quadrature).
inline constexpr double kExplains = 0.2;
inline constexpr double kUsual = 0.25;

// |ln(value / target)| <= tolerance; false unless both are above 0.
inline bool Near(double value, double target, double tolerance) {
  return value > 0 && target > 0 && std::abs(std::log(value / target)) <= tolerance;
}

inline bool IsOutOfProportion(double value, double expected, double proportion) {
  return expected > 0 && (value > proportion * expected || value * proportion < expected);
}

// Four digits for reading: "139.9", "1280".
inline std::string Shown(double value) {
  return std::abs(value) >= 1000 ? fmt::format("{:.0f}", value) : fmt::format("{:.4g}", value);
}

}  // namespace rowproof::calls

#endif  // ROWPROOF_SERVICES_DOMAIN_CALLS_SLIP_RATIOS_H_
