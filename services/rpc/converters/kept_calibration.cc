#include "services/rpc/converters/kept_calibration.h"

#include <string>
#include <utility>

#include "services/domain/errors.h"
#include "services/domain/estimate/calibration/observations.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/calibration.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/enum_from_proto.h"
#include "services/rpc/page_token.h"

namespace rowproof::rpc {
namespace {

v1::KeptMeasurement ToProto(const estimate::KeptMeasurement& kept) {
  const estimate::CalibrationObservation& observation = kept.measurement.observation;
  v1::KeptMeasurement to;
  to.set_number(kept.number);
  to.set_first_revision(kept.first_revision);
  to.set_kind(EnumTo<v1::MeasurementKind>(kept.measurement.kind));
  to.set_note(kept.measurement.note);
  for (size_t kind = 0; kind < estimate::kStitchKinds; ++kind) {
    if (observation.stitches[kind] == 0) continue;
    v1::StitchCount* count = to.add_stitches();
    count->set_stitch(EnumTo<v1::StitchKind>(static_cast<estimate::StitchKind>(kind)));
    count->set_count(observation.stitches[kind]);
  }
  to.set_stitch_pitch_mm(observation.fabric.w_mm);
  to.set_row_pitch_mm(observation.fabric.h_mm);
  to.set_yarn_diameter_mm(observation.fabric.d_mm);
  to.set_length_mm(observation.length_mm);
  to.set_other_length_mm(observation.beside_mm);
  to.set_length_uncertainty_mm(observation.uncertainty_mm);
  to.set_relative_spread(observation.relative_spread);
  return to;
}

}  // namespace

absl::StatusOr<usecases::NewCalibration> FromProto(const v1::CreateCalibrationRequest& request,
                                                   const Stop& stop) {
  auto scope = FromProto(request.scope());
  if (!scope.ok()) return UnderField(scope.status(), "scope");
  ASSIGN_OR_RETURN(auto measurements, MeasurementsFrom(request.measurements(), stop));
  return usecases::NewCalibration{
      request.title(), *scope, {std::move(measurements), {}, request.note()}};
}

absl::StatusOr<estimate::RevisionChange> FromProto(
    const v1::CreateCalibrationRevisionRequest& request, const Stop& stop) {
  ASSIGN_OR_RETURN(auto measurements, MeasurementsFrom(request.measurements(), stop));
  if (request.left_out_size() > static_cast<int>(estimate::kMostObservations)) {
    return InvalidField("left_out", std::to_string(request.left_out_size()),
                        "numbers of measurements in force, each once");
  }
  return estimate::RevisionChange{
      std::move(measurements),
      std::vector<int>(request.left_out().begin(), request.left_out().end()), request.note()};
}

v1::Calibration ToProto(const estimate::CalibrationRecord& row) {
  v1::Calibration to;
  to.set_name(ToString(CalibrationName{row.id}));
  to.set_title(row.title);
  *to.mutable_scope() = ToProto(row.scope);
  to.set_revision_count(row.revision_count);
  *to.mutable_create_time() = ToProto(row.created_at);
  to.set_etag(MakeEtag(row.change_count));
  return to;
}

v1::Calibration ToProto(const usecases::ReadCalibration& read) {
  v1::Calibration to = ToProto(read.row);
  if (read.newest.has_value()) *to.mutable_newest_revision() = ToProto(*read.newest);
  return to;
}

v1::CalibrationRevision ListedRevision(const usecases::ReadRevision& read) {
  v1::CalibrationRevision to;
  to.set_name(ToString(RevisionName{read.calibration, read.row.number}));
  to.set_number(read.row.number);
  to.set_note(read.row.note);
  *to.mutable_create_time() = ToProto(read.row.created_at);
  to.set_model_version(read.row.model_version);
  to.set_measurement_count(read.row.calibration.observation_count);
  return to;
}

v1::CalibrationRevision ToProto(const usecases::ReadRevision& read) {
  v1::CalibrationRevision to = ListedRevision(read);
  *to.mutable_yarn_calibration() = ToProto(to.name(), read.row.calibration, read.scope);
  for (const auto& measurement : read.measurements) *to.add_measurements() = ToProto(measurement);
  return to;
}

}  // namespace rowproof::rpc
