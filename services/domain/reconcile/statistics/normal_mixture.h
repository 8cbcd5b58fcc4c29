// A finite mixture of normal distributions: what is known about a quantity once tau has been
// integrated out numerically. Immutable values; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_NORMAL_MIXTURE_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_NORMAL_MIXTURE_H_

#include <vector>

namespace rowproof::reconcile {

struct NormalMixture {
  // One entry a component; weights are not negative and add up to 1, sd >= 0.
  std::vector<double> weight;
  std::vector<double> mean;
  std::vector<double> sd;

  double Mean() const;
  double Sd() const;
  // Probability of a value up to x, and of one above x (without cancellation).
  double Cdf(double x) const;
  double Survival(double x) const;
  // The x with Cdf(x) = p, 0 < p < 1, to about 1e-12 of the mixture's spread.
  double Quantile(double p) const;
  // The mixture with an independent normal error of that standard deviation added.
  NormalMixture WithError(double error_sd) const;
};

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_NORMAL_MIXTURE_H_
