// Bayesian linear regression with independent normal priors and a normal likelihood of known
// variances; with flat priors it is least squares. Solved by QR with column pivoting (Golub and
// Van Loan, Matrix Computations, 5.4; Gelman et al., Bayesian Data Analysis, 14.8: a prior is one
// more row). Columns are scaled to length 1, and the numbers are long double, so that ill-
// conditioned data lose no digits of a double if long double is wider (x86). Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_REGRESSION_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_REGRESSION_H_

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "absl/status/statusor.h"

namespace rowproof::estimate {

inline constexpr size_t kMostRegressionRows = 10'000;
inline constexpr size_t kMostCoefficients = 50;

// observed = sum of factors[i] * coefficient i, with an error of standard deviation `sd`.
struct RegressionRow {
  std::vector<double> factors;
  double observed = 0;
  double sd = 1;  // > 0
};

struct LinearFit {
  std::vector<double> coefficients;
  // Row by row, coefficients.size() squared.
  std::vector<double> covariance;
  double standard_error(size_t i) const;
};

// Of one coefficient; flat with an infinite sd.
struct NormalPrior {
  double mean = 0;
  double sd = std::numeric_limits<double>::infinity();
};

// The posterior's mean and covariance: with flat priors the least-squares solution and (X'WX)^-1.
// INVALID_ARGUMENT with "observations": rows of different length, a value not finite, an sd not
// above zero, over a limit, or rows and priors that do not determine every coefficient (columns
// that depend on each other, to 1e-12); with "prior" for a prior that is not a number or has no sd
// above zero.
absl::StatusOr<LinearFit> BayesianRegression(std::span<const RegressionRow> rows,
                                             std::span<const NormalPrior> priors);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_REGRESSION_H_
