// Calibration: yarn that was measured corrects the coefficients of the stitch paths, by Bayesian
// linear regression (regression.h). A coefficient is its prior mean times 1 + s + e, with a shared
// deviation s (every length alike) and one of its own e, both normal about 0 and independent; a
// measured length is linear in all of them. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_CALIBRATION_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_CALIBRATION_H_

#include <optional>
#include <span>
#include <string>

#include "absl/status/statusor.h"
#include "services/domain/estimate/calibration/observations.h"
#include "services/domain/estimate/calibration/path_covariance.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::estimate {

inline constexpr size_t kMostObservations = 200;
// A measured length may be this much of the predicted one, or as much less: beyond, it is a slip
// (inches for centimetres, yarn left for yarn used).
inline constexpr double kMostOfPrediction = 2.5;

// Relative standard deviations before anything was measured (assumptions).
struct CalibrationPrior {
  StitchPaths paths = kPriorPaths;
  double shared = 0.12;
  double own = 0.05;
  double own_of_drops = 0.15;  // of ssc and both dc
  bool operator==(const CalibrationPrior&) const = default;
};

// What came out, with what went in.
struct Calibration {
  StitchPaths paths = kPriorPaths;
  PathCovariance covariance;  // of the coefficients
  int observation_count = 0;
  // Of the observations; w = 5, h = 4, d = 2 mm without any.
  FabricMm mean_fabric;
  // Standard deviation of a stitch's length relative to it, in that fabric, before and after.
  std::array<double, kStitchKinds> relative_before = {};
  std::array<double, kStitchKinds> relative_after = {};
  bool operator==(const Calibration&) const = default;
};

// The posterior; the prior if there are no observations. Observations count as independent: of
// one swatch measured twice, give the mean. INVALID_ARGUMENT with "observations[i].length_mm" for
// one outside kMostOfPrediction, "observations" for too many or a coefficient driven below 0, and
// "prior" for a deviation not above 0 or over 1.
absl::StatusOr<Calibration> Calibrate(std::span<const CalibrationObservation> observations,
                                      const CalibrationPrior& prior = {});

// Makes the materials' estimate use the calibration and name it ("calibrations/x/revisions/2", or
// any text; kLongestCalibrationName bytes at most). A scope that does not fit shows as a note.
void Use(const Calibration& calibration, const std::string& name,
         const std::optional<CalibrationScope>& scope, Materials& materials);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_CALIBRATION_H_
