#include "services/domain/reconcile/statistics/normal_mixture.h"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <utility>

#include "services/domain/check.h"
#include "services/domain/reconcile/statistics/distributions.h"

namespace rowproof::reconcile {
namespace {

// Probability of a component on one side of x: `sign` 1 for below, -1 for above.
double Side(double x, double mean, double sd, double sign) {
  const double distance = sign * (x - mean);
  if (sd > 0) return NormalCdf(distance / sd);
  return distance >= 0 ? 1.0 : 0.0;
}

double Density(const NormalMixture& mixture, double x) {
  double density = 0;
  for (size_t i = 0; i < mixture.weight.size(); ++i) {
    if (mixture.sd[i] <= 0) continue;
    const double z = (x - mixture.mean[i]) / mixture.sd[i];
    density += mixture.weight[i] * std::exp(-0.5 * z * z) / mixture.sd[i];
  }
  return density / std::sqrt(2 * std::numbers::pi);
}

}  // namespace

double NormalMixture::Mean() const {
  double sum = 0;
  for (size_t i = 0; i < weight.size(); ++i) sum += weight[i] * mean[i];
  return sum;
}

double NormalMixture::Sd() const {
  const double centre = Mean();
  double variance = 0;
  for (size_t i = 0; i < weight.size(); ++i) {
    const double distance = mean[i] - centre;
    variance += weight[i] * (sd[i] * sd[i] + distance * distance);
  }
  return std::sqrt(variance);
}

double NormalMixture::Cdf(double x) const {
  double sum = 0;
  for (size_t i = 0; i < weight.size(); ++i) sum += weight[i] * Side(x, mean[i], sd[i], 1);
  return std::min(sum, 1.0);
}

double NormalMixture::Survival(double x) const {
  double sum = 0;
  for (size_t i = 0; i < weight.size(); ++i) sum += weight[i] * Side(x, mean[i], sd[i], -1);
  return std::min(sum, 1.0);
}

double NormalMixture::Quantile(double p) const {
  ROWPROOF_CHECK(p > 0 && p < 1 && !weight.empty());
  const double z = NormalQuantile(p);
  // The mixture's quantile is between the smallest and the largest of its components' quantiles.
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (size_t i = 0; i < weight.size(); ++i) {
    if (weight[i] <= 0) continue;
    low = std::min(low, mean[i] + z * sd[i]);
    high = std::max(high, mean[i] + z * sd[i]);
  }
  const double centre = Mean();
  const double spread = Sd();
  if (!(high > low) || !(spread > 0)) return low;
  // In spreads from a place that lies at least one spread below the quantile (Cantelli's
  // inequality), so that a relative tolerance is one of the spread.
  const double start = centre - spread * (1 + std::sqrt(std::max(p / (1 - p), (1 - p) / p)));
  // In the upper tail the survival function keeps the digits.
  const auto excess_and_slope = [&](double u) {
    const double x = start + spread * u;
    const double excess = p <= 0.5 ? Cdf(x) - p : (1 - p) - Survival(x);
    return std::pair(excess, std::max(spread * Density(*this, x), 1e-300));
  };
  constexpr int kBits = 44;  // 1e-13
  std::uintmax_t most_steps = 200;
  const double u = boost::math::tools::newton_raphson_iterate(
      excess_and_slope, (std::clamp(centre + z * spread, low, high) - start) / spread,
      (low - start) / spread, (high - start) / spread, kBits, most_steps);
  return start + spread * u;
}

NormalMixture NormalMixture::WithError(double error_sd) const {
  NormalMixture sum = *this;
  for (double& one : sum.sd) one = std::hypot(one, error_sd);
  return sum;
}

}  // namespace rowproof::reconcile
