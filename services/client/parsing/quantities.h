// Quantities with their units, as people type them. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_PARSING_QUANTITIES_H_
#define ROWPROOF_SERVICES_CLIENT_PARSING_QUANTITIES_H_

#include <string>
#include <string_view>

namespace rowproof::client {

// "12.5 cm", "4in", "1/2 yd" in mm; units as in the forms. Throws Failure (refused) that names the
// option if there is no number or no such unit: nothing is guessed.
double LengthMm(const std::string& option, std::string_view text);
// "50 g", "3.5oz", "0.2 kg" in g.
double MassG(const std::string& option, std::string_view text);
// "125 m / 50 g", "210yd/100g": a length and a mass of one ball.
struct BallBand {
  double length_m = 0;
  double mass_g = 0;
};
BallBand BallOf(const std::string& option, std::string_view text);
// A finite number without a unit.
double NumberOf(const std::string& option, std::string_view text);
int CountOf(const std::string& option, std::string_view text);

// Without blanks at its ends.
std::string_view Trimmed(std::string_view text);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_PARSING_QUANTITIES_H_
