#include "services/domain/estimate/calibration/path_covariance.h"

#include <algorithm>
#include <cmath>

#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof::estimate {

PathCoefficients CoefficientsOf(const StitchPaths& paths) {
  PathCoefficients coefficients = {};
  for (size_t k = 0; k < kStitchKinds; ++k) {
    coefficients[3 * k] = paths[k].across;
    coefficients[3 * k + 1] = paths[k].up;
    coefficients[3 * k + 2] = paths[k].diameters;
  }
  return coefficients;
}

StitchPaths PathsOf(const PathCoefficients& coefficients) {
  StitchPaths paths;
  for (size_t k = 0; k < kStitchKinds; ++k) {
    paths[k] = {coefficients[3 * k], coefficients[3 * k + 1], coefficients[3 * k + 2]};
  }
  return paths;
}

double CovarianceAt(const PathCovariance& covariance, size_t row, size_t column) {
  if (column > row) std::swap(row, column);
  return covariance[row * (row + 1) / 2 + column];
}

double CoefficientUncertainty(const PathCovariance& covariance, size_t coefficient) {
  return std::sqrt(std::max(0.0, CovarianceAt(covariance, coefficient, coefficient)));
}

PathCoefficients Sensitivities(const StitchNumbers& stitches, const FabricMm& fabric) {
  PathCoefficients sensitivities = {};
  for (size_t k = 0; k < kStitchKinds; ++k) {
    sensitivities[3 * k] = stitches[k] * fabric.w_mm;
    sensitivities[3 * k + 1] = stitches[k] * fabric.h_mm;
    sensitivities[3 * k + 2] = stitches[k] * fabric.d_mm;
  }
  return sensitivities;
}

double StitchesMm(const StitchPaths& paths, const StitchNumbers& stitches, const FabricMm& fabric) {
  double length_mm = 0;
  for (size_t k = 0; k < kStitchKinds; ++k) {
    length_mm += stitches[k] * PathLengthMm(paths[k], fabric.w_mm, fabric.h_mm, fabric.d_mm);
  }
  return length_mm;
}

double StitchesUncertaintyMm(const PathCovariance& covariance, const StitchNumbers& stitches,
                             const FabricMm& fabric) {
  const PathCoefficients sensitivities = Sensitivities(stitches, fabric);
  double variance = 0;
  for (size_t i = 0; i < kPathCoefficients; ++i) {
    for (size_t k = 0; k < kPathCoefficients; ++k) {
      variance += sensitivities[i] * sensitivities[k] * CovarianceAt(covariance, i, k);
    }
  }
  return std::sqrt(std::max(0.0, variance));
}

absl::Status ValidateCovariance(const PathCovariance& covariance, const std::string& field) {
  if (covariance.size() != kCovarianceNumbers) {
    return InvalidField(field, fmt::format("{} numbers", covariance.size()),
                        fmt::format("a lower triangle of {} numbers", kCovarianceNumbers));
  }
  constexpr double kMostVariance = 400;  // the square of the largest coefficient
  for (size_t i = 0; i < kPathCoefficients; ++i) {
    const double variance = CovarianceAt(covariance, i, i);
    if (!(variance >= 0 && variance <= kMostVariance)) {
      return InvalidField(field, fmt::format("a variance of {:g}", variance),
                          "variances from 0 to 400");
    }
    for (size_t k = 0; k < i; ++k) {
      const double together = CovarianceAt(covariance, i, k);
      const double most = std::sqrt(variance * CovarianceAt(covariance, k, k));
      if (!(std::abs(together) <= most * (1 + 1e-9))) {
        return InvalidField(
            field, fmt::format("a covariance of {:g}", together),
            fmt::format("a covariance: at most {:g} between these two variances", most));
      }
    }
  }
  return absl::OkStatus();
}

}  // namespace rowproof::estimate
