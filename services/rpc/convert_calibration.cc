#include "services/rpc/convert_calibration.h"

#include <optional>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/text.h"
#include "services/rpc/convert_design.h"
#include "services/rpc/convert_estimate.h"

namespace rowproof::rpc {
namespace {

using estimate::CalibrationObservation;
using estimate::StitchKind;

constexpr char kReserved[] = "calibrations/";  // names of stored resources

absl::Status CheckName(const std::string& name) {
  if (name.empty()) {
    return MissingField("name",
                        fmt::format("a name of 1 to {} bytes", estimate::kLongestCalibrationName));
  }
  if (name.starts_with(kReserved)) {
    return InvalidField("name", name, "a name that does not begin with \"calibrations/\"");
  }
  return ValidateText("name", name, estimate::kLongestCalibrationName, false);
}

absl::StatusOr<size_t> KindFrom(const std::string& field, const std::string& name) {
  for (size_t kind = 0; kind < estimate::kStitchKinds; ++kind) {
    if (name == estimate::Name(static_cast<StitchKind>(kind))) return kind;
  }
  return InvalidField(field, name, "ch, sc, ssc, dc2, dc3 or sl st");
}

absl::StatusOr<estimate::StitchNumbers> StitchesFrom(const v1::SwatchMeasurement& from) {
  estimate::StitchNumbers stitches = {};
  std::array<bool, estimate::kStitchKinds> seen = {};
  for (int i = 0; i < from.stitches_size(); ++i) {
    const std::string field = fmt::format("stitches[{}].stitch", i);
    auto kind = KindFrom(field, from.stitches(i).stitch());
    if (!kind.ok()) return kind.status();
    if (seen[*kind]) return InvalidField(field, from.stitches(i).stitch(), "each kind once");
    seen[*kind] = true;
    stitches[*kind] = from.stitches(i).count();
  }
  return stitches;
}

absl::StatusOr<estimate::Gauge> GaugeFrom(const v1::SwatchMeasurement& from) {
  if (from.gauge_readings().empty()) return FromProto(from.gauge());
  if (from.has_gauge()) {
    return InvalidField("gauge_readings", fmt::format("{} readings", from.gauge_readings_size()),
                        "either readings or \"gauge\"");
  }
  std::vector<estimate::GaugeReading> readings;
  for (const auto& reading : from.gauge_readings()) readings.push_back(FromProto(reading));
  auto pooled = estimate::GaugeFromReadings(readings);
  if (!pooled.ok()) return UnderField(pooled.status(), "gauge_readings");
  return pooled;
}

template <typename AnySwatch>
absl::StatusOr<AnySwatch> SwatchFrom(const v1::SwatchMeasurement& from) {
  AnySwatch swatch;
  auto stitches = StitchesFrom(from);
  if (!stitches.ok()) return stitches.status();
  swatch.stitches = *stitches;
  swatch.row_starts = from.row_start_count();
  swatch.tails_mm = from.tails_mm();
  auto gauge = GaugeFrom(from);
  if (!gauge.ok()) return gauge.status();
  swatch.gauge = *gauge;
  auto yarn = FromProto(from.yarn());
  if (!yarn.ok()) return UnderField(yarn.status(), "yarn");
  swatch.yarn = *std::move(yarn);
  if (from.has_relative_spread()) swatch.relative_spread = from.relative_spread();
  return swatch;
}

absl::StatusOr<CalibrationObservation> ObservationFrom(const v1::SwatchMeasurement& from) {
  if (from.measured_case() == v1::SwatchMeasurement::kMassG) {
    auto swatch = SwatchFrom<estimate::WeighedSwatch>(from);
    if (!swatch.ok()) return swatch.status();
    swatch->mass_g = from.mass_g();
    if (from.has_scale_step()) swatch->scale_step_g = from.scale_step();
    return estimate::ObservationOf(*swatch);
  }
  auto swatch = SwatchFrom<estimate::UnravelledSwatch>(from);
  if (!swatch.ok()) return swatch.status();
  swatch->length_mm = from.length_mm();
  if (from.has_scale_step()) swatch->scale_step_mm = from.scale_step();
  return estimate::ObservationOf(*swatch);
}

absl::StatusOr<CalibrationObservation> ObservationFrom(const v1::PieceMeasurement& from) {
  auto read = DesignFrom(from.design());
  if (!read.ok()) return read.status();
  auto making = FromProto(from.making());
  if (!making.ok()) return UnderField(making.status(), "making");
  auto size = SizeIndex(read->design, from.size());
  if (!size.ok()) return size.status();
  estimate::WholePiece piece;
  piece.size = *size;
  piece.last_row = from.last_row();
  if (!from.colour().empty()) {
    const auto colour = estimate::ParseYarnColour(from.colour());
    if (!colour.has_value()) {
      return InvalidField("colour", from.colour(), "A to H, or border");
    }
    piece.colour = *colour;
  }
  piece.length_mm = from.length_mm();
  piece.mass_g = from.mass_g();
  if (from.has_scale_step()) piece.scale_step = from.scale_step();
  if (from.has_relative_spread()) piece.relative_spread = from.relative_spread();
  return estimate::ObservationOf(read->design, *making, piece);
}

absl::StatusOr<CalibrationObservation> ObservationFrom(const v1::YarnMeasurement& from) {
  switch (from.measurement_case()) {
    case v1::YarnMeasurement::kSwatch: {
      auto observation = ObservationFrom(from.swatch());
      return observation.ok() ? observation : UnderField(observation.status(), "swatch");
    }
    case v1::YarnMeasurement::kPiece: {
      auto observation = ObservationFrom(from.piece());
      return observation.ok() ? observation : UnderField(observation.status(), "piece");
    }
    default:
      return MissingField("swatch", "a swatch or a piece");
  }
}

// "observations" are "measurements" to the caller.
absl::Status InTheCallersWords(const absl::Status& status) {
  constexpr std::string_view kOurs = "observations";
  auto fields = DetailOf(status).fields;
  for (FieldViolation& violation : fields) {
    if (violation.field.starts_with(kOurs)) {
      violation.field.replace(0, kOurs.size(), "measurements");
    }
  }
  return InvalidFields(std::move(fields));
}

v1::YarnCalibration WithPaths(const std::string& name, const estimate::StitchPaths& paths,
                              const estimate::PathCovariance& covariance) {
  v1::YarnCalibration to;
  to.set_name(name);
  for (size_t kind = 0; kind < estimate::kStitchKinds; ++kind) {
    v1::StitchPath* path = to.add_paths();
    path->set_stitch(estimate::Name(static_cast<StitchKind>(kind)));
    path->set_across(paths[kind].across);
    path->set_up(paths[kind].up);
    path->set_diameters(paths[kind].diameters);
  }
  for (const double number : covariance) to.add_covariance(number);
  return to;
}

}  // namespace

absl::StatusOr<v1::YarnCalibration> Calibrate(const v1::CalibrateYarnRequest& request) {
  if (auto status = CheckName(request.name()); !status.ok()) return status;
  if (request.measurements_size() > static_cast<int>(estimate::kMostObservations)) {
    return InvalidField("measurements", std::to_string(request.measurements_size()),
                        fmt::format("at most {}", estimate::kMostObservations));
  }
  std::vector<CalibrationObservation> observations;
  for (int i = 0; i < request.measurements_size(); ++i) {
    auto observation = ObservationFrom(request.measurements(i));
    if (!observation.ok()) {
      return UnderField(observation.status(), fmt::format("measurements[{}]", i));
    }
    observations.push_back(*std::move(observation));
  }
  const auto made = estimate::Calibrate(observations);
  if (!made.ok()) return InTheCallersWords(made.status());
  v1::YarnCalibration to = WithPaths(request.name(), made->paths, made->covariance);
  for (size_t kind = 0; kind < estimate::kStitchKinds; ++kind) {
    estimate::StitchNumbers one = {};
    one[kind] = 1;
    v1::StitchPath* path = to.mutable_paths(static_cast<int>(kind));
    path->set_relative_uncertainty_before(made->relative_before[kind]);
    path->set_relative_uncertainty(made->relative_after[kind]);
    path->set_length_before_mm(estimate::StitchesMm(estimate::kPriorPaths, one, made->mean_fabric));
    path->set_length_mm(estimate::StitchesMm(made->paths, one, made->mean_fabric));
  }
  to.set_measurement_count(made->observation_count);
  return to;
}

absl::Status UseCalibration(const v1::YarnCalibration& from, estimate::Making* making) {
  if (auto status = CheckName(from.name()); !status.ok()) return status;
  std::array<bool, estimate::kStitchKinds> seen = {};
  for (int i = 0; i < from.paths_size(); ++i) {
    const v1::StitchPath& path = from.paths(i);
    const std::string field = fmt::format("paths[{}].stitch", i);
    auto kind = KindFrom(field, path.stitch());
    if (!kind.ok()) return kind.status();
    if (seen[*kind]) return InvalidField(field, path.stitch(), "each kind once");
    seen[*kind] = true;
    making->assumptions.paths[*kind] = {path.across(), path.up(), path.diameters()};
  }
  if (from.paths_size() != static_cast<int>(estimate::kStitchKinds)) {
    return InvalidField("paths", std::to_string(from.paths_size()), "all six kinds of stitches");
  }
  const estimate::PathCovariance covariance(from.covariance().begin(), from.covariance().end());
  if (auto status = estimate::ValidateCovariance(covariance, "covariance"); !status.ok()) {
    return status;
  }
  making->assumptions.path_covariance = covariance;
  making->calibration = from.name();
  return absl::OkStatus();
}

v1::YarnCalibration CalibrationOf(const estimate::Making& making) {
  return WithPaths(making.calibration, making.assumptions.paths,
                   *making.assumptions.path_covariance);
}

}  // namespace rowproof::rpc
