#include "services/domain/estimate/purchase.h"

#include <cmath>

#include "services/quantities/units.h"

namespace rowproof::estimate {
namespace {

// Guards a quotient that is whole but for rounding against one step too many.
constexpr double kRounding = 1e-9;
constexpr double kPublishedStep = 5;  // m, and yd

double Ceiling(double value) { return std::ceil(value - kRounding); }
double RoundedUp(double value, double step) { return step * Ceiling(value / step); }

}  // namespace

int64_t JoinCount(double length_mm, double ball_mm, double tail_mm) {
  // n balls hold the length and the two tails of each ball after the first.
  const double balls = Ceiling((length_mm - 2 * tail_mm) / (ball_mm - 2 * tail_mm));
  return balls <= 1 ? 0 : static_cast<int64_t>(balls) - 1;
}

bool Publish(const Yarn& yarn, const Materials& materials, ColourEstimate& colour) {
  const double spread = materials.assumptions.maker_relative_spread * colour.length_mm;
  const double parts[] = {colour.length_uncertainty_mm, spread};
  colour.upper_length_mm =
      LogNormalUpperBound(colour.length_mm, Combined(parts), materials.assurance);
  const double metres = RoundedUp(colour.upper_length_mm / 1000, kPublishedStep);
  const double yards =
      RoundedUp(colour.upper_length_mm / 1000 / quantities::kMetresPerYard, kPublishedStep);
  if (yards > kMostPublished) return false;
  colour.published_length_m = static_cast<int>(metres);
  colour.published_length_yd = static_cast<int>(yards);
  if (const std::optional<double> tex = TexOf(yarn); tex.has_value()) {
    const double grams = Ceiling(quantities::MassG(metres * 1000, *tex));
    if (grams > kMostPublished) return false;
    colour.published_mass_g = static_cast<int>(grams);
  }
  if (!yarn.ball_length_m.has_value()) return true;
  const double balls = Ceiling(metres / *yarn.ball_length_m);
  if (balls > kMostPublished) return false;
  colour.balls = static_cast<int>(balls);
  colour.left_over_m = balls * *yarn.ball_length_m - colour.length_mm / 1000;
  return true;
}

}  // namespace rowproof::estimate
