// The classical (frequentist) random-effects summary that is reported with the posterior. Pure;
// thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_CLASSICAL_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_CLASSICAL_H_

#include <optional>
#include <span>

namespace rowproof::reconcile {

struct Interval {
  double low = 0;
  double high = 0;
  bool operator==(const Interval&) const = default;
};

struct Classical {
  int reports = 0;
  double confidence = 0.95;
  double q = 0;          // Cochran's Q, weights 1/s_i^2
  double tau2_dl = 0;    // DerSimonian and Laird 1986, not below 0
  double tau2_reml = 0;  // restricted maximum likelihood, not below 0
  // With weights 1/(s_i^2 + tau2_reml).
  double mu = 0;
  double mu_se = 0;
  double hk_se = 0;          // Hartung and Knapp 2001, not truncated
  Interval hk;               // mu -+ t(reports - 1) * hk_se
  double predictive_sd = 0;  // sqrt(tau2_reml + mu_se^2)
  // For a new maker: mu -+ t(reports - 2) * predictive_sd (Higgins, Thompson and Spiegelhalter
  // 2009); none below three reports.
  std::optional<Interval> prediction;
};

// `y` and standard errors `s` > 0, of one length of at least 2, all finite (CHECK); 0 < confidence
// < 1.
Classical Pool(std::span<const double> y, std::span<const double> s, double confidence = 0.95);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_CLASSICAL_H_
