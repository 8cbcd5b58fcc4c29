// The coefficients of all stitch paths as one vector, and how uncertain they are together.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_PATH_COVARIANCE_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_PATH_COVARIANCE_H_

#include <array>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "services/domain/estimate/stitch_path.h"

namespace rowproof::estimate {

// Coefficient 3k is path k's `across`, 3k + 1 its `up`, 3k + 2 its `diameters`, k a StitchKind.
inline constexpr size_t kPathCoefficients = 3 * kStitchKinds;
inline constexpr size_t kCovarianceNumbers = kPathCoefficients * (kPathCoefficients + 1) / 2;

using PathCoefficients = std::array<double, kPathCoefficients>;
PathCoefficients CoefficientsOf(const StitchPaths& paths);
StitchPaths PathsOf(const PathCoefficients& coefficients);

// The lower triangle, row by row: (0,0), (1,0), (1,1), (2,0) ...; kCovarianceNumbers of them.
using PathCovariance = std::vector<double>;
double CovarianceAt(const PathCovariance& covariance, size_t row, size_t column);
// Standard uncertainty of one coefficient.
double CoefficientUncertainty(const PathCovariance& covariance, size_t coefficient);

// How many stitches of each kind; not whole if a swatch has a share of the piece's kinds.
using StitchNumbers = std::array<double, kStitchKinds>;

struct FabricMm {
  double w_mm = 0;  // stitch pitch
  double h_mm = 0;  // row pitch
  double d_mm = 0;  // yarn diameter
  bool operator==(const FabricMm&) const = default;
};

// d length / d coefficient: stitches of its kind times w, h or d.
PathCoefficients Sensitivities(const StitchNumbers& stitches, const FabricMm& fabric);
double StitchesMm(const StitchPaths& paths, const StitchNumbers& stitches, const FabricMm& fabric);
// Of that length, from its coefficients alone (JCGM 100:2008 5.2.2, correlated inputs).
double StitchesUncertaintyMm(const PathCovariance& covariance, const StitchNumbers& stitches,
                             const FabricMm& fabric);

// INVALID_ARGUMENT for `field` if there are not kCovarianceNumbers, one is not finite, a
// variance is below 0 or over 400, or two coefficients are correlated by more than 1.
absl::Status ValidateCovariance(const PathCovariance& covariance, const std::string& field);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_PATH_COVARIANCE_H_
