// Measured yarn, made ready for the regression of a calibration. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_OBSERVATIONS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_OBSERVATIONS_H_

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::estimate {

inline constexpr double kMostStitches = 1e8;  // of one kind in one observation

// Relative standard deviations of a measured length that no measuring explains: from swatch to
// swatch of the same hands, and from maker to maker (assumptions).
inline constexpr double kOwnHandsSpread = 0.02;
inline constexpr double kOtherHandsSpread = 0.10;

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

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_OBSERVATIONS_H_
