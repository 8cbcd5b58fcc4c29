#include "services/domain/estimate/materials.h"

#include <algorithm>
#include <utility>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/domain/estimate/uncertainty.h"
#include "services/domain/estimate/weight_class.h"
#include "services/quantities/units.h"

namespace rowproof::estimate {

std::optional<double> TexOf(const Yarn& yarn) {
  if (yarn.tex.has_value()) return yarn.tex;
  if (!yarn.ball_length_m.has_value() || !yarn.ball_mass_g.has_value()) return std::nullopt;
  return quantities::TexFromBall(*yarn.ball_length_m, *yarn.ball_mass_g);
}

std::optional<LinearDensity> LinearDensityOf(const Yarn& yarn) {
  if (const auto tex = TexOf(yarn); tex.has_value()) return LinearDensity{*tex, 0, false};
  const WeightClass* weight =
      yarn.weight_class.has_value() ? FindWeightClass(*yarn.weight_class) : nullptr;
  if (weight == nullptr || weight->least_m_per_100g == 0 || weight->most_m_per_100g == 0) {
    return std::nullopt;
  }
  const double middle = (weight->least_m_per_100g + weight->most_m_per_100g) / 2;
  const double half_width = (weight->most_m_per_100g - weight->least_m_per_100g) / 2;
  const double tex = quantities::TexFromBall(middle, 100);
  return LinearDensity{tex, tex * RectangularUncertainty(half_width) / middle, true};
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
  const double mm = quantities::kMmPerInch / wraps;
  return {mm, mm * RectangularUncertainty(half_width) / wraps, assumed};
}

const Yarn* FindYarn(const Materials& materials, YarnColour colour) {
  switch (colour) {
    case YarnColour::kA:
      return &materials.yarn_a;
    case YarnColour::kB:
      return &materials.yarn_b;
    case YarnColour::kBorder:
      return materials.border_yarn.has_value() ? &*materials.border_yarn : nullptr;
    default:
      break;
  }
  const size_t index = static_cast<size_t>(colour) - static_cast<size_t>(YarnColour::kC);
  return index < materials.more_yarns.size() ? &materials.more_yarns[index] : nullptr;
}

Yarn* FindYarn(Materials& materials, YarnColour colour) {
  return const_cast<Yarn*>(FindYarn(std::as_const(materials), colour));
}

const Yarn& YarnOf(const Materials& materials, YarnColour colour) {
  const Yarn* yarn = FindYarn(materials, colour);
  ROWPROOF_CHECK(yarn != nullptr);
  return *yarn;
}

YarnColour YarnColourOf(chart::Colour colour) {
  const auto number = static_cast<size_t>(colour);
  return number < 2 ? static_cast<YarnColour>(number) : static_cast<YarnColour>(number + 1);
}

size_t PlaceAsListed(YarnColour colour) {
  const auto found = std::find(kYarnColoursAsListed.begin(), kYarnColoursAsListed.end(), colour);
  ROWPROOF_CHECK(found != kYarnColoursAsListed.end());
  return static_cast<size_t>(found - kYarnColoursAsListed.begin());
}

std::vector<YarnColour> YarnsUsed(const chart::Design& design, const Materials& materials) {
  std::array<bool, kYarnColours> used = {};
  const auto use = [&used](YarnColour colour) { used[static_cast<size_t>(colour)] = true; };
  use(YarnColourOf(chart::RowColour(design, 1)));
  if (design.row_colours.empty() && (design.cells.rows() > 1 || design.row_band.has_value())) {
    use(YarnColour::kB);
  }
  for (const chart::Colour colour : design.row_colours) use(YarnColourOf(colour));
  if (design.foundation_colour.has_value()) {
    use(YarnColourOf(*design.foundation_colour));
  } else if (materials.foundation.colour.has_value()) {
    use(YarnColourOf(*materials.foundation.colour));
  }
  if (materials.border.rounds > 0) use(materials.border.colour);
  for (const AddedFringe& fringe : materials.added_fringe) use(fringe.colour);
  std::vector<YarnColour> listed;
  for (const YarnColour colour : kYarnColoursAsListed) {
    if (used[static_cast<size_t>(colour)]) listed.push_back(colour);
  }
  return listed;
}

std::string YarnField(YarnColour colour) { return fmt::format("yarns[{}]", Name(colour)); }

double RowTailMm(const Materials& materials) {
  if (materials.tail_mm.has_value()) return *materials.tail_mm;
  return materials.tail_use == TailUse::kFringe
             ? materials.fringe_length_mm + materials.assumptions.fringe_allowance_mm
             : materials.assumptions.enclosed_tail_mm;
}

double WovenTailMm(const Materials& materials) {
  return materials.tail_mm.value_or(materials.assumptions.enclosed_tail_mm);
}

const char* Name(YarnColour colour) {
  constexpr const char* kNames[] = {"A", "B", "border", "C", "D", "E", "F", "G", "H"};
  return kNames[static_cast<size_t>(colour)];
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
