#include "services/domain/patterns/both_units.h"

#include <cmath>

#include "fmt/format.h"
#include "services/domain/estimate/units.h"

namespace rowproof::patterns {
namespace {

// Three significant digits, without an exponent and without trailing zeros after the point.
std::string Us(double value) {
  const double size = std::abs(value);
  if (size >= 100) return fmt::format("{:.0f}", value);
  return fmt::format("{:.3g}", value);
}

}  // namespace

std::string Number(double value, int digits) {
  return digits >= kAllDigits ? fmt::format("{}", value) : fmt::format("{:.{}g}", value, digits);
}

std::string BothLengths(double mm, int digits) {
  const double size = std::abs(mm);
  if (size < 100) {
    return fmt::format("{} mm ({} in)", Number(mm, digits), Us(mm / estimate::kMmPerInch));
  }
  if (size < 10'000) {
    return fmt::format("{} cm ({} in)", Number(mm / 10, digits), Us(mm / estimate::kMmPerInch));
  }
  const double metres = mm / 1000;
  return fmt::format("{} m ({} yd)", Number(metres, digits), Us(metres / estimate::kMetresPerYard));
}

std::string BothMasses(double g, int digits) {
  return fmt::format("{} g ({} oz)", Number(g, digits), Us(g / estimate::kGramsPerOunce));
}

std::string BothGauges(double per_100mm, const char* unit, int digits) {
  return fmt::format("{} {} in 100 mm ({} in 4 in)", Number(per_100mm, digits), unit,
                     Us(per_100mm * estimate::kFourInchesMm / 100));
}

}  // namespace rowproof::patterns
