#include "services/domain/estimate/assumed.h"

#include "fmt/format.h"
#include "services/domain/estimate/extents.h"
#include "services/domain/estimate/units.h"

namespace rowproof::estimate {
namespace {

void AddYarn(const Yarn& yarn, YarnColour colour, std::vector<std::string>& assumed) {
  const YarnDiameter diameter = DiameterOf(yarn);
  if (diameter.assumed) {
    assumed.push_back(fmt::format(
        "Yarn {}: {:.1f} wraps per inch, the middle of weight class {}, since none were declared.",
        Name(colour), kMmPerInch / diameter.mm, *yarn.weight_class));
  }
  if (!TexOf(yarn).has_value()) {
    assumed.push_back(fmt::format(
        "Yarn {}: mass, balls and the tails at new balls are left out, since no ball band was "
        "declared.",
        Name(colour)));
  }
}

void AddGauge(const Making& making, std::vector<std::string>& assumed) {
  if (making.gauge_is_of_another_fabric) {
    assumed.push_back(
        "The gauge was counted in another technique, facing or treatment of the ends; it is taken "
        "to hold here.");
  }
  if (PitchesOf(making.gauge).assumed) {
    assumed.push_back(
        "The gauge states no uncertainty: one reading over 100 mm, to the nearest half stitch or "
        "row and millimetre.");
  }
}

void AddTails(const Piece& piece, std::vector<std::string>& assumed) {
  const Making& making = piece.making;
  if (making.tail_mm.has_value()) return;
  if (piece.ends() == chart::Ends::kCut && making.tail_use == TailUse::kFringe) {
    assumed.push_back(fmt::format("Tails of rows: fringe of {:g} mm and {:g} mm for knot and trim.",
                                  making.fringe_length_mm, making.assumptions.fringe_allowance_mm));
    return;
  }
  assumed.push_back(
      fmt::format("Tails: {:g} mm each, common practice.", making.assumptions.enclosed_tail_mm));
}

}  // namespace

std::vector<std::string> Assumed(const Piece& piece) {
  const Making& making = piece.making;
  std::vector<std::string> assumed;
  if (making.assumptions.paths == kPriorPaths) {
    assumed.push_back(fmt::format(
        "Yarn in a stitch: an idealised path, good to {:g} % until measured swatches correct it.",
        100 * making.assumptions.model_relative_uncertainty));
  }
  AddGauge(making, assumed);
  AddYarn(making.yarn_a, YarnColour::kA, assumed);
  AddYarn(making.yarn_b, YarnColour::kB, assumed);
  if (making.border_yarn.has_value()) {
    AddYarn(*making.border_yarn, YarnColour::kBorder, assumed);
  }
  AddTails(piece, assumed);
  if (piece.ends() == chart::Ends::kCarried) {
    assumed.push_back(
        fmt::format("Carried strand: {:g} % longer than the row is wide.", 100 * making.slack));
  }
  if (!making.stitches_per_minute.has_value()) {
    assumed.push_back(
        fmt::format("Time: {:g} stitches a minute.", making.assumptions.stitches_per_minute));
  }
  if (!making.minutes_per_row_start.has_value()) {
    assumed.push_back(
        fmt::format("Time: {:g} min to start a row.", making.assumptions.minutes_per_row_start));
  }
  return assumed;
}

}  // namespace rowproof::estimate
