#include "services/client/tables/measures.h"

#include <cmath>

#include "fmt/format.h"

namespace rowproof::client {
double Yards(double mm) { return mm / kMmPerYard; }

std::string OneDecimal(double value) { return fmt::format("{:.1f}", value); }

std::string YarnLength(double mm) {
  return fmt::format("{:.1f} m ({:.1f} yd)", mm / 1000, Yards(mm));
}

std::string Extent(double mm) {
  return fmt::format("{:.1f} cm ({:.1f} in)", mm / 10, mm / kMmPerInch);
}

std::string Mass(double g) { return fmt::format("{:.0f} g ({:.1f} oz)", g, g / kGramsPerOunce); }

std::string WorkingTime(double minutes) {
  const long long whole = std::llround(minutes);
  return fmt::format("{} h {:02} min", whole / 60, whole % 60);
}

}  // namespace rowproof::client
