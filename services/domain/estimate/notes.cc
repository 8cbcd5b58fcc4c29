#include "services/domain/estimate/notes.h"

#include "fmt/format.h"
#include "services/domain/chart/technique.h"
#include "services/domain/estimate/extents.h"
#include "services/domain/estimate/part_lengths.h"
#include "services/domain/estimate/weight_class.h"
#include "services/quantities/units.h"

namespace rowproof::estimate {
namespace {

// An end of 0 is open.
bool Within(double value, double low, double high) {
  return value >= low && (high == 0 || value <= high);
}

std::string Range(double low, double high) {
  if (high == 0) return fmt::format("{:g} and more", low);
  return low == 0 ? fmt::format("up to {:g}", high) : fmt::format("{:g} to {:g}", low, high);
}

// What decides whether ends fit, without a copy of the cells.
chart::Design WithoutCells(const chart::Design& design) {
  chart::Design made;
  made.technique = design.technique;
  made.facing = design.facing;
  made.form = design.form;
  return made;
}

class NoteList {
 public:
  NoteList(const chart::Design& design, const Materials& materials)
      : design_(design), materials_(materials) {}

  std::vector<Note> Take() {
    for (const YarnColour colour : YarnsUsed(design_, materials_)) AddYarn(colour);
    if (materials_.gauge_is_of_another_fabric) {
      Add(NoteCode::kGaugeOfAnotherFabric,
          "The gauge was counted in another technique, facing or ends: count it in this fabric "
          "before you rely on the figures.");
    }
    AddEnds();
    AddFoundation();
    AddCalibrationFabric();
    return std::move(notes_);
  }

 private:
  void Add(NoteCode code, std::string sentence) { notes_.push_back({code, std::move(sentence)}); }

  void AddYarn(YarnColour colour) {
    const Yarn& yarn = YarnOf(materials_, colour);
    AddCalibrationClass(yarn, colour);
    if (!yarn.weight_class.has_value()) return;
    const WeightClass& weight = *FindWeightClass(*yarn.weight_class);
    const std::string who =
        fmt::format("Yarn {}, weight class {} ({})", Name(colour), weight.number, weight.name);
    const auto wraps = yarn.wraps_per_inch;
    // The thinnest class is open above, the heaviest below.
    const double most_wraps = weight.number == 0 ? 0 : weight.most_wraps_per_inch;
    if (wraps.has_value() && !Within(*wraps, weight.fewest_wraps_per_inch, most_wraps)) {
      Add(NoteCode::kWrapsOutsideClass,
          fmt::format("{}: {:g} wraps per inch is unusual; the class has {}.", who, *wraps,
                      Range(weight.fewest_wraps_per_inch, most_wraps)));
    }
    if (const auto tex = TexOf(yarn); tex.has_value()) {
      const double metres = 1e5 / *tex;
      if (!Within(metres, weight.least_m_per_100g, weight.most_m_per_100g)) {
        Add(NoteCode::kBandOutsideClass,
            fmt::format("{}: {:.0f} m in 100 g is unusual; the class has {} m (common practice).",
                        who, metres, Range(weight.least_m_per_100g, weight.most_m_per_100g)));
      }
    }
    AddHook(who, weight);
    AddGauge(who, weight);
  }

  void AddHook(const std::string& who, const WeightClass& weight) {
    const auto hook = materials_.hook_mm;
    if (!hook.has_value()) return;
    if (Within(*hook, weight.thinnest_hook_mm, weight.thickest_hook_mm)) return;
    const bool thinner = *hook < weight.thinnest_hook_mm;
    Add(NoteCode::kHookOutsideClass,
        fmt::format(
            "{}: a hook of {:g} mm is unusual; the class has {} mm{}.", who, *hook,
            Range(weight.thinnest_hook_mm, weight.thickest_hook_mm),
            thinner ? ", though mosaic is often worked one or two sizes smaller (common practice)"
                    : ""));
  }

  // Class 0 is stated in double crochet, which says nothing here.
  void AddGauge(const std::string& who, const WeightClass& weight) {
    if (weight.number == 0) return;
    const double in_4_in =
        materials_.gauge.stitches_per_decimetre * quantities::kFourInchesMm / 100;
    if (Within(in_4_in, weight.fewest_stitches_in_4_in, weight.most_stitches_in_4_in)) return;
    const bool denser = in_4_in > weight.most_stitches_in_4_in;
    Add(NoteCode::kGaugeOutsideClass,
        fmt::format("{}: {:.1f} stitches in 4 in is unusual; the class has {} in single "
                    "crochet{}.",
                    who, in_4_in,
                    Range(weight.fewest_stitches_in_4_in, weight.most_stitches_in_4_in),
                    denser ? ", though mosaic is often worked denser (common practice)" : ""));
  }

  void AddEnds() {
    if (!materials_.ends.has_value() || *materials_.ends == design_.ends) return;
    chart::Design made = WithoutCells(design_);
    made.ends = *materials_.ends;
    const chart::EndsFit fit = chart::FitOfEnds(made);
    if (fit.verdict == chart::EndsFit::Verdict::kFits) return;
    Add(NoteCode::kEndsDoNotFit,
        fmt::format("The estimate has {} ends, but {}.", chart::Name(*materials_.ends), fit.why));
  }

  void AddFoundation() {
    const auto declared = design_.foundation_colour;
    if (!declared.has_value()) return;
    const auto made = materials_.foundation.colour;
    if (made.has_value() && *made != *declared) {
      Add(NoteCode::kFoundationContradicted,
          fmt::format("The chart has a worked foundation in {}, the materials one in {}; the "
                      "chart's is used.",
                      chart::Name(*declared), chart::Name(*made)));
    }
  }

  // A yarn without a class is compared by its wraps per inch.
  void AddCalibrationClass(const Yarn& yarn, YarnColour colour) {
    if (!materials_.calibration_scope.has_value()) return;
    const auto measured = materials_.calibration_scope->weight_class;
    if (!measured.has_value()) return;
    const WeightClass& weight = *FindWeightClass(*measured);
    std::string met;
    if (yarn.weight_class.has_value()) {
      if (*yarn.weight_class == *measured) return;
      met = fmt::format("weight class {}", *yarn.weight_class);
    } else {
      const double most = weight.number == 0 ? 0 : weight.most_wraps_per_inch;
      if (Within(*yarn.wraps_per_inch, weight.fewest_wraps_per_inch, most)) return;
      met = fmt::format("{:g} wraps per inch", *yarn.wraps_per_inch);
    }
    Add(NoteCode::kCalibrationOfAnotherClass,
        fmt::format("Yarn {} has {}, but the calibration was measured in weight class {} ({}): "
                    "measure a swatch of this yarn before you rely on the figures.",
                    Name(colour), met, weight.number, weight.name));
  }

  void AddCalibrationFabric() {
    if (!materials_.calibration_scope.has_value()) return;
    const CalibrationScope& scope = *materials_.calibration_scope;
    std::string measured;
    std::string made;
    const auto compare = [&](const auto& then, const auto& now, const char* before) {
      if (!then.has_value() || *then == now) return;
      measured += fmt::format("{}{}{}", measured.empty() ? "" : ", ", before, chart::Name(*then));
      made += fmt::format("{}{}{}", made.empty() ? "" : ", ", before, chart::Name(now));
    };
    compare(scope.technique, design_.technique, "");
    compare(scope.facing, chart::FacingOf(design_), "");
    compare(scope.ends, materials_.ends.value_or(design_.ends), "ends ");
    if (measured.empty()) return;
    Add(NoteCode::kCalibrationOfAnotherFabric,
        fmt::format("The calibration was measured in another fabric ({}, not {}): measure a swatch "
                    "of this fabric before you rely on the figures.",
                    measured, made));
  }

  const chart::Design& design_;
  const Materials& materials_;
  std::vector<Note> notes_;
};

void AddYarn(const Yarn& yarn, YarnColour colour, std::vector<std::string>& assumed) {
  const YarnDiameter diameter = DiameterOf(yarn);
  if (diameter.assumed) {
    assumed.push_back(fmt::format(
        "Yarn {}: {:.1f} wraps per inch, the middle of weight class {}, because none were given.",
        Name(colour), quantities::kMmPerInch / diameter.mm, *yarn.weight_class));
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

std::vector<Note> Notes(const chart::Design& design, const Materials& materials) {
  return NoteList(design, materials).Take();
}

const char* CodeName(NoteCode code) {
  constexpr const char* kNames[] = {"wraps-outside-class",         "band-outside-class",
                                    "hook-outside-class",          "gauge-outside-class",
                                    "gauge-of-another-fabric",     "ends-do-not-fit",
                                    "foundation-contradicted",     "calibration-of-another-fabric",
                                    "calibration-of-another-class"};
  return kNames[static_cast<size_t>(code)];
}

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
