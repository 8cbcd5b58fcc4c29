// Quantities as people read them: metric first, US units in brackets. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_MEASURES_H_
#define ROWPROOF_SERVICES_CLIENT_MEASURES_H_

#include <string>

namespace rowproof::client {

// "12.3 m (13.5 yd)". 1 yd is 0.9144 m exactly (international yard and pound agreement, 1959).
std::string YarnLength(double mm);
// "45.2 cm (17.8 in)". 1 in is 25.4 mm exactly.
std::string Extent(double mm);
// "52 g (1.8 oz)". 1 oz is 28.349523125 g exactly.
std::string Mass(double g);
// "3 h 05 min".
std::string WorkingTime(double minutes);
// "12.3".
std::string OneDecimal(double value);
double Yards(double mm);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_MEASURES_H_
