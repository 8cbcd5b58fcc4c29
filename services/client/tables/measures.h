// Quantities as people read them: metric first, US units in brackets. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_MEASURES_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_MEASURES_H_

#include <string>

namespace rowproof::client {

// Exact by definition (international yard and pound agreement, 1959).
inline constexpr double kMmPerYard = 914.4;
inline constexpr double kMmPerInch = 25.4;
inline constexpr double kGramsPerOunce = 28.349523125;

// "12.3 m (13.5 yd)".
std::string YarnLength(double mm);
// "45.2 cm (17.8 in)".
std::string Extent(double mm);
// "52 g (1.8 oz)".
std::string Mass(double g);
// "3 h 05 min".
std::string WorkingTime(double minutes);
// "12.3".
std::string OneDecimal(double value);
double Yards(double mm);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_MEASURES_H_
