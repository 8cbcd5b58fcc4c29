#include "services/domain/estimate/materials_validation.h"

#include <array>
#include <set>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/accepted_range.h"
#include "services/domain/estimate/materials.h"
#include "services/domain/estimate/weight_class.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"

namespace rowproof::estimate {
namespace {

absl::Status CheckOptional(const std::string& field, const std::optional<double>& value, double low,
                           double high, const char* unit) {
  return value.has_value() ? CheckRange(field, *value, low, high, unit) : absl::OkStatus();
}

absl::Status CheckBand(const Yarn& yarn, const std::string& field) {
  const std::string length = field + ".ball_band.length_m";
  const std::string mass = field + ".ball_band.mass_g";
  RETURN_IF_ERROR(CheckOptional(length, yarn.ball_length_m, 1, 100'000, "m"));
  RETURN_IF_ERROR(CheckOptional(mass, yarn.ball_mass_g, 0.1, 100'000, "g"));
  if (yarn.ball_length_m.has_value() != yarn.ball_mass_g.has_value()) {
    return MissingField(yarn.ball_length_m.has_value() ? mass : length,
                        "given with the ball's other measure, or both left out");
  }
  if (yarn.tex.has_value()) {
    RETURN_IF_ERROR(CheckRange(field + ".tex", *yarn.tex, 1, 100'000, "g a km"));
    if (!yarn.ball_length_m.has_value()) return absl::OkStatus();
    return InvalidField(field + ".tex", fmt::format("{}", *yarn.tex),
                        "unset if the length and mass of a ball are given");
  }
  const std::optional<double> tex = TexOf(yarn);
  if (tex.has_value() && !(*tex >= 1 && *tex <= 100'000)) {
    return InvalidField(mass, fmt::format("{} g in {} m", *yarn.ball_mass_g, *yarn.ball_length_m),
                        "such that the yarn weighs 1 to 100000 g a km");
  }
  return absl::OkStatus();
}

// A ball that its own two tails use up would need balls without end.
absl::Status CheckBallAgainstTails(const Materials& materials, YarnColour colour) {
  const std::optional<double>& ball_m = YarnOf(materials, colour).ball_length_m;
  const double tails_mm = 2 * WovenTailMm(materials);
  if (!ball_m.has_value() || *ball_m * 1000 >= 2 * tails_mm) return absl::OkStatus();
  return InvalidField(
      YarnField(colour) + ".ball_band.length_m", fmt::format("{}", *ball_m),
      fmt::format("at least {} m, twice the ball's own two tails", 2 * tails_mm / 1000));
}

absl::Status CheckNamedYarn(const Materials& materials, YarnColour colour) {
  if (FindYarn(materials, colour) != nullptr) return absl::OkStatus();
  return MissingField(YarnField(colour), colour == YarnColour::kBorder
                                             ? "the yarn that the border or fringe is worked in"
                                             : fmt::format("the yarn of colour {}", Name(colour)));
}

absl::Status CheckYarns(const Materials& materials) {
  if (materials.more_yarns.size() > kMostMoreYarns) {
    return InvalidField("yarns", fmt::format("{} yarns", materials.more_yarns.size()),
                        fmt::format("at most {}, of colours C to H", kMostMoreYarns));
  }
  for (const YarnColour colour : kYarnColoursAsListed) {
    const Yarn* yarn = FindYarn(materials, colour);
    if (yarn == nullptr) continue;
    RETURN_IF_ERROR(ValidateYarn(*yarn, YarnField(colour)));
  }
  if (materials.border.rounds > 0) {
    RETURN_IF_ERROR(CheckNamedYarn(materials, materials.border.colour));
  }
  for (const AddedFringe& fringe : materials.added_fringe) {
    RETURN_IF_ERROR(CheckNamedYarn(materials, fringe.colour));
  }
  return absl::OkStatus();
}

absl::Status CheckTails(const Materials& materials) {
  if (auto status =
          CheckRange("fringe_length_mm", materials.fringe_length_mm,
                     materials.tail_use == TailUse::kFringe ? 1 : 0, kLongestTailMm, "mm");
      !status.ok()) {
    return status;
  }
  RETURN_IF_ERROR(CheckOptional("tail_length_mm", materials.tail_mm, 0, kLongestTailMm, "mm"));
  return CheckRange("slack", materials.slack, 0, 1, "(0.05 adds 5 % to the row's width)");
}

absl::Status CheckBorderAndFringe(const Materials& materials) {
  if (auto status =
          CheckCount("border.round_count", materials.border.rounds,
                     materials.border.enclosing_double ? 1 : 0, kMostBorderRounds, "rounds");
      !status.ok()) {
    return status;
  }
  std::set<YarnColour> colours;
  for (size_t i = 0; i < materials.added_fringe.size(); ++i) {
    const AddedFringe& fringe = materials.added_fringe[i];
    const std::string field = fmt::format("added_fringe[{}]", i);
    if (!colours.insert(fringe.colour).second) {
      return InvalidField(field + ".role", Name(fringe.colour), "a yarn that is not listed yet");
    }
    if (auto status =
            CheckCount(field + ".strand_count", fringe.strands, 1, kMostFringeStrands, "strands");
        !status.ok()) {
      return status;
    }
    RETURN_IF_ERROR(CheckRange(field + ".length_mm", fringe.length_mm, 1, kLongestTailMm, "mm"));
  }
  return absl::OkStatus();
}

absl::Status CheckSwatch(const Materials& materials) {
  if (!materials.swatch.has_value()) return absl::OkStatus();
  if (auto status =
          CheckCount("swatch.stitch_count", materials.swatch->stitches, 1, 1000, "stitches");
      !status.ok()) {
    return status;
  }
  return CheckCount("swatch.row_count", materials.swatch->rows, 1, 1000, "rows");
}

absl::Status CheckAssumptions(const Assumptions& assumptions) {
  for (size_t i = 0; i < kStitchKinds; ++i) {
    const StitchPath& path = assumptions.paths[i];
    for (const double coefficient : {path.across, path.up, path.diameters}) {
      if (auto status = CheckRange(fmt::format("yarn_calibration.paths[{}]", i), coefficient, 0,
                                   kLargestCoefficient, "");
          !status.ok()) {
        return status;
      }
    }
  }
  if (assumptions.path_covariance.has_value()) {
    auto status = ValidateCovariance(*assumptions.path_covariance, "yarn_calibration.covariance");
    if (!status.ok()) return status;
  }
  struct Setting {
    const char* field;
    double value;
    double low;
    double high;
    const char* unit;
  };
  const std::array<Setting, 8> settings = {{
      {"model_relative_uncertainty", assumptions.model_relative_uncertainty, 0, 0.5, ""},
      {"size_relative_uncertainty", assumptions.size_relative_uncertainty, 0, 0.5, ""},
      {"time_relative_uncertainty", assumptions.time_relative_uncertainty, 0, 2, ""},
      {"maker_relative_spread", assumptions.maker_relative_spread, 0, 0.5, ""},
      {"fringe_allowance_mm", assumptions.fringe_allowance_mm, 0, kLongestTailMm, "mm"},
      {"enclosed_tail_mm", assumptions.enclosed_tail_mm, 0, kLongestTailMm, "mm"},
      {"stitches_per_minute", assumptions.stitches_per_minute, 0.1, 500, "stitches a minute"},
      {"minutes_per_row_start", assumptions.minutes_per_row_start, 0, 120, "minutes"},
  }};
  for (const Setting& setting : settings) {
    if (auto status = CheckRange(fmt::format("assumptions.{}", setting.field), setting.value,
                                 setting.low, setting.high, setting.unit);
        !status.ok()) {
      return status;
    }
  }
  return absl::OkStatus();
}

absl::Status CheckGaugesAndRates(const Materials& materials) {
  RETURN_IF_ERROR(CheckOptional("hook_mm", materials.hook_mm, 0.3, 50, "mm"));
  RETURN_IF_ERROR(ValidateGauge(materials.gauge, "gauge"));
  if (materials.gauge_after_blocking.has_value()) {
    RETURN_IF_ERROR(ValidateGauge(*materials.gauge_after_blocking, "gauge_after_blocking"));
  }
  RETURN_IF_ERROR(CheckOptional("stitches_per_minute", materials.stitches_per_minute, 0.1, 500,
                                "stitches a minute"));
  RETURN_IF_ERROR(
      CheckOptional("minutes_per_row_start", materials.minutes_per_row_start, 0, 120, "minutes"));
  return CheckRange("assurance", materials.assurance, 0.5, 0.99, "");
}

}  // namespace

absl::Status ValidateYarn(const Yarn& yarn, const std::string& field) {
  RETURN_IF_ERROR(ValidateText(field + ".name", yarn.name, kLongestYarnText, false));
  RETURN_IF_ERROR(ValidateText(field + ".fibre", yarn.fibre, kLongestYarnText, false));
  if (yarn.weight_class.has_value()) {
    if (auto status =
            CheckCount(field + ".weight_class", *yarn.weight_class, 0, kHeaviestWeightClass, "");
        !status.ok()) {
      return status;
    }
  }
  if (auto status =
          CheckOptional(field + ".wraps_per_inch", yarn.wraps_per_inch, 0.5, 100, "wraps per inch");
      !status.ok()) {
    return status;
  }
  if (!yarn.wraps_per_inch.has_value() && !yarn.weight_class.has_value()) {
    return MissingField(field + ".wraps_per_inch",
                        "between 0.5 and 100, unless a weight_class from 0 to 7 is given");
  }
  return CheckBand(yarn, field);
}

absl::Status Validate(const Materials& materials) {
  for (const auto check :
       {CheckGaugesAndRates, CheckYarns, CheckTails, CheckBorderAndFringe, CheckSwatch}) {
    RETURN_IF_ERROR(check(materials));
  }
  RETURN_IF_ERROR(CheckAssumptions(materials.assumptions));
  if (materials.calibration.size() > kLongestCalibrationName) {
    return InvalidField("yarn_calibration.name", materials.calibration,
                        fmt::format("at most {} bytes long", kLongestCalibrationName));
  }
  if (materials.calibration_scope.has_value()) {
    if (auto status = Validate(*materials.calibration_scope); !status.ok()) {
      return UnderField(status, "yarn_calibration.scope");
    }
  }
  for (const YarnColour colour : kYarnColoursAsListed) {
    if (FindYarn(materials, colour) == nullptr) continue;
    RETURN_IF_ERROR(CheckBallAgainstTails(materials, colour));
  }
  return absl::OkStatus();
}

absl::Status ValidateFor(const chart::Design& design, const Materials& materials) {
  RETURN_IF_ERROR(Validate(materials));
  for (const YarnColour colour : YarnsUsed(design, materials)) {
    RETURN_IF_ERROR(CheckNamedYarn(materials, colour));
  }
  return absl::OkStatus();
}

absl::Status SettleFoundation(bool chain_declared, chart::Design& design, Materials& materials) {
  Foundation& foundation = materials.foundation;
  if (design.foundation_colour.has_value()) {
    const std::string declared = chart::Name(*design.foundation_colour);
    if (chain_declared) {
      return InvalidField("foundation", Name(FoundationKind::kChain),
                          "worked, as the design declares it, in " + declared);
    }
    if (foundation.colour.has_value() && foundation.colour != design.foundation_colour) {
      return InvalidField("foundation_colour", chart::Name(*foundation.colour),
                          declared + ", the colour of the design's foundation");
    }
  } else if (foundation.kind == FoundationKind::kWorked) {
    design.foundation_colour = foundation.colour.value_or(chart::RowColour(design, 1));
  }
  if (design.foundation_colour.has_value()) {
    foundation = {FoundationKind::kWorked, design.foundation_colour};
  }
  return absl::OkStatus();
}

}  // namespace rowproof::estimate
