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
#include "services/domain/chart/design.h"
#include "services/domain/estimate/calibration/path_covariance.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::estimate {

inline constexpr size_t kMostObservations = 200;
inline constexpr double kMostStitches = 1e8;  // of one kind in one observation
// A measured length may be this much of the predicted one, or as much less: beyond, it is a slip
// (inches for centimetres, yarn left for yarn used).
inline constexpr double kMostOfPrediction = 2.5;

// Relative standard deviations of a measured length that no measuring explains: from swatch to
// swatch of the same hands, and from maker to maker (assumptions).
inline constexpr double kOwnHandsSpread = 0.02;
inline constexpr double kOtherHandsSpread = 0.10;

// Relative standard deviations before anything was measured (assumptions).
struct CalibrationPrior {
  StitchPaths paths = kPriorPaths;
  double shared = 0.12;
  double own = 0.05;
  double own_of_drops = 0.15;  // of ssc and both dc
  bool operator==(const CalibrationPrior&) const = default;
};

// One measured length of one yarn, ready for the regression.
struct CalibrationObservation {
  StitchNumbers stitches = {};
  FabricMm fabric;
  double beside_mm = 0;  // what is not stitches: tails, row starts, carried strand
  double length_mm = 0;  // measured, with all that
  // Of measuring: the length, and what gauge and yarn diameter leave open of the prediction.
  double uncertainty_mm = 0;
  double relative_spread = kOwnHandsSpread;
  bool operator==(const CalibrationObservation&) const = default;
};

// Stitches of known kinds, counted; yarn without its tails unless `tails_mm` says how long they
// were together.
struct UnravelledSwatch {
  StitchNumbers stitches = {};
  int row_starts = 0;  // slip knots or ch 1, 3 stitch pitches each
  double tails_mm = 0;
  Gauge gauge;  // of the swatch
  Yarn yarn;
  double length_mm = 0;
  double scale_step_mm = 1;
  double relative_spread = kOwnHandsSpread;
};

// The same, weighed whole. The yarn needs its linear density: band, tex, or a weight class with the
// uncertainty that this brings.
struct WeighedSwatch {
  StitchNumbers stitches = {};
  int row_starts = 0;
  double tails_mm = 0;
  Gauge gauge;
  Yarn yarn;
  double mass_g = 0;
  double scale_step_g = 1;
  double relative_spread = kOwnHandsSpread;
};

// One yarn of a piece made of a design, worked to `last_row` (0: to the end). `materials` gives
// gauge, yarn, ends, border, fringe and, if the yarn used includes it, the swatch.
struct WholePiece {
  int size = 0;  // index into design.sizes
  int last_row = 0;
  YarnColour colour = YarnColour::kA;
  double length_mm = 0;  // one of both
  double mass_g = 0;
  double scale_step = 1;  // mm or g
  double relative_spread = kOtherHandsSpread;
};

// INVALID_ARGUMENT with the field's path within the structure: a count, length, mass or step that
// is not finite or out of range, no stitches, a mass without linear density, or nothing left for
// the stitches.
absl::StatusOr<CalibrationObservation> ObservationOf(const UnravelledSwatch& swatch);
absl::StatusOr<CalibrationObservation> ObservationOf(const WeighedSwatch& swatch);
absl::StatusOr<CalibrationObservation> ObservationOf(const chart::Design& design,
                                                     const Materials& materials,
                                                     const WholePiece& piece);

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
