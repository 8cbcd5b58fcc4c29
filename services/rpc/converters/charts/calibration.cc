#include "services/rpc/converters/charts/calibration.h"

#include <array>
#include <optional>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/accepted_range.h"
#include "services/domain/estimate/calibration/observations.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/materials.h"
#include "services/rpc/converters/charts/yarn_role.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

using estimate::CalibrationObservation;
using estimate::MeasurementKind;
using estimate::StitchKind;

absl::Status CheckName(const std::string& name) {
  if (name.empty()) {
    return MissingField("name",
                        fmt::format("a name of 1 to {} bytes", estimate::kLongestCalibrationName));
  }
  if (IsOfKept(name)) {
    return InvalidField(
        "name", name,
        "a name that does not begin with \"calibrations/\"; a kept one is named in the "
        "materials's \"calibration\"");
  }
  return ValidateText("name", name, estimate::kLongestCalibrationName, false);
}

std::string NameOf(size_t kind) { return estimate::Name(static_cast<StitchKind>(kind)); }

// Which of the six kinds of stitches.
absl::StatusOr<size_t> KindFrom(const std::string& field, v1::StitchKind stitch) {
  ASSIGN_OR_RETURN(auto kind, SpecifiedEnumFrom<StitchKind>(
                                  field, stitch, static_cast<int>(estimate::kStitchKinds),
                                  "ch, sc, ssc, dc2, dc3 or sl st"));
  return static_cast<size_t>(kind);
}

absl::StatusOr<estimate::StitchNumbers> StitchesFrom(const v1::SwatchMeasurement& from) {
  estimate::StitchNumbers stitches = {};
  std::array<bool, estimate::kStitchKinds> seen = {};
  for (int i = 0; i < from.stitches_size(); ++i) {
    const std::string field = fmt::format("stitches[{}].stitch", i);
    ASSIGN_OR_RETURN(auto kind, KindFrom(field, from.stitches(i).stitch()));
    if (seen[kind]) return InvalidField(field, NameOf(kind), "a kind that is not listed yet");
    seen[kind] = true;
    stitches[kind] = from.stitches(i).count();
  }
  return stitches;
}

absl::StatusOr<estimate::Gauge> GaugeFrom(const v1::SwatchMeasurement& from) {
  if (from.gauge_readings().empty()) return FromProto(from.gauge());
  if (from.has_gauge()) {
    return InvalidField("gauge_readings", fmt::format("{} readings", from.gauge_readings_size()),
                        "unset if gauge is given");
  }
  std::vector<estimate::GaugeReading> readings;
  for (const auto& reading : from.gauge_readings()) readings.push_back(FromProto(reading));
  return estimate::GaugeFromReadings(readings);
}

template <typename AnySwatch>
absl::StatusOr<AnySwatch> SwatchFrom(const v1::SwatchMeasurement& from) {
  AnySwatch swatch;
  ASSIGN_OR_RETURN(auto stitches, StitchesFrom(from));
  swatch.stitches = stitches;
  swatch.row_starts = from.row_start_count();
  swatch.tails_mm = from.tail_length_mm();
  ASSIGN_OR_RETURN(auto gauge, GaugeFrom(from));
  swatch.gauge = gauge;
  swatch.yarn = FromProto(from.yarn());
  if (from.has_relative_spread()) swatch.relative_spread = from.relative_spread();
  return swatch;
}

absl::StatusOr<CalibrationObservation> ObservationFrom(const v1::SwatchMeasurement& from) {
  if (from.measured_case() == v1::SwatchMeasurement::kMassG) {
    ASSIGN_OR_RETURN(auto swatch, SwatchFrom<estimate::WeighedSwatch>(from));
    swatch.mass_g = from.mass_g();
    if (from.has_scale_step()) swatch.scale_step_g = from.scale_step();
    return estimate::ObservationOf(swatch);
  }
  ASSIGN_OR_RETURN(auto swatch, SwatchFrom<estimate::UnravelledSwatch>(from));
  swatch.length_mm = from.length_mm();
  if (from.has_scale_step()) swatch.scale_step_mm = from.scale_step();
  return estimate::ObservationOf(swatch);
}

absl::StatusOr<CalibrationObservation> ObservationFrom(const v1::PieceMeasurement& from,
                                                       int64_t* pixels_left, const Stop& stop) {
  ASSIGN_OR_RETURN(auto read, DesignFrom(from.design(), stop));
  *pixels_left -= usecases::PixelsOf(read);
  if (*pixels_left < 0) {
    return OverLimit("The size of the pictures in all measurements together",
                     fmt::format("{} million pixels", usecases::kMostPixelsTogether / 1'000'000));
  }
  auto sent = FromProto(from.materials());  // its calibration does not matter here
  if (!sent.ok()) return UnderField(sent.status(), "materials");
  if (auto s =
          estimate::SettleFoundation(sent->foundation_chain_declared, read.design, sent->materials);
      !s.ok()) {
    return UnderField(s, "materials");
  }
  ASSIGN_OR_RETURN(auto size, SizeIndex(read.design, from.size()));
  estimate::WholePiece piece;
  piece.size = size;
  piece.last_row = from.last_row();
  ASSIGN_OR_RETURN(auto role, ColourOrA("role", from.role()));
  piece.colour = role;
  piece.length_mm = from.length_mm();
  piece.mass_g = from.mass_g();
  if (from.has_scale_step()) piece.scale_step = from.scale_step();
  if (from.has_relative_spread()) piece.relative_spread = from.relative_spread();
  return estimate::ObservationOf(read.design, sent->materials, piece);
}

absl::StatusOr<estimate::Measurement> MeasurementFrom(const v1::YarnMeasurement& from,
                                                      int64_t* pixels_left, const Stop& stop) {
  estimate::Measurement measurement;
  measurement.note = from.note();
  const auto take = [&](absl::StatusOr<CalibrationObservation> observation, const char* field,
                        MeasurementKind kind) -> absl::StatusOr<estimate::Measurement> {
    if (!observation.ok()) return UnderField(observation.status(), field);
    measurement.observation = *std::move(observation);
    measurement.kind = kind;
    return measurement;
  };
  switch (from.measurement_case()) {
    case v1::YarnMeasurement::kSwatch:
      return take(ObservationFrom(from.swatch()), "swatch",
                  from.swatch().measured_case() == v1::SwatchMeasurement::kMassG
                      ? MeasurementKind::kWeighedSwatch
                      : MeasurementKind::kUnravelledSwatch);
    case v1::YarnMeasurement::kPiece:
      return take(ObservationFrom(from.piece(), pixels_left, stop), "piece",
                  MeasurementKind::kWholePiece);
    default:
      return MissingField("swatch", "given, unless piece is");
  }
}

absl::Status CheckPath(const std::string& field, const v1::StitchPath& path) {
  const std::array<std::pair<const char*, double>, 3> coefficients = {
      {{"across", path.across()}, {"up", path.up()}, {"diameters", path.diameters()}}};
  for (const auto& [name, value] : coefficients) {
    auto status = estimate::CheckRange(fmt::format("{}.{}", field, name), value, 0,
                                       estimate::kLargestCoefficient, "");
    if (!status.ok()) return status;
  }
  return absl::OkStatus();
}

v1::YarnCalibration WithPaths(const std::string& name, const estimate::StitchPaths& paths,
                              const estimate::PathCovariance& covariance,
                              const std::optional<estimate::CalibrationScope>& scope) {
  v1::YarnCalibration to;
  to.set_name(name);
  if (scope.has_value()) *to.mutable_scope() = ToProto(*scope);
  for (size_t kind = 0; kind < estimate::kStitchKinds; ++kind) {
    v1::StitchPath* path = to.add_paths();
    path->set_stitch(EnumTo<v1::StitchKind>(static_cast<StitchKind>(kind)));
    path->set_across(paths[kind].across);
    path->set_up(paths[kind].up);
    path->set_diameters(paths[kind].diameters);
  }
  for (const double number : covariance) to.add_covariance(number);
  return to;
}

}  // namespace

bool IsOfKept(const std::string& name) { return name.starts_with("calibrations/"); }

absl::StatusOr<estimate::CalibrationScope> FromProto(const v1::CalibrationScope& from) {
  estimate::CalibrationScope scope;
  if (from.technique() != v1::TECHNIQUE_UNSPECIFIED) {
    ASSIGN_OR_RETURN(auto technique,
                     EnumFrom("technique", from.technique(), chart::Technique::kSpike, 3,
                              "spike, overlay or inset"));
    scope.technique = technique;
  }
  if (from.facing() != v1::FACING_UNSPECIFIED) {
    ASSIGN_OR_RETURN(auto facing, EnumFrom("facing", from.facing(), chart::Facing::kOneFace, 3,
                                           "one-face, two-face or paired"));
    scope.facing = facing;
  }
  if (from.ends() != v1::ENDS_UNSPECIFIED) {
    ASSIGN_OR_RETURN(
        auto ends, EnumFrom("ends", from.ends(), chart::Ends::kCut, 3, "cut, carried or waiting"));
    scope.ends = ends;
  }
  if (from.has_weight_class()) scope.weight_class = from.weight_class();
  RETURN_IF_ERROR(estimate::Validate(scope));
  return scope;
}

v1::CalibrationScope ToProto(const estimate::CalibrationScope& scope) {
  v1::CalibrationScope to;
  if (scope.technique.has_value()) to.set_technique(EnumTo<v1::Technique>(*scope.technique));
  if (scope.facing.has_value()) to.set_facing(EnumTo<v1::Facing>(*scope.facing));
  if (scope.ends.has_value()) to.set_ends(EnumTo<v1::Ends>(*scope.ends));
  if (scope.weight_class.has_value()) to.set_weight_class(*scope.weight_class);
  return to;
}

absl::StatusOr<std::vector<estimate::Measurement>> MeasurementsFrom(
    const google::protobuf::RepeatedPtrField<v1::YarnMeasurement>& from, const Stop& stop) {
  if (from.size() > static_cast<int>(estimate::kMostObservations)) {
    return InvalidField("measurements", std::to_string(from.size()),
                        fmt::format("at most {}", estimate::kMostObservations));
  }
  std::vector<estimate::Measurement> measurements;
  int64_t pixels_left = usecases::kMostPixelsTogether;
  for (int i = 0; i < from.size(); ++i) {
    if (stop.Now()) return stop.status();
    auto measurement = MeasurementFrom(from[i], &pixels_left, stop);
    if (!measurement.ok()) {
      return UnderField(measurement.status(), fmt::format("measurements[{}]", i));
    }
    measurements.push_back(*std::move(measurement));
  }
  return measurements;
}

v1::YarnCalibration ToProto(const std::string& name, const estimate::Calibration& calibration,
                            const std::optional<estimate::CalibrationScope>& scope) {
  v1::YarnCalibration to = WithPaths(name, calibration.paths, calibration.covariance, scope);
  for (size_t kind = 0; kind < estimate::kStitchKinds; ++kind) {
    estimate::StitchNumbers one = {};
    one[kind] = 1;
    v1::StitchPath* path = to.mutable_paths(static_cast<int>(kind));
    path->set_relative_uncertainty_before(calibration.relative_before[kind]);
    path->set_relative_uncertainty(calibration.relative_after[kind]);
    path->set_length_before_mm(
        estimate::StitchesMm(estimate::kPriorPaths, one, calibration.mean_fabric));
    path->set_length_mm(estimate::StitchesMm(calibration.paths, one, calibration.mean_fabric));
  }
  to.set_measurement_count(calibration.observation_count);
  return to;
}

absl::StatusOr<v1::YarnCalibration> Calibrate(const v1::CalibrateYarnRequest& request,
                                              const Stop& stop) {
  RETURN_IF_ERROR(CheckName(request.name()));
  std::optional<estimate::CalibrationScope> scope;
  if (request.has_scope()) {
    auto read = FromProto(request.scope());
    if (!read.ok()) return UnderField(read.status(), "scope");
    scope = *read;
  }
  ASSIGN_OR_RETURN(auto measurements, MeasurementsFrom(request.measurements(), stop));
  ASSIGN_OR_RETURN(const auto made, estimate::CalibrateBy(measurements));
  return ToProto(request.name(), made, scope);
}

absl::Status UseCalibration(const v1::YarnCalibration& from, estimate::Materials* materials) {
  RETURN_IF_ERROR(CheckName(from.name()));
  std::array<bool, estimate::kStitchKinds> seen = {};
  for (int i = 0; i < from.paths_size(); ++i) {
    const v1::StitchPath& path = from.paths(i);
    const std::string field = fmt::format("paths[{}].stitch", i);
    ASSIGN_OR_RETURN(auto kind, KindFrom(field, path.stitch()));
    if (seen[kind]) return InvalidField(field, NameOf(kind), "a kind that is not listed yet");
    seen[kind] = true;
    materials->assumptions.paths[kind] = {path.across(), path.up(), path.diameters()};
    if (auto status = CheckPath(fmt::format("paths[{}]", i), path); !status.ok()) return status;
  }
  if (from.paths_size() != static_cast<int>(estimate::kStitchKinds)) {
    return InvalidField("paths", std::to_string(from.paths_size()),
                        "six in number, one for each kind of stitch");
  }
  const estimate::PathCovariance covariance(from.covariance().begin(), from.covariance().end());
  RETURN_IF_ERROR(estimate::ValidateCovariance(covariance, "covariance"));
  materials->assumptions.path_covariance = covariance;
  materials->calibration = from.name();
  if (from.has_scope()) {
    auto scope = FromProto(from.scope());
    if (!scope.ok()) return UnderField(scope.status(), "scope");
    materials->calibration_scope = *scope;
  }
  return absl::OkStatus();
}

v1::YarnCalibration CalibrationOf(const estimate::Materials& materials) {
  return WithPaths(materials.calibration, materials.assumptions.paths,
                   *materials.assumptions.path_covariance, materials.calibration_scope);
}

}  // namespace rowproof::rpc
