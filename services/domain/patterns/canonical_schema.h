// The tags, order and types of the canonical encoding's formats, written once for the writer and
// the reader. Never changed: another layout is another format. Used by canonical.cc and
// canonical_decoding.cc only.
//
// An archive has format(), and the functions Number, Flag, Enum, Real, Text, Cells, Colours,
// Record, List, Paths and Optional, each with the field's tag; T is the structure or its const.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_CANONICAL_SCHEMA_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_CANONICAL_SCHEMA_H_

#include "services/domain/patterns/version_content.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::patterns {

// Size of the assumption's table in formats 1 to 5.
inline constexpr size_t kStitchPathsKept = 6;
static_assert(estimate::kStitchKinds == kStitchPathsKept, "a stitch more needs a new format");

// What format 1 has room for.
inline constexpr size_t kFormat1Yarns = 3;  // A, B and the border's
inline constexpr chart::Colour kFormat1LastColour = chart::Colour::kB;
inline constexpr estimate::YarnColour kFormat1LastYarn = estimate::YarnColour::kBorder;

inline chart::Colour LastColour(uint32_t format) {
  return format == 1 ? kFormat1LastColour : chart::Colour::kH;
}
inline estimate::YarnColour LastYarn(uint32_t format) {
  return format == 1 ? kFormat1LastYarn : estimate::YarnColour::kH;
}

template <typename Archive, typename T>
void BandFields(Archive& a, T& band) {
  a.Number(1, band.first);
  a.Number(2, band.last);
}

template <typename Archive, typename T>
void SizeFields(Archive& a, T& size) {
  a.Text(1, size.name, chart::kLongestSizeName);
  a.Number(2, size.stitch_repeats);
  a.Number(3, size.row_repeats);
}

template <typename Archive, typename T>
void DesignFields(Archive& a, T& design) {
  a.Enum(1, design.technique, chart::Technique::kInset);
  a.Enum(2, design.facing, chart::Facing::kPaired);
  a.Enum(3, design.ends, chart::Ends::kWaiting);
  a.Enum(4, design.form, chart::Form::kTube);
  a.Enum(5, design.convention, chart::Convention::kWorking);
  a.Cells(6, design.cells);  // three fields: 6 rows, 7 stitches, 8 cells
  a.Colours(9, design.row_colours, chart::kMostRows, LastColour(a.format()));
  a.Optional(10, design.stitch_band,
             [&a](auto& band) { a.Record(10, band, [](auto& r, auto& b) { BandFields(r, b); }); });
  a.Optional(11, design.row_band,
             [&a](auto& band) { a.Record(11, band, [](auto& r, auto& b) { BandFields(r, b); }); });
  a.List(12, design.sizes, static_cast<size_t>(chart::kMostSizes),
         [](auto& r, auto& size) { SizeFields(r, size); });
  a.Number(13, design.first_row_number);
  if (a.format() == 1) return;
  a.Colours(14, design.picture_colours,
            static_cast<size_t>(chart::kMostRows) * static_cast<size_t>(chart::kMostStitches),
            chart::Colour::kH);
  a.Optional(15, design.foundation_colour,
             [&a](auto& value) { a.Enum(15, value, chart::Colour::kH); });
}

template <typename Archive, typename T>
void YarnFields(Archive& a, T& yarn) {
  a.Text(1, yarn.name, estimate::kLongestYarnText);
  a.Text(2, yarn.fibre, estimate::kLongestYarnText);
  a.Optional(3, yarn.weight_class, [&a](auto& value) { a.Number(3, value); });
  a.Optional(4, yarn.wraps_per_inch, [&a](auto& value) { a.Real(4, value); });
  a.Optional(5, yarn.ball_length_m, [&a](auto& value) { a.Real(5, value); });
  a.Optional(6, yarn.ball_mass_g, [&a](auto& value) { a.Real(6, value); });
  if (a.format() == 1) return;
  a.Optional(7, yarn.tex, [&a](auto& value) { a.Real(7, value); });
}

template <typename Archive, typename T>
void GaugeFields(Archive& a, T& gauge) {
  a.Real(1, gauge.stitches_per_decimetre);
  a.Real(2, gauge.rows_per_decimetre);
  a.Optional(3, gauge.stitches_uncertainty_per_decimetre, [&a](auto& value) { a.Real(3, value); });
  a.Optional(4, gauge.rows_uncertainty_per_decimetre, [&a](auto& value) { a.Real(4, value); });
}

template <typename Archive, typename T>
void FoundationFields(Archive& a, T& foundation) {
  a.Enum(1, foundation.kind, estimate::FoundationKind::kWorked);
  a.Optional(2, foundation.colour, [&a](auto& value) { a.Enum(2, value, LastColour(a.format())); });
}

template <typename Archive, typename T>
void BorderFields(Archive& a, T& border) {
  a.Number(1, border.rounds);
  a.Enum(2, border.colour, LastYarn(a.format()));
  a.Flag(3, border.enclosing_double);
}

template <typename Archive, typename T>
void FringeFields(Archive& a, T& fringe) {
  a.Enum(1, fringe.colour, LastYarn(a.format()));
  a.Number(2, fringe.strands);
  a.Real(3, fringe.length_mm);
  a.Enum(4, fringe.edge, estimate::FringeEdge::kFoundationAndTop);
}

template <typename Archive, typename T>
void SwatchFields(Archive& a, T& swatch) {
  a.Number(1, swatch.stitches);
  a.Number(2, swatch.rows);
}

template <typename Archive, typename T>
void PathFields(Archive& a, T& path) {
  a.Real(1, path.across);
  a.Real(2, path.up);
  a.Real(3, path.diameters);
}

template <typename Archive, typename T>
void AssumptionFields(Archive& a, T& assumptions) {
  a.Paths(1, assumptions.paths, [](auto& r, auto& path) { PathFields(r, path); });
  a.Real(2, assumptions.model_relative_uncertainty);
  a.Real(3, assumptions.size_relative_uncertainty);
  a.Real(4, assumptions.time_relative_uncertainty);
  a.Real(5, assumptions.maker_relative_spread);
  a.Real(6, assumptions.fringe_allowance_mm);
  a.Real(7, assumptions.enclosed_tail_mm);
  a.Real(8, assumptions.stitches_per_minute);
  a.Real(9, assumptions.minutes_per_row_start);
}

template <typename Archive, typename T>
void ScopeFields(Archive& a, T& scope) {
  a.Optional(1, scope.technique, [&a](auto& value) { a.Enum(1, value, chart::Technique::kInset); });
  a.Optional(2, scope.facing, [&a](auto& value) { a.Enum(2, value, chart::Facing::kPaired); });
  a.Optional(3, scope.ends, [&a](auto& value) { a.Enum(3, value, chart::Ends::kWaiting); });
  a.Optional(4, scope.weight_class, [&a](auto& value) { a.Number(4, value); });
}

template <typename Archive, typename T>
void MaterialsFields(Archive& a, T& materials) {
  const auto yarn = [](auto& r, auto& value) { YarnFields(r, value); };
  const auto gauge = [](auto& r, auto& value) { GaugeFields(r, value); };
  a.Record(1, materials.yarn_a, yarn);
  a.Record(2, materials.yarn_b, yarn);
  a.Optional(3, materials.border_yarn, [&](auto& value) { a.Record(3, value, yarn); });
  a.Optional(4, materials.hook_mm, [&a](auto& value) { a.Real(4, value); });
  a.Record(5, materials.gauge, gauge);
  a.Optional(6, materials.gauge_after_blocking, [&](auto& value) { a.Record(6, value, gauge); });
  a.Flag(7, materials.gauge_is_of_another_fabric);
  a.Optional(8, materials.ends, [&a](auto& value) { a.Enum(8, value, chart::Ends::kWaiting); });
  a.Record(9, materials.foundation, [](auto& r, auto& value) { FoundationFields(r, value); });
  a.Enum(10, materials.tail_use, estimate::TailUse::kFringe);
  a.Real(11, materials.fringe_length_mm);
  a.Optional(12, materials.tail_mm, [&a](auto& value) { a.Real(12, value); });
  a.Real(13, materials.slack);
  a.Record(14, materials.border, [](auto& r, auto& value) { BorderFields(r, value); });
  a.List(15, materials.added_fringe, a.format() == 1 ? kFormat1Yarns : estimate::kYarnColours,
         [](auto& r, auto& value) { FringeFields(r, value); });
  a.Optional(16, materials.swatch, [&a](auto& value) {
    a.Record(16, value, [](auto& r, auto& swatch) { SwatchFields(r, swatch); });
  });
  a.Optional(17, materials.stitches_per_minute, [&a](auto& value) { a.Real(17, value); });
  a.Optional(18, materials.minutes_per_row_start, [&a](auto& value) { a.Real(18, value); });
  a.Real(19, materials.assurance);
  a.Enum(20, materials.item, estimate::ItemKind::kBabyItem);
  a.Enum(21, materials.intended_user, estimate::IntendedUser::kSmallChild);
  a.Record(22, materials.assumptions, [](auto& r, auto& value) { AssumptionFields(r, value); });
  if (a.format() == 1) return;
  a.List(23, materials.more_yarns, estimate::kMostMoreYarns, yarn);
  a.Text(24, materials.calibration, estimate::kLongestCalibrationName);
  a.Optional(25, materials.assumptions.path_covariance, [&a](auto& values) {
    a.List(25, values, estimate::kCovarianceNumbers,
           [](auto& r, auto& value) { r.Real(1, value); });
  });
  if (a.format() < 4) return;
  a.Optional(26, materials.calibration_scope, [&a](auto& value) {
    a.Record(26, value, [](auto& r, auto& scope) { ScopeFields(r, scope); });
  });
}

template <typename Archive, typename T>
void RowStyleFields(Archive& a, T& style) {
  a.Optional(1, style.hand, [&a](auto& value) { a.Enum(1, value, chart::Hand::kLeft); });
  a.Optional(2, style.terms, [&a](auto& value) { a.Enum(2, value, chart::Terms::kUk); });
  a.Optional(3, style.repeats,
             [&a](auto& value) { a.Enum(3, value, rows::RepeatStyle::kAsterisk); });
  a.Optional(4, style.nesting_depth, [&a](auto& value) { a.Number(4, value); });
  a.Flag(5, style.every_row);
  a.List(6, style.colour_names, chart::kMostColours,
         [](auto& r, auto& name) { r.Text(1, name, rows::kLongestColourName); });
}

template <typename Archive, typename T>
void ContentFields(Archive& a, T& content) {
  a.Text(1, content.title, kLongestTitle);
  a.Record(2, content.design, [](auto& r, auto& value) { DesignFields(r, value); });
  a.Record(3, content.materials, [](auto& r, auto& value) { MaterialsFields(r, value); });
  a.Text(4, content.introduction, kLongestPassage);
  a.Text(5, content.notes, kLongestPassage);
  a.Text(6, content.finishing, kLongestPassage);
  a.Text(7, content.level, kLongestLevel);
  a.Text(8, content.designer_text, kLongestDesignerText);
  const auto terms = [&a](auto& value) { a.Enum(9, value, chart::Terms::kUk); };
  if (a.format() < 3) {
    terms(*content.designer_text_terms);
  } else {
    a.Optional(9, content.designer_text_terms, terms);
  }
  a.Enum(10, content.designer_text_hand, chart::Hand::kLeft);
  if (a.format() < 5) return;
  a.Record(11, content.row_style, [](auto& r, auto& value) { RowStyleFields(r, value); });
}

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_CANONICAL_SCHEMA_H_
