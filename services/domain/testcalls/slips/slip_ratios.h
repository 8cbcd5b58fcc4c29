// How near two measurements are, and how numbers are printed in a question to a tester.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_SLIPS_SLIP_RATIOS_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_SLIPS_SLIP_RATIOS_H_

#include <algorithm>
#include <cmath>
#include <string>

#include "fmt/format.h"
#include "services/quantities/measured.h"

namespace rowproof::testcalls {

// The project's own settings, as differences of logarithms. kExplains: so near that a slip explains
// the value. kUsual: so near to the expected value that it may be meant as it is.
inline constexpr double kExplains = 0.2;
inline constexpr double kUsual = 0.25;
// The same as kExplains for lengths of yarn, which differ more: two standard deviations of the
// estimate's relative uncertainty and the spread between makers (0.12 and 0.10, in quadrature).
inline constexpr double kExplainsYarn = 0.31;
// How much better a slip has to explain a length of yarn than the makers' own differences do, as a
// difference of squared logarithms: 2 ln 8 x (0.12^2 + 0.10^2), so that the slip is eight times as
// likely.
inline constexpr double kExplainsBetter = 0.101;

// |ln(value / target)| <= tolerance; false unless both are above 0.
inline bool Near(double value, double target, double tolerance) {
  return value > 0 && target > 0 && std::abs(std::log(value / target)) <= tolerance;
}

// Whether yarn of `other` length agrees with the expected one, and so much better than `value` that
// it is worth a question.
inline bool ExplainsBetter(double other, double value, double expected) {
  if (!Near(other, expected, kExplainsYarn) || !(value > 0)) return false;
  const double off = std::log(value / expected);
  const double other_off = std::log(other / expected);
  return off * off - other_off * other_off > kExplainsBetter;
}

inline bool IsOutOfProportion(double value, double expected, double proportion) {
  return expected > 0 && (value > proportion * expected || value * proportion < expected);
}

// Four digits for reading: "139.9", "1280".
inline std::string Shown(double value) {
  return std::abs(value) >= 1000 ? fmt::format("{:.0f}", value) : fmt::format("{:.4g}", value);
}

// In both systems: which of them the tester uses is not known here.
inline std::string ShownExtent(double mm) {
  return quantities::Extent(mm, quantities::Units::kMetric);
}
inline std::string ShownYarn(double metres) {
  return quantities::YarnLength(1000 * metres, quantities::Units::kMetric);
}

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_SLIPS_SLIP_RATIOS_H_
