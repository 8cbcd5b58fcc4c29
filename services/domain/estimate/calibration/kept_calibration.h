// Calibrations that a designer keeps: measurements are added in revisions that never change, and
// each revision is the posterior of what was in force then. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_KEPT_CALIBRATION_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_KEPT_CALIBRATION_H_

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/clock.h"
#include "services/domain/estimate/calibration/calibration.h"
#include "services/domain/estimate/calibration/calibration_scope.h"
#include "services/domain/estimate/calibration/observations.h"
#include "services/domain/identifiers.h"

namespace rowproof::estimate {

inline constexpr int kMostKeptCalibrations = 200;  // of one designer
inline constexpr int kMostRevisions = 200;         // of one calibration
inline constexpr size_t kLongestMeasurementNote = 200;
inline constexpr size_t kLongestRevisionNote = 2000;

// What was measured. The numbers are stored and never change.
enum class MeasurementKind : uint8_t { kUnravelledSwatch, kWeighedSwatch, kWholePiece };

struct Measurement {
  CalibrationObservation observation;
  MeasurementKind kind = MeasurementKind::kUnravelledSwatch;
  std::string note;  // the designer's words
  bool operator==(const Measurement&) const = default;
};

struct KeptMeasurement {
  int number = 0;          // within the calibration, from 1
  int first_revision = 0;  // that rests on it
  Measurement measurement;
  bool operator==(const KeptMeasurement&) const = default;
};

// What a new revision does to the one before it.
struct RevisionChange {
  std::vector<Measurement> added;
  std::vector<int> left_out;  // numbers of measurements, for a slip found later
  std::string note;
};

struct CalibrationRecord {
  CalibrationId id;
  AccountId owner;
  std::string title;
  CalibrationScope scope;  // with technique and weight class
  int revision_count = 1;
  int change_count = 1;
  Moment created_at;
};

// Lists leave `calibration` out but for its observation_count.
struct RevisionRecord {
  int number = 0;
  Moment created_at;
  std::string note;
  int model_version = 0;
  Calibration calibration;
};

// Absent: any.
struct CalibrationFilter {
  std::optional<chart::Technique> technique;
  std::optional<int> weight_class;
};

// INVALID_ARGUMENT: a text that is too long or holds control characters ("note",
// "measurements[i].note"), nothing to change ("measurements").
absl::Status Validate(const RevisionChange& change);

// The posterior of measurements that are not kept; errors as for Revise. Without measurements, the
// prior.
absl::StatusOr<Calibration> CalibrateBy(std::span<const Measurement> measurements);

// The posterior of what remains of `in_force` and of what is added. INVALID_ARGUMENT: a number that
// is not in force, or occurs twice ("left_out[i]"); nothing left, too many, or measurements that
// contradict each other ("measurements"); one far from what is predicted
// ("measurements[i].length_mm", i of the added ones).
absl::StatusOr<Calibration> Revise(std::span<const KeptMeasurement> in_force,
                                   const RevisionChange& change);

const char* Name(MeasurementKind kind);  // "unravelled-swatch", "weighed-swatch", "piece"

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_CALIBRATION_KEPT_CALIBRATION_H_
