#include "services/domain/estimate/assumed.h"

#include "fmt/format.h"
#include "services/domain/estimate/extents.h"
#include "services/domain/estimate/units.h"
#include "services/domain/estimate/weight_class.h"

namespace rowproof::estimate {
namespace {

void AddYarn(const Yarn& yarn, YarnColour colour, std::vector<std::string>& assumed) {
  const YarnDiameter diameter = DiameterOf(yarn);
  if (diameter.assumed) {
    assumed.push_back(fmt::format(
        "Yarn {}: {:.1f} wraps per inch, the middle of weight class {}, because none were given.",
        Name(colour), kMmPerInch / diameter.mm, *yarn.weight_class));
  }
  const std::optional<LinearDensity> density = LinearDensityOf(yarn);
  if (!density.has_value()) {
    assumed.push_back(fmt::format(
        "Yarn {}: without a ball band, weight, balls and the tails at new balls are left out.",
        Name(colour)));
  } else if (density->assumed) {
    assumed.push_back(fmt::format(
        "Yarn {}: without a ball band, {:.0f} m in 100 g (the middle of weight class {}, common "
        "practice); balls and the tails at new balls are left out.",
        Name(colour), 1e5 / density->tex, *yarn.weight_class));
  } else if (!yarn.ball_length_m.has_value()) {
    assumed.push_back(
        fmt::format("Yarn {}: without a ball band, balls and the tails at new balls are left out.",
                    Name(colour)));
  }
}

// For display only: no figure depends on the hook.
void AddHook(const Materials& materials, const std::vector<YarnColour>& yarns,
             std::vector<std::string>& assumed) {
  if (materials.hook_mm.has_value() || yarns.empty()) return;
  const auto number = YarnOf(materials, yarns.front()).weight_class;
  const WeightClass* weight = number.has_value() ? FindWeightClass(*number) : nullptr;
  if (weight == nullptr) return;
  const std::string range =
      weight->thickest_hook_mm == 0
          ? fmt::format("{:g} mm and larger", weight->thinnest_hook_mm)
          : fmt::format("{:g} to {:g} mm", weight->thinnest_hook_mm, weight->thickest_hook_mm);
  assumed.push_back(
      fmt::format("Hook: none given; weight class {} is usually worked with {}.", *number, range));
}

void AddGauge(const Materials& materials, std::vector<std::string>& assumed) {
  if (materials.gauge_is_of_another_fabric) {
    assumed.push_back(
        "Gauge: counted in another fabric (technique, facing or ends) and assumed to hold here.");
  }
  if (PitchesOf(materials.gauge).assumed) {
    assumed.push_back(
        "Gauge: one reading over 100 mm, to the nearest half stitch or row and millimetre, because "
        "its uncertainty is not given.");
  }
}

void AddTails(const Piece& piece, std::vector<std::string>& assumed) {
  const Materials& materials = piece.materials;
  if (materials.tail_mm.has_value()) return;
  if (piece.ends() == chart::Ends::kCut && materials.tail_use == TailUse::kFringe) {
    assumed.push_back(
        fmt::format("Tails of rows: a fringe of {:g} mm, and {:g} mm for knot and trim.",
                    materials.fringe_length_mm, materials.assumptions.fringe_allowance_mm));
    return;
  }
  assumed.push_back(
      fmt::format("Tails: {:g} mm each, common practice.", materials.assumptions.enclosed_tail_mm));
}

}  // namespace

std::vector<std::string> Assumed(const Piece& piece) {
  const Materials& materials = piece.materials;
  std::vector<std::string> assumed;
  const bool calibrated = materials.assumptions.path_covariance.has_value();
  if (!calibrated && materials.assumptions.paths == kPriorPaths) {
    assumed.push_back(fmt::format(
        "Yarn in a stitch: an idealised path, good to {:g} % until you calibrate it with swatches.",
        100 * materials.assumptions.model_relative_uncertainty));
  }
  if (calibrated) {
    assumed.push_back(fmt::format(
        "Yarn outside the stitches (tails, strands, row starts): good to {:g} %; the calibration "
        "does not cover it.",
        100 * materials.assumptions.model_relative_uncertainty));
  }
  AddGauge(materials, assumed);
  const std::vector<YarnColour> yarns = YarnsUsed(piece.design, materials);
  for (const YarnColour colour : yarns) AddYarn(YarnOf(materials, colour), colour, assumed);
  AddHook(materials, yarns, assumed);
  AddTails(piece, assumed);
  if (piece.ends() == chart::Ends::kCarried) {
    assumed.push_back(
        fmt::format("Carried strand: {:g} % longer than the row is wide.", 100 * materials.slack));
  }
  if (!materials.stitches_per_minute.has_value()) {
    assumed.push_back(
        fmt::format("Time: {:g} stitches per minute.", materials.assumptions.stitches_per_minute));
  }
  if (!materials.minutes_per_row_start.has_value()) {
    assumed.push_back(
        fmt::format("Time: {:g} min per row start.", materials.assumptions.minutes_per_row_start));
  }
  return assumed;
}

}  // namespace rowproof::estimate
