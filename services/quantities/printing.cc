#include "services/quantities/printing.h"

#include <cmath>
#include <cstdlib>
#include <string>

#include "fmt/format.h"
#include "services/quantities/units.h"

namespace rowproof::quantities {
namespace {

// A number that somebody typed has no more significant digits than this.
constexpr int kMostTypedDigits = 5;
constexpr double kTypedTolerance = 1e-9;  // of a conversion there and back

// Three significant digits, without an exponent and without trailing zeros after the point.
std::string Rounded(double value) {
  const double size = std::abs(value);
  if (size >= 100) return fmt::format("{:.0f}", value);
  return fmt::format("{:.3g}", value);
}

// To so many significant digits.
double RoundedTo(double value, int digits) {
  return std::strtod(fmt::format("{:.{}g}", value, digits).c_str(), nullptr);
}

// How many significant digits say a value in such units, to kTypedTolerance (with kAllDigits to the
// last bit, so that two values never read alike); kAllDigits if it was not typed like that.
int TypedDigits(double value, double unit, int digits) {
  const double tolerance = digits >= kAllDigits ? 0 : kTypedTolerance * std::abs(value);
  for (int typed = 1; typed <= kMostTypedDigits; ++typed) {
    const double rounded = RoundedTo(value / unit, typed);
    if (std::abs(rounded * unit - value) <= tolerance) return typed;
  }
  return kAllDigits;
}

// A unit of length, mass or count, as printed after a number.
struct Unit {
  double size = 1;  // in the unit in which values come
  std::string name;
};

// The system first in which the value is the rounder number, metric if both are alike.
std::string Both(double value, int digits, const Unit& metric, const Unit& us) {
  const int typed = TypedDigits(value, us.size, digits);
  if (typed < TypedDigits(value, metric.size, digits)) {
    return fmt::format("{} {} ({} {})", RoundedTo(value / us.size, typed), us.name,
                       Rounded(value / metric.size), metric.name);
  }
  return fmt::format("{} {} ({} {})", Number(value / metric.size, digits), metric.name,
                     Rounded(value / us.size), us.name);
}

}  // namespace

std::string Number(double value, int digits) {
  return digits >= kAllDigits ? fmt::format("{}", value) : fmt::format("{:.{}g}", value, digits);
}

std::string BothLengths(double mm, int digits) {
  const Unit inches{kMmPerInch, "in"};
  const double size = std::abs(mm);
  if (size < 100) return Both(mm, digits, {1, "mm"}, inches);
  if (size < 10'000) return Both(mm, digits, {10, "cm"}, inches);
  return Both(mm, digits, {1000, "m"}, {1000 * kMetresPerYard, "yd"});
}

std::string BothMasses(double g, int digits) {
  return Both(g, digits, {1, "g"}, {kGramsPerOunce, "oz"});
}

std::string BothGauges(double per_100mm, const char* unit, int digits) {
  const double in_4_in = 100 / kFourInchesMm;
  const int typed = TypedDigits(per_100mm, in_4_in, digits);
  if (typed < TypedDigits(per_100mm, 1, digits)) {
    return fmt::format("{} {} in 4 in ({} in 100 mm)", RoundedTo(per_100mm / in_4_in, typed), unit,
                       Rounded(per_100mm));
  }
  return fmt::format("{} {} in 100 mm ({} in 4 in)", Number(per_100mm, digits), unit,
                     Rounded(per_100mm / in_4_in));
}

}  // namespace rowproof::quantities
