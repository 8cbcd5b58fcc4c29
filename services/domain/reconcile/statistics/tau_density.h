// The posterior density of ln tau, up to a constant: closed form, because mu and the makers' thetas
// integrate out given tau. Pure; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_TAU_DENSITY_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_TAU_DENSITY_H_

#include <span>
#include <vector>

#include "services/domain/reconcile/statistics/agreement.h"

namespace rowproof::reconcile {

// The log ratios as the sums need them: variances with the least uncertainty applied, and y from a
// centre, so that close ratios lose no digits.
struct CentredRatios {
  explicit CentredRatios(std::span<const LogRatio> ratios);
  double centre = 0;
  std::vector<double> z;         // y - centre
  std::vector<double> variance;  // s^2
};

// Sums over the ratios with weights w = 1 / (s^2 + tau^2) at one tau. They are additive: taking a
// ratio's own terms away leaves the sums of the others.
struct TauSums {
  double w = 0;
  double wz = 0;
  double wzz = 0;
  double log_w = 0;
};
TauSums SumsAt(double tau, const CentredRatios& ratios);

struct TauPoint {
  double log_density = 0;  // of ln tau, but for a constant
  double mu_mean = 0;      // given tau
  double mu_variance = 0;
};
TauPoint PointAt(double log_tau, const TauSums& sums, double centre, const Prior& prior);

// The density at ln tau, with its sums.
TauPoint PointAt(double log_tau, const CentredRatios& ratios, const Prior& prior);

// Where the density of ln tau, or that density times tau^2 (moments are wanted too), is above e^-34
// of its maximum; from the lowest such place to the highest.
struct LogTauRange {
  double low = 0;
  double high = 0;
};
LogTauRange RangeOf(const CentredRatios& ratios, const Prior& prior);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_TAU_DENSITY_H_
