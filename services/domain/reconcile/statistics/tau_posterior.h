// The posterior of tau, and of mu given tau, on a grid: the numerical part of Agree. Pure;
// thread-safe. Values are immutable once made.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_TAU_POSTERIOR_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_TAU_POSTERIOR_H_

#include <cstddef>
#include <span>
#include <vector>

#include "services/domain/reconcile/statistics/agreement.h"
#include "services/domain/reconcile/statistics/normal_mixture.h"
#include "services/domain/reconcile/statistics/tau_density.h"

namespace rowproof::reconcile {

// Nodes equally spaced in ln tau over all but e^-34 of the posterior. There the trapezoidal rule
// converges geometrically (Trefethen and Weideman 2014); the step is halved until the rule and the
// midpoint rule agree to 1e-10.
struct TauPosterior {
  double first_log_tau = 0;
  double step = 0;
  std::vector<double> tau;
  std::vector<double> log_density;  // of ln tau, greatest 0
  std::vector<double> probability;  // weight of each node, sum 1
  std::vector<double> mu_mean;
  std::vector<double> mu_variance;

  double last_log_tau() const { return first_log_tau + step * static_cast<double>(tau.size() - 1); }
  double Mean() const;
  double Sd() const;
  // Quantiles of tau for ascending probabilities in (0, 1), to about 1e-5 of themselves (the
  // density is interpolated between nodes).
  std::vector<double> Quantiles(std::span<const double> ascending) const;
  NormalMixture Mu() const;
  // Of a new maker's ln ratio, without measuring error.
  NormalMixture NewMaker() const;
};

// Any number of ratios, but kFewestForFlatPrior at least for a flat prior (CHECK).
TauPosterior IntegrateTau(const CentredRatios& ratios, const Prior& prior);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_TAU_POSTERIOR_H_
