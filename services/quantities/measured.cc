#include "services/quantities/measured.h"

#include <algorithm>
#include <cmath>

#include "fmt/format.h"
#include "services/quantities/units.h"

namespace rowproof::quantities {
namespace {

// The step to which a value is rounded.
double StepOf(double value, double uncertainty) {
  const double size = std::abs(value);
  if (!(uncertainty > 0)) {
    return size > 0 ? std::pow(10, std::floor(std::log10(size)) - 2) : 1;
  }
  const double least = uncertainty / 2 * (1 - 1e-9);
  const double power = std::pow(10, std::floor(std::log10(least)));
  for (const double factor : {1.0, 2.0, 5.0}) {
    if (factor * power >= least) return factor * power;
  }
  return 10 * power;
}

// Without zeros at the end that say nothing.
std::string InSteps(double value, double step) {
  const int decimals = std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9)));
  std::string text = fmt::format("{:.{}f}", std::round(value / step) * step, std::min(decimals, 6));
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

// "VALUE UNIT (OTHER UNIT)".
std::string Both(const std::string& metric, const std::string& imperial, Units units) {
  const bool metric_first = units == Units::kMetric;
  return fmt::format("{} ({})", metric_first ? metric : imperial, metric_first ? imperial : metric);
}

}  // namespace

double Yards(double mm) { return mm / kMmPerYard; }

std::string OneDecimal(double value) { return fmt::format("{:.1f}", value); }

std::string Rounded(double value, double uncertainty) {
  return InSteps(value, StepOf(value, uncertainty));
}

std::string YarnLength(double mm, Units units, double uncertainty_mm) {
  return Both(Rounded(mm / 1000, uncertainty_mm / 1000) + " m",
              Rounded(Yards(mm), Yards(uncertainty_mm)) + " yd", units);
}

std::string Extent(double mm, Units units, double uncertainty_mm) {
  return Both(Rounded(mm / 10, uncertainty_mm / 10) + " cm",
              Rounded(mm / kMmPerInch, uncertainty_mm / kMmPerInch) + " in", units);
}

std::string WidthAndHeight(double width_mm, double height_mm, Units units, double uncertainty_mm) {
  const auto pair = [&](double mm_per_unit, const char* unit) {
    return fmt::format("{} x {} {}", Rounded(width_mm / mm_per_unit, uncertainty_mm / mm_per_unit),
                       Rounded(height_mm / mm_per_unit, uncertainty_mm / mm_per_unit), unit);
  };
  return Both(pair(10, "cm"), pair(kMmPerInch, "in"), units);
}

std::string SmallLength(double mm, Units units) {
  return Both(fmt::format("{:.1f} mm", mm), fmt::format("{:.2f} in", mm / kMmPerInch), units);
}

std::string Mass(double g, Units units) {
  return Both(fmt::format("{:.0f} g", g), fmt::format("{:.1f} oz", g / kGramsPerOunce), units);
}

std::string YarnRange(double low_mm, double high_mm, Units units, double uncertainty_mm) {
  const double mm_per_unit = units == Units::kMetric ? 1000 : kMmPerYard;
  return fmt::format("{}-{} {}", Rounded(low_mm / mm_per_unit, uncertainty_mm / mm_per_unit),
                     Rounded(high_mm / mm_per_unit, uncertainty_mm / mm_per_unit),
                     units == Units::kMetric ? "m" : "yd");
}

std::string WorkingTime(double minutes) {
  if (minutes < 57.5) return fmt::format("{} min", std::max(5L, 5 * std::lround(minutes / 5)));
  if (minutes >= 20 * 60) return fmt::format("{} h", std::lround(minutes / 60));
  const long halves = std::lround(minutes / 30);
  return fmt::format("{}{} h", halves / 2, halves % 2 == 1 ? " 1/2" : "");
}

std::string StatedTime(double minutes) {
  const long whole = std::lround(minutes);
  if (whole < 60) return fmt::format("{} min", whole);
  return whole % 60 == 0 ? fmt::format("{} h", whole / 60)
                         : fmt::format("{} h {} min", whole / 60, whole % 60);
}

}  // namespace rowproof::quantities
