#include "services/domain/estimate/materials.h"

#include "services/domain/check.h"
#include "services/domain/estimate/uncertainty.h"
#include "services/domain/estimate/units.h"
#include "services/domain/estimate/weight_class.h"

namespace rowproof::estimate {

std::optional<double> TexOf(const Yarn& yarn) {
  if (!yarn.ball_length_m.has_value() || !yarn.ball_mass_g.has_value()) return std::nullopt;
  return TexFromBall(*yarn.ball_length_m, *yarn.ball_mass_g);
}

YarnDiameter DiameterOf(const Yarn& yarn) {
  double wraps = 0;
  double half_width = 0.25;
  const bool assumed = !yarn.wraps_per_inch.has_value();
  if (assumed) {
    ROWPROOF_CHECK(yarn.weight_class.has_value());
    const WeightClass* weight = FindWeightClass(*yarn.weight_class);
    ROWPROOF_CHECK(weight != nullptr);
    wraps = weight->middle_wraps_per_inch();
    half_width = (weight->most_wraps_per_inch - weight->fewest_wraps_per_inch) / 2;
  } else {
    wraps = *yarn.wraps_per_inch;
  }
  const double mm = kMmPerInch / wraps;
  return {mm, mm * RectangularUncertainty(half_width) / wraps, assumed};
}

const Yarn& YarnOf(const Making& making, YarnColour colour) {
  switch (colour) {
    case YarnColour::kA:
      return making.yarn_a;
    case YarnColour::kB:
      return making.yarn_b;
    case YarnColour::kBorder:
      break;
  }
  ROWPROOF_CHECK(making.border_yarn.has_value());
  return *making.border_yarn;
}

YarnColour YarnColourOf(chart::Colour colour) {
  return colour == chart::Colour::kA ? YarnColour::kA : YarnColour::kB;
}

double RowTailMm(const Making& making) {
  if (making.tail_mm.has_value()) return *making.tail_mm;
  return making.tail_use == TailUse::kFringe
             ? making.fringe_length_mm + making.assumptions.fringe_allowance_mm
             : making.assumptions.enclosed_tail_mm;
}

double WovenTailMm(const Making& making) {
  return making.tail_mm.value_or(making.assumptions.enclosed_tail_mm);
}

const char* Name(YarnColour colour) {
  switch (colour) {
    case YarnColour::kA:
      return "A";
    case YarnColour::kB:
      return "B";
    case YarnColour::kBorder:
      return "border";
  }
  return "";
}

const char* Name(FoundationKind kind) {
  return kind == FoundationKind::kChain ? "chain" : "worked";
}

const char* Name(TailUse use) { return use == TailUse::kEnclosed ? "enclosed" : "fringe"; }

const char* Name(FringeEdge edge) {
  return edge == FringeEdge::kRowEnds ? "row-ends" : "foundation-and-top";
}

const char* Name(ItemKind kind) {
  switch (kind) {
    case ItemKind::kOther:
      return "other";
    case ItemKind::kBlanket:
      return "blanket";
    case ItemKind::kWrap:
      return "wrap";
    case ItemKind::kCushion:
      return "cushion";
    case ItemKind::kHotPad:
      return "hot-pad";
    case ItemKind::kBabyItem:
      return "baby-item";
  }
  return "";
}

const char* Name(IntendedUser user) {
  return user == IntendedUser::kAnyone ? "anyone" : "small-child";
}

}  // namespace rowproof::estimate
