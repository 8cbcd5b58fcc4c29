// Linear regression: least squares, and its Bayesian form with independent normal priors and a
// normal likelihood of known variances. Both solve one system by QR with column pivoting (Golub and
// Van Loan, Matrix Computations, 5.4; Gelman et al., Bayesian Data Analysis, 14.8: a prior is one
// more row). Columns are scaled to length 1, and the numbers are long double, so that ill-
// conditioned data lose no digits of a double where long double is wider (x86). Thread-safe.
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
  double sd = 1;  // > 0; for LeastSquares only the ratios count
};

struct LinearFit {
  std::vector<double> coefficients;
  // Row by row, coefficients.size() squared.
  std::vector<double> covariance;
  double standard_error(size_t i) const;
};

struct LeastSquaresFit : LinearFit {
  // Root of the weighted residual sum of squares over the degrees of freedom.
  double residual_sd = 0;
  // 1 - residuals' / observations' sum of squares; the latter about their mean or about 0, as was
  // asked. 1 where the observations do not vary.
  double r_squared = 0;
  int degrees_of_freedom = 0;
};

enum class SquaresAbout : uint8_t { kMean, kZero };  // of R^2: with an intercept, without

// The covariance is residual_sd^2 (X'WX)^-1. INVALID_ARGUMENT with "observations": no more rows
// than coefficients, rows of different length, a value not finite, an sd not above zero, over a
// limit, or columns that depend on each other (to 1e-12).
absl::StatusOr<LeastSquaresFit> LeastSquares(std::span<const RegressionRow> rows,
                                             SquaresAbout about);

// Of one coefficient; flat with an infinite sd.
struct NormalPrior {
  double mean = 0;
  double sd = std::numeric_limits<double>::infinity();
};

// The posterior's mean and covariance. With flat priors the mean is LeastSquares' and the
// covariance (X'WX)^-1. INVALID_ARGUMENT as above, but that rows may be few (or none) where priors
// make up for them; with "prior" for a prior that is not a number or has no sd above zero.
absl::StatusOr<LinearFit> BayesianRegression(std::span<const RegressionRow> rows,
                                             std::span<const NormalPrior> priors);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_REGRESSION_H_
