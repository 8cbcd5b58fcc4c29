#include "services/domain/testcalls/report.h"

#include <algorithm>
#include <cmath>

#include "services/domain/chart/expand.h"
#include "services/domain/check.h"
#include "services/domain/estimate/uncertainty.h"
#include "services/quantities/units.h"

namespace rowproof::testcalls {
namespace {

UsedYarn FromLength(const YarnUse& use, const estimate::Yarn* yarn) {
  UsedYarn used;
  used.length_m = *use.length_m;
  used.length_uncertainty_m = estimate::RectangularUncertainty(use.length_step_m / 2);
  const std::optional<double> tex = yarn == nullptr ? std::nullopt : estimate::TexOf(*yarn);
  if (tex.has_value()) {
    used.mass_g = quantities::MassG(*used.length_m * 1000, *tex);
    used.mass_uncertainty_g = quantities::MassG(*used.length_uncertainty_m * 1000, *tex);
  }
  return used;
}

UsedYarn FromWeights(const YarnUse& use, const estimate::Yarn* yarn) {
  UsedYarn used;
  used.mass_g = *use.mass_before_g - *use.mass_after_g;
  // Two independent readings of one scale.
  used.mass_uncertainty_g = std::sqrt(2.0) * estimate::RectangularUncertainty(use.scale_step_g / 2);
  const std::optional<double> tex = yarn == nullptr ? std::nullopt : estimate::TexOf(*yarn);
  if (tex.has_value()) {
    used.length_m = quantities::LengthMm(*used.mass_g, *tex) / 1000;
    used.length_uncertainty_m = quantities::LengthMm(*used.mass_uncertainty_g, *tex) / 1000;
  }
  return used;
}

const YarnUse* FindUse(const Report& report, estimate::YarnColour colour) {
  const auto found = std::find_if(report.yarn.begin(), report.yarn.end(),
                                  [&](const YarnUse& use) { return use.colour == colour; });
  return found == report.yarn.end() ? nullptr : &*found;
}

void SetYarns(const Report& report, estimate::Materials& materials) {
  for (const YarnUse& use : report.yarn) {
    if (!use.yarn.has_value()) continue;
    if (estimate::Yarn* yarn = estimate::FindYarn(materials, use.colour); yarn != nullptr) {
      *yarn = *use.yarn;
    } else if (use.colour == estimate::YarnColour::kBorder) {
      materials.border_yarn = *use.yarn;
    }
  }
}

// A valid report's readings always make a gauge.
estimate::Gauge GaugeOf(const std::vector<estimate::GaugeReading>& readings) {
  const auto gauge = estimate::GaugeFromReadings(readings);
  ROWPROOF_CHECK(gauge.ok());
  return *gauge;
}

void SetGauges(const Report& report, TesterMaterials& made) {
  made.gauge_assumed = report.gauge_before.empty();
  if (!made.gauge_assumed) {
    made.materials.gauge = GaugeOf(report.gauge_before);
    made.materials.gauge_is_of_another_fabric = false;
    // The version's gauge after blocking says nothing about another hand's fabric.
    made.materials.gauge_after_blocking.reset();
  }
  if (!report.gauge_after.empty())
    made.materials.gauge_after_blocking = GaugeOf(report.gauge_after);
}

}  // namespace

int SizeIndex(const chart::Design& design, const std::string& size) {
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    if (design.sizes[i].name == size) return static_cast<int>(i);
  }
  return -1;
}

int WorkedRowCount(const chart::Design& design, int size) {
  return chart::WorkedRows(design) * chart::ExpandedRows(design, size);
}

const estimate::Yarn* YarnInUse(const YarnUse& use, const estimate::Materials& version_materials) {
  return use.yarn.has_value() ? &*use.yarn : estimate::FindYarn(version_materials, use.colour);
}

std::vector<UsedYarn> YarnUsed(const Report& report, const estimate::Materials& version_materials) {
  std::vector<UsedYarn> used;
  for (const YarnUse& use : report.yarn) {
    const estimate::Yarn* yarn = YarnInUse(use, version_materials);
    if (use.length_m.has_value()) {
      used.push_back(FromLength(use, yarn));
    } else if (use.mass_before_g.has_value()) {
      used.push_back(FromWeights(use, yarn));
    } else {
      continue;
    }
    used.back().colour = use.colour;
    used.back().with_swatch = use.with_swatch;
    used.back().with_border = use.with_border;
  }
  return used;
}

TesterMaterials MaterialsOf(const Report& report, const estimate::Materials& version_materials,
                            std::optional<estimate::YarnColour> yarn) {
  TesterMaterials made;
  made.materials = version_materials;
  SetYarns(report, made.materials);
  if (report.hook_mm.has_value()) made.materials.hook_mm = report.hook_mm;
  if (report.ends.has_value()) made.materials.ends = report.ends;
  SetGauges(report, made);
  const YarnUse* use = yarn.has_value() ? FindUse(report, *yarn) : nullptr;
  const bool with_swatch = use != nullptr && use->with_swatch;
  made.swatch_unknown = with_swatch && !version_materials.swatch.has_value();
  if (!with_swatch) made.materials.swatch.reset();
  const bool without_border =
      use != nullptr && !use->with_border && use->colour != estimate::YarnColour::kBorder;
  if (without_border) made.materials.border.rounds = 0;
  if (made.materials.border.rounds == 0) made.materials.border.enclosing_double = false;
  return made;
}

const char* Name(WorkedFrom worked_from) {
  switch (worked_from) {
    case WorkedFrom::kChart:
      return "chart";
    case WorkedFrom::kText:
      return "text";
    case WorkedFrom::kBoth:
      return "both";
  }
  return "";
}

const char* Name(chart::Hand hand) { return hand == chart::Hand::kRight ? "right" : "left"; }

const char* Name(chart::Terms terms) { return terms == chart::Terms::kUs ? "US" : "UK"; }

}  // namespace rowproof::testcalls
