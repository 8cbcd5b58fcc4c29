#include "services/domain/patterns/materials_differences.h"

#include <array>

#include "fmt/format.h"
#include "services/domain/patterns/field_list.h"

namespace rowproof::patterns {
namespace {

using estimate::AddedFringe;
using estimate::Assumptions;
using estimate::Gauge;
using estimate::Materials;
using estimate::Yarn;

const auto kAsItIs = [](const std::string& text) { return text; };
const auto kCount = [](int count) { return std::to_string(count); };
const auto kPlain = [](double value, int digits) { return quantities::Number(value, digits); };
const auto kLength = [](double mm, int digits) { return quantities::BothLengths(mm, digits); };
const auto kPercent = [](double share, int digits) {
  return quantities::Number(100 * share, digits) + " %";
};

void AddYarn(const std::string& field, const std::string& label, const Yarn& was, const Yarn& now,
             FieldList& fields) {
  fields.Add(field + ".name", label, was.name, now.name, kAsItIs);
  fields.Add(field + ".fibre", label + ", fibre", was.fibre, now.fibre, kAsItIs);
  fields.Add(field + ".weight_class", label + ", weight class", was.weight_class, now.weight_class,
             kCount);
  fields.AddReal(field + ".wraps_per_inch", label + ", wraps per inch", was.wraps_per_inch,
                 now.wraps_per_inch, kPlain);
  fields.AddReal(field + ".ball_band.length_m", label + ", length of a ball", was.ball_length_m,
                 now.ball_length_m,
                 [](double m, int digits) { return quantities::BothLengths(1000 * m, digits); });
  fields.AddReal(field + ".ball_band.mass_g", label + ", mass of a ball", was.ball_mass_g,
                 now.ball_mass_g,
                 [](double g, int digits) { return quantities::BothMasses(g, digits); });
  fields.AddReal(field + ".tex", label + ", tex", was.tex, now.tex, kPlain);
}

// A yarn that only one of the two has is named as a whole.
void AddYarnIfThere(const std::string& field, const std::string& label, const Yarn* was,
                    const Yarn* now, FieldList& fields) {
  if (was != nullptr && now != nullptr) return AddYarn(field, label, *was, *now, fields);
  const auto yarn = [](const Yarn* from) {
    return from == nullptr ? std::optional<Yarn>() : std::optional<Yarn>(*from);
  };
  fields.Add(field, label, yarn(was), yarn(now), [](const Yarn& own) {
    return own.name.empty() ? std::string("a yarn of its own") : own.name;
  });
}

void AddYarns(const Materials& was, const Materials& now, FieldList& fields) {
  for (const estimate::YarnColour colour : estimate::kYarnColoursAsListed) {
    const std::string name = estimate::Name(colour);
    AddYarnIfThere("materials." + estimate::YarnField(colour),
                   colour == estimate::YarnColour::kBorder ? "border yarn" : "yarn " + name,
                   estimate::FindYarn(was, colour), estimate::FindYarn(now, colour), fields);
  }
}

void AddGauge(const std::string& field, const std::string& label, const std::optional<Gauge>& was,
              const std::optional<Gauge>& now, FieldList& fields) {
  const auto add = [&](const char* name, const char* what, const char* unit, auto member) {
    const auto value = [&](const std::optional<Gauge>& gauge) -> std::optional<double> {
      return gauge.has_value() ? std::optional<double>(member(*gauge)) : std::nullopt;
    };
    fields.AddReal(
        fmt::format("{}.{}", field, name), fmt::format("{}{}", what, label), value(was), value(now),
        [unit](double per, int digits) { return quantities::BothGauges(per, unit, digits); });
  };
  add("stitches_per_decimetre", "stitch gauge", "stitches",
      [](const Gauge& gauge) { return gauge.stitches_per_decimetre; });
  add("rows_per_decimetre", "row gauge", "rows",
      [](const Gauge& gauge) { return gauge.rows_per_decimetre; });
  const auto add_uncertainty = [&](const char* name, const char* what, auto member) {
    const auto value = [&](const std::optional<Gauge>& gauge) -> std::optional<double> {
      return gauge.has_value() ? member(*gauge) : std::nullopt;
    };
    fields.AddReal(fmt::format("{}.{}", field, name),
                   fmt::format("standard uncertainty of the {}{}, in 100 mm", what, label),
                   value(was), value(now), kPlain);
  };
  add_uncertainty("stitches_uncertainty_per_decimetre", "stitch gauge",
                  [](const Gauge& gauge) { return gauge.stitches_uncertainty_per_decimetre; });
  add_uncertainty("rows_uncertainty_per_decimetre", "row gauge",
                  [](const Gauge& gauge) { return gauge.rows_uncertainty_per_decimetre; });
}

void AddFoundation(const Materials& was, const Materials& now, FieldList& fields) {
  fields.Add("materials.foundation", "foundation", was.foundation.kind, now.foundation.kind,
             [](estimate::FoundationKind kind) { return std::string(estimate::Name(kind)); });
  fields.Add("materials.foundation_colour", "colour of the foundation", was.foundation.colour,
             now.foundation.colour,
             [](chart::Colour colour) { return std::string(chart::Name(colour)); });
}

void AddEnds(const Materials& was, const Materials& now, FieldList& fields) {
  fields.Add("materials.ends", "ends of the piece", was.ends, now.ends,
             [](chart::Ends ends) { return std::string(chart::Name(ends)); });
  AddFoundation(was, now, fields);
  fields.Add("materials.tail_use", "use of the tails", was.tail_use, now.tail_use,
             [](estimate::TailUse use) { return std::string(estimate::Name(use)); });
  fields.AddReal("materials.fringe_length_mm", "length of the fringe of tails",
                 was.fringe_length_mm, now.fringe_length_mm, kLength);
  fields.AddReal("materials.tail_length_mm", "length of a cut tail", was.tail_mm, now.tail_mm,
                 kLength);
  fields.AddReal("materials.slack", "slack of the carried strand", was.slack, now.slack, kPercent);
}

void AddBorder(const Materials& was, const Materials& now, FieldList& fields) {
  const auto name = [](estimate::YarnColour colour) { return std::string(estimate::Name(colour)); };
  fields.Add("materials.border.round_count", "rounds of the border", was.border.rounds,
             now.border.rounds, kCount);
  fields.Add("materials.border.role", "yarn of the border", was.border.colour, now.border.colour,
             name);
  fields.Add("materials.border.enclosing_double", "layers of the border",
             was.border.enclosing_double, now.border.enclosing_double, [](bool enclosing) {
               return std::string(enclosing ? "two, enclosing the ends" : "one");
             });
}

std::string FringeInWords(const AddedFringe& fringe) {
  return fmt::format("{} strands of {}, {}, {}", fringe.strands, estimate::Name(fringe.colour),
                     quantities::BothLengths(fringe.length_mm, quantities::kAllDigits),
                     estimate::Name(fringe.edge));
}

void AddFringes(const Materials& was, const Materials& now, FieldList& fields) {
  const size_t most = std::max(was.added_fringe.size(), now.added_fringe.size());
  for (size_t i = 0; i < most; ++i) {
    const auto at = [i](const Materials& materials) {
      return i < materials.added_fringe.size() ? std::optional(materials.added_fringe[i])
                                               : std::nullopt;
    };
    fields.Add(fmt::format("materials.added_fringe[{}]", i), "added fringe", at(was), at(now),
               FringeInWords);
  }
}

void AddAssumptions(const Assumptions& was, const Assumptions& now, FieldList& fields) {
  const std::string field = "materials.assumptions.";
  for (size_t i = 0; i < estimate::kStitchKinds; ++i) {
    const char* kind = estimate::Name(static_cast<estimate::StitchKind>(i));
    const auto add = [&](const char* name, const char* unit, double before, double after) {
      fields.AddReal(fmt::format("{}paths.{}.{}", field, kind, name),
                     fmt::format("assumed yarn in {}, times the {}", kind, unit), before, after,
                     kPlain);
    };
    add("across", "stitch pitch", was.paths[i].across, now.paths[i].across);
    add("up", "row pitch", was.paths[i].up, now.paths[i].up);
    add("diameters", "yarn diameter", was.paths[i].diameters, now.paths[i].diameters);
  }
  const auto add = [&](const char* name, const char* label, double Assumptions::*member,
                       const auto& words) {
    fields.AddReal(field + name, label, was.*member, now.*member, words);
  };
  add("model_relative_uncertainty", "assumed uncertainty of a yarn length",
      &Assumptions::model_relative_uncertainty, kPercent);
  add("size_relative_uncertainty", "assumed uncertainty of a size",
      &Assumptions::size_relative_uncertainty, kPercent);
  add("time_relative_uncertainty", "assumed uncertainty of the time",
      &Assumptions::time_relative_uncertainty, kPercent);
  add("maker_relative_spread", "assumed spread between makers", &Assumptions::maker_relative_spread,
      kPercent);
  add("fringe_allowance_mm", "assumed allowance for a fringe's knot",
      &Assumptions::fringe_allowance_mm, kLength);
  add("enclosed_tail_mm", "assumed length of an enclosed tail", &Assumptions::enclosed_tail_mm,
      kLength);
  add("stitches_per_minute", "assumed stitches per minute", &Assumptions::stitches_per_minute,
      kPlain);
  add("minutes_per_row_start", "assumed minutes per row start", &Assumptions::minutes_per_row_start,
      kPlain);
  fields.Add("materials.assumptions.path_covariance", "uncertainty of the stitch paths",
             was.path_covariance, now.path_covariance, [](const estimate::PathCovariance& c) {
               double variances = 0;
               for (size_t i = 0; i < estimate::kPathCoefficients; ++i) {
                 variances += estimate::CovarianceAt(c, i, i);
               }
               return fmt::format("{:.17g} in all (variances of the coefficients)", variances);
             });
}

}  // namespace

void AddMaterialsDifferences(const Materials& was, const Materials& now, FieldList& fields) {
  AddYarns(was, now, fields);
  fields.AddReal("materials.hook_mm", "hook", was.hook_mm, now.hook_mm,
                 [](double mm, int digits) { return quantities::Number(mm, digits) + " mm"; });
  AddGauge("materials.gauge", "", was.gauge, now.gauge, fields);
  AddGauge("materials.gauge_after_blocking", " after blocking", was.gauge_after_blocking,
           now.gauge_after_blocking, fields);
  fields.Add("materials.gauge_is_of_another_fabric", "fabric in which the gauge was counted",
             was.gauge_is_of_another_fabric, now.gauge_is_of_another_fabric,
             [](bool other) { return std::string(other ? "another" : "this one"); });
  AddEnds(was, now, fields);
  AddBorder(was, now, fields);
  AddFringes(was, now, fields);
  fields.Add("materials.swatch", "swatch", was.swatch, now.swatch,
             [](const estimate::Swatch& swatch) {
               return fmt::format("{} stitches by {} rows", swatch.stitches, swatch.rows);
             });
  fields.AddReal("materials.stitches_per_minute", "stitches per minute", was.stitches_per_minute,
                 now.stitches_per_minute, kPlain);
  fields.AddReal("materials.minutes_per_row_start", "minutes per row start",
                 was.minutes_per_row_start, now.minutes_per_row_start, kPlain);
  fields.AddReal("materials.assurance", "probability that a printed amount suffices", was.assurance,
                 now.assurance, kPercent);
  fields.Add("materials.item", "item", was.item, now.item,
             [](estimate::ItemKind kind) { return std::string(estimate::Name(kind)); });
  fields.Add("materials.intended_user", "made for", was.intended_user, now.intended_user,
             [](estimate::IntendedUser user) { return std::string(estimate::Name(user)); });
  AddAssumptions(was.assumptions, now.assumptions, fields);
  fields.Add("materials.calibration", "calibration", was.calibration, now.calibration, kAsItIs);
  fields.Add("materials.yarn_calibration.scope", "what the calibration was measured in",
             was.calibration_scope, now.calibration_scope, estimate::InWords);
}

}  // namespace rowproof::patterns
