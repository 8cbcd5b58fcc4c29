#include "services/domain/estimate/calibration/regression.h"

#include <Eigen/Dense>
#include <cmath>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::estimate {
namespace {

using Matrix = Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic>;
using Vector = Eigen::Matrix<long double, Eigen::Dynamic, 1>;

constexpr long double kLeastPivot = 1e-12L;  // of the largest

struct System {
  Matrix factors;  // each row over its sd
  Vector observed;
};

struct Solution {
  Vector coefficients;
  Matrix cofactor;  // (A'A)^-1
};

absl::Status CheckRow(const RegressionRow& row, size_t index, size_t coefficients) {
  const std::string field = fmt::format("observations[{}]", index);
  if (row.factors.size() != coefficients) {
    return InvalidField(field, fmt::format("{} factors", row.factors.size()),
                        fmt::format("{} factors, like the others", coefficients));
  }
  bool finite = std::isfinite(row.observed);
  for (const double factor : row.factors) finite = finite && std::isfinite(factor);
  if (!finite) return InvalidField(field, "NaN or infinity", "finite numbers");
  if (!(row.sd > 0 && std::isfinite(row.sd))) {
    return InvalidField(field + ".sd", fmt::format("{:g}", row.sd), "a finite number above 0");
  }
  return absl::OkStatus();
}

absl::Status CheckRows(std::span<const RegressionRow> rows, size_t coefficients) {
  if (rows.size() > kMostRegressionRows) {
    return InvalidField("observations", fmt::format("{}", rows.size()),
                        fmt::format("at most {} in number", kMostRegressionRows));
  }
  if (coefficients < 1 || coefficients > kMostCoefficients) {
    return InvalidField("observations", fmt::format("{} coefficients", coefficients),
                        fmt::format("1 to {} coefficients", kMostCoefficients));
  }
  for (size_t i = 0; i < rows.size(); ++i) {
    RETURN_IF_ERROR(CheckRow(rows[i], i, coefficients));
  }
  return absl::OkStatus();
}

// Leaves room for `more` rows of zeros.
System SystemOf(std::span<const RegressionRow> rows, size_t coefficients, size_t more) {
  const auto count = static_cast<Eigen::Index>(rows.size() + more);
  System system = {Matrix::Zero(count, static_cast<Eigen::Index>(coefficients)),
                   Vector::Zero(count)};
  for (size_t i = 0; i < rows.size(); ++i) {
    const auto at = static_cast<Eigen::Index>(i);
    const long double sd = rows[i].sd;
    for (size_t k = 0; k < coefficients; ++k) {
      system.factors(at, static_cast<Eigen::Index>(k)) = rows[i].factors[k] / sd;
    }
    system.observed(at) = rows[i].observed / sd;
  }
  return system;
}

absl::StatusOr<Solution> Solve(const System& system) {
  const Eigen::Index count = system.factors.cols();
  const auto undetermined = [] {
    return InvalidField("observations", "columns that depend on each other",
                        "enough to determine every coefficient");
  };
  const Vector lengths = system.factors.colwise().norm();
  if (system.factors.rows() < count || lengths.minCoeff() <= 0) return undetermined();
  const Vector scale = lengths.cwiseInverse();
  Eigen::ColPivHouseholderQR<Matrix> qr(system.factors.rows(), count);
  qr.setThreshold(kLeastPivot);
  qr.compute(system.factors * scale.asDiagonal());
  if (qr.rank() < count) return undetermined();
  Solution solution;
  solution.coefficients = scale.asDiagonal() * qr.solve(system.observed);
  const Matrix inverse = qr.matrixR()
                             .topLeftCorner(count, count)
                             .triangularView<Eigen::Upper>()
                             .solve(Matrix::Identity(count, count));
  const Matrix root = scale.asDiagonal() * (qr.colsPermutation() * inverse);
  solution.cofactor = root * root.transpose();
  return solution;
}

void Keep(const Solution& solution, LinearFit& fit) {
  const Eigen::Index count = solution.coefficients.size();
  for (Eigen::Index i = 0; i < count; ++i) {
    fit.coefficients.push_back(static_cast<double>(solution.coefficients(i)));
    for (Eigen::Index k = 0; k < count; ++k) {
      fit.covariance.push_back(static_cast<double>(solution.cofactor(i, k)));
    }
  }
}

}  // namespace

double LinearFit::standard_error(size_t i) const {
  return std::sqrt(covariance[i * coefficients.size() + i]);
}

absl::StatusOr<LinearFit> BayesianRegression(std::span<const RegressionRow> rows,
                                             std::span<const NormalPrior> priors) {
  RETURN_IF_ERROR(CheckRows(rows, priors.size()));
  System system = SystemOf(rows, priors.size(), priors.size());
  for (size_t k = 0; k < priors.size(); ++k) {
    const NormalPrior& prior = priors[k];
    if (!std::isfinite(prior.mean) || !(prior.sd > 0)) {
      return InvalidField(fmt::format("prior[{}]", k),
                          fmt::format("mean {:g}, sd {:g}", prior.mean, prior.sd),
                          "a finite mean and an sd above 0, which may be infinite");
    }
    if (std::isinf(prior.sd)) continue;  // a row of zeros says nothing
    const auto at = static_cast<Eigen::Index>(rows.size() + k);
    const long double sd = prior.sd;
    system.factors(at, static_cast<Eigen::Index>(k)) = 1 / sd;
    system.observed(at) = prior.mean / sd;
  }
  ASSIGN_OR_RETURN(auto solution, Solve(system));
  LinearFit fit;
  Keep(solution, fit);
  return fit;
}

}  // namespace rowproof::estimate
