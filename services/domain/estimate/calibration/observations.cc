#include "services/domain/estimate/calibration/observations.h"

#include <cmath>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/accepted_range.h"
#include "services/domain/estimate/calibration/calibration.h"
#include "services/domain/estimate/extents.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/domain/estimate/purchase.h"
#include "services/domain/estimate/stitch_shares.h"
#include "services/domain/status_macros.h"
#include "services/quantities/units.h"

namespace rowproof::estimate {
namespace {

constexpr double kLongestMm = 1e9;
constexpr double kHeaviestG = 1e6;

struct Measured {
  double length_mm = 0;
  double uncertainty_mm = 0;
};

absl::Status CheckMeasure(const char* field, double value, double most, const char* step_field,
                          double step, const char* unit) {
  RETURN_IF_ERROR(CheckRange(field, value, 1e-3, most, unit));
  return CheckRange(step_field, step, 0, value, unit);
}

// A value read to its scale's step (JCGM 100:2008 4.3.7).
absl::StatusOr<Measured> FromLength(double length_mm, const char* step_field, double step_mm) {
  auto status = CheckMeasure("length_mm", length_mm, kLongestMm, step_field, step_mm, "mm");
  if (!status.ok()) return status;
  return Measured{length_mm, RectangularUncertainty(step_mm / 2)};
}

absl::StatusOr<Measured> FromMass(double mass_g, const char* step_field, double step_g,
                                  const Yarn& yarn, const std::string& yarn_field) {
  auto status = CheckMeasure("mass_g", mass_g, kHeaviestG, step_field, step_g, "g");
  if (!status.ok()) return status;
  const auto density = LinearDensityOf(yarn);
  if (!density.has_value()) {
    return MissingField(yarn_field + ".ball_band",
                        "given unless tex or a weight class from 1 to 5 is");
  }
  Measured measured;
  measured.length_mm = quantities::LengthMm(mass_g, density->tex);
  const double parts[] = {RectangularUncertainty(step_g / 2) / mass_g,
                          density->uncertainty_tex / density->tex};
  measured.uncertainty_mm = measured.length_mm * Combined(parts);
  return measured;
}

absl::Status CheckStitches(const StitchNumbers& stitches) {
  double all = 0;
  for (size_t kind = 0; kind < kStitchKinds; ++kind) {
    auto status = CheckRange(fmt::format("stitches[{}].count", Name(static_cast<StitchKind>(kind))),
                             stitches[kind], 0, kMostStitches, "stitches");
    if (!status.ok()) return status;
    all += stitches[kind];
  }
  return all > 0 ? absl::OkStatus()
                 : MissingField("stitches", "a count of at least one kind of stitch");
}

// `beside` may hold row starts and other parts that vary with the gauge as the stitches do.
absl::StatusOr<CalibrationObservation> Observe(const StitchNumbers& stitches,
                                               const LinearLength& beside, const Gauge& gauge,
                                               const Yarn& yarn, const Measured& measured,
                                               double relative_spread) {
  auto status = CheckRange("relative_spread", relative_spread, 0, 0.5, "");
  if (!status.ok()) return status;
  const Pitches pitches = PitchesOf(gauge);
  const YarnDiameter diameter = DiameterOf(yarn);
  LinearLength predicted = beside;
  for (size_t kind = 0; kind < kStitchKinds; ++kind) {
    predicted.Add(kPriorPaths[kind], stitches[kind]);
  }
  CalibrationObservation observation;
  observation.stitches = stitches;
  observation.fabric = {pitches.w_mm, pitches.h_mm, diameter.mm};
  observation.beside_mm = beside.Mm(pitches.w_mm, pitches.h_mm, diameter.mm);
  observation.length_mm = measured.length_mm;
  const double parts[] = {measured.uncertainty_mm, predicted.w * pitches.w_uncertainty_mm,
                          predicted.h * pitches.h_uncertainty_mm,
                          predicted.d * diameter.uncertainty_mm};
  observation.uncertainty_mm = Combined(parts);
  observation.relative_spread = relative_spread;
  if (observation.length_mm <= observation.beside_mm) {
    return InvalidField("length_mm", fmt::format("{:g} mm", observation.length_mm),
                        fmt::format("longer than its {:g} mm of tails, strands and row starts",
                                    observation.beside_mm));
  }
  return observation;
}

template <typename AnySwatch>
absl::Status CheckSwatch(const AnySwatch& swatch) {
  RETURN_IF_ERROR(CheckStitches(swatch.stitches));
  RETURN_IF_ERROR(CheckCount("row_start_count", swatch.row_starts, 0, 100'000, ""));
  RETURN_IF_ERROR(CheckRange("tail_length_mm", swatch.tails_mm, 0, kLongestMm, "mm"));
  RETURN_IF_ERROR(ValidateGauge(swatch.gauge, "gauge"));
  return ValidateYarn(swatch.yarn, "yarn");
}

template <typename AnySwatch>
absl::StatusOr<CalibrationObservation> ObserveSwatch(const AnySwatch& swatch,
                                                     const absl::StatusOr<Measured>& measured) {
  if (!measured.ok()) return measured.status();
  const LinearLength beside = {3.0 * swatch.row_starts, 0, 0, swatch.tails_mm};
  return Observe(swatch.stitches, beside, swatch.gauge, swatch.yarn, *measured,
                 swatch.relative_spread);
}

absl::Status CheckPiece(const chart::Design& design, const Materials& materials,
                        const WholePiece& piece) {
  if (auto status = chart::Validate(design); !status.ok()) return UnderField(status, "design");
  if (auto status = ValidateFor(design, materials); !status.ok())
    return UnderField(status, "materials");
  if (FindYarn(materials, piece.colour) == nullptr) {
    return InvalidField("role", Name(piece.colour), "the colour of one of the piece's yarns");
  }
  const auto sizes = static_cast<int>(design.sizes.size());
  RETURN_IF_ERROR(CheckCount("size", piece.size, 0, sizes - 1, ""));
  const int rows =
      chart::FactsOf(design.technique).worked_rows * chart::ExpandedRows(design, piece.size);
  RETURN_IF_ERROR(CheckCount("last_row", piece.last_row, 0, rows, ""));
  if ((piece.length_mm != 0) == (piece.mass_g != 0)) {
    return MissingField("length_mm", "given, unless mass_g is");
  }
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<CalibrationObservation> ObservationOf(const UnravelledSwatch& swatch) {
  RETURN_IF_ERROR(CheckSwatch(swatch));
  return ObserveSwatch(swatch, FromLength(swatch.length_mm, "scale_step", swatch.scale_step_mm));
}

absl::StatusOr<CalibrationObservation> ObservationOf(const WeighedSwatch& swatch) {
  RETURN_IF_ERROR(CheckSwatch(swatch));
  return ObserveSwatch(
      swatch, FromMass(swatch.mass_g, "scale_step", swatch.scale_step_g, swatch.yarn, "yarn"));
}

absl::StatusOr<CalibrationObservation> ObservationOf(const chart::Design& design,
                                                     const Materials& materials,
                                                     const WholePiece& piece) {
  RETURN_IF_ERROR(CheckPiece(design, materials, piece));
  const Yarn& yarn = YarnOf(materials, piece.colour);
  ASSIGN_OR_RETURN(const auto measured,
                   piece.mass_g != 0 ? FromMass(piece.mass_g, "scale_step", piece.scale_step, yarn,
                                                "materials." + YarnField(piece.colour))
                                     : FromLength(piece.length_mm, "scale_step", piece.scale_step));
  const StitchCounter counter(design);
  const int rows =
      chart::FactsOf(design.technique).worked_rows * chart::ExpandedRows(design, piece.size);
  const int last_row = piece.last_row == 0 ? rows : piece.last_row;
  const Piece worked = {design, materials, counter.Count(piece.size, last_row),
                        counter.Count(piece.size, rows)};
  StitchShare share = StitchSharesOf(worked)[static_cast<size_t>(piece.colour)];
  if (auto status = CheckStitches(share.stitches); !status.ok()) {
    return InvalidField("role", Name(piece.colour), "a colour used in the rows worked");
  }
  if (yarn.ball_length_m.has_value()) {
    const double tail_mm = WovenTailMm(materials);
    const int64_t joins = JoinCount(measured.length_mm, *yarn.ball_length_m * 1000, tail_mm);
    share.beside.fixed_mm += 2 * static_cast<double>(joins) * tail_mm;
  }
  return Observe(share.stitches, share.beside, materials.gauge, yarn, measured,
                 piece.relative_spread);
}

}  // namespace rowproof::estimate
