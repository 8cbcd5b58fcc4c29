#include "services/domain/estimate/calibration/kept_calibration.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/calibration/observations.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"

namespace rowproof::estimate {
namespace {

// The regression works on observations; callers send measurements.
absl::Status OfMeasurements(const absl::Status& status) {
  constexpr std::string_view kObservations = "observations";
  auto fields = DetailOf(status).fields;
  for (FieldViolation& violation : fields) {
    if (violation.field.starts_with(kObservations)) {
      violation.field.replace(0, kObservations.size(), "measurements");
    }
  }
  return InvalidFields(std::move(fields));
}

absl::Status CheckLeftOut(std::span<const KeptMeasurement> in_force,
                          const std::vector<int>& left_out) {
  for (size_t i = 0; i < left_out.size(); ++i) {
    const bool known =
        std::any_of(in_force.begin(), in_force.end(),
                    [&](const KeptMeasurement& kept) { return kept.number == left_out[i]; });
    const auto before = left_out.begin() + static_cast<std::ptrdiff_t>(i);
    if (!known || std::find(left_out.begin(), before, left_out[i]) != before) {
      return InvalidField(fmt::format("left_out[{}]", i), std::to_string(left_out[i]),
                          "the number of a measurement in force, named once");
    }
  }
  return absl::OkStatus();
}

}  // namespace

absl::Status Validate(const RevisionChange& change) {
  RETURN_IF_ERROR(ValidateText("note", change.note, kLongestRevisionNote, true));
  for (size_t i = 0; i < change.added.size(); ++i) {
    auto s = ValidateText(fmt::format("measurements[{}].note", i), change.added[i].note,
                          kLongestMeasurementNote, false);
    if (!s.ok()) return s;
  }
  if (change.added.empty() && change.left_out.empty()) {
    return MissingField("measurements", "given, unless left_out names some to leave out");
  }
  return absl::OkStatus();
}

absl::StatusOr<Calibration> CalibrateBy(std::span<const Measurement> measurements) {
  std::vector<CalibrationObservation> observations;
  for (const Measurement& measurement : measurements) {
    observations.push_back(measurement.observation);
  }
  auto calibration = Calibrate(observations);
  if (!calibration.ok()) return OfMeasurements(calibration.status());
  return calibration;
}

absl::StatusOr<Calibration> Revise(std::span<const KeptMeasurement> in_force,
                                   const RevisionChange& change) {
  RETURN_IF_ERROR(Validate(change));
  RETURN_IF_ERROR(CheckLeftOut(in_force, change.left_out));
  // What is added comes first: a refusal then names its place in the request.
  std::vector<Measurement> measurements = change.added;
  for (const KeptMeasurement& kept : in_force) {
    if (std::find(change.left_out.begin(), change.left_out.end(), kept.number) ==
        change.left_out.end()) {
      measurements.push_back(kept.measurement);
    }
  }
  if (measurements.empty()) {
    return InvalidField("measurements", "none", "left with at least one in force");
  }
  return CalibrateBy(measurements);
}

const char* Name(MeasurementKind kind) {
  constexpr const char* kNames[] = {"unravelled-swatch", "weighed-swatch", "piece"};
  return kNames[static_cast<size_t>(kind)];
}

}  // namespace rowproof::estimate
