#include "tests/rpc/wrong_requests.h"

#include <string>

#include "tests/rpc/chart_service_fixture.h"

namespace rowproof::rpc {
namespace {

v1::Yarn& AddYarn(v1::YarnRole role, v1::Materials* materials) {
  v1::ColourYarn* added = materials->add_yarns();
  added->set_role(role);
  added->mutable_yarn()->set_weight_class(4);
  return *added->mutable_yarn();
}

WrongChanges<v1::Materials> WrongYarns() {
  return {
      [](auto& m) { m.clear_yarns(); },
      [](auto& m) { m.mutable_yarns()->DeleteSubrange(1, 1); },
      [](auto& m) { m.mutable_yarns(1)->clear_role(); },
      [](auto& m) { m.mutable_yarns(1)->set_role(static_cast<v1::YarnRole>(77)); },
      [](auto& m) { m.mutable_yarns(1)->set_role(v1::YARN_ROLE_A); },
      [](auto& m) { AddYarn(v1::YARN_ROLE_D, &m); },
      [](auto& m) {
        for (int i = 0; i < 20; ++i) AddYarn(v1::YARN_ROLE_C, &m);
      },
      [](auto& m) { m.mutable_yarns(0)->mutable_yarn()->set_name("a\nb"); },
      [](auto& m) { m.mutable_yarns(1)->mutable_yarn()->set_fibre(std::string(500, 'w')); },
      [](auto& m) { m.mutable_yarns(1)->mutable_yarn()->set_weight_class(9); },
      [](auto& m) { m.mutable_yarns(2)->mutable_yarn()->clear_weight_class(); },
      [](auto& m) { m.mutable_yarns(2)->mutable_yarn()->set_wraps_per_inch(kNan); },
      [](auto& m) { m.mutable_yarns(2)->mutable_yarn()->mutable_ball_band()->set_mass_g(50); },
      [](auto& m) { m.mutable_yarns(1)->mutable_yarn()->mutable_ball_band()->set_length_m(85); },
      [](auto& m) {
        m.mutable_yarns(1)->mutable_yarn()->mutable_ball_band()->set_length_m(1);
        m.mutable_yarns(1)->mutable_yarn()->mutable_ball_band()->set_mass_g(90'000);
      },
      [](auto& m) { m.mutable_yarns(1)->mutable_yarn()->set_tex(0.5); },
      [](auto& m) {
        m.mutable_yarns(1)->mutable_yarn()->mutable_ball_band()->set_length_m(85);
        m.mutable_yarns(1)->mutable_yarn()->mutable_ball_band()->set_mass_g(50);
        m.mutable_yarns(1)->mutable_yarn()->set_tex(500);
      },
  };
}

WrongChanges<v1::Materials> WrongGauges() {
  return {
      [](auto& m) { m.clear_gauge(); },
      [](auto& m) { m.mutable_gauge()->set_rows_per_decimetre(kNan); },
      [](auto& m) { m.mutable_gauge()->set_stitches_uncertainty_per_decimetre(-1); },
      [](auto& m) { m.mutable_gauge_after_blocking()->set_stitches_per_decimetre(14); },
      [](auto& m) { m.add_gauge_readings()->set_rows(3); },
      [](auto& m) {
        m.clear_gauge();
        m.add_gauge_readings()->set_rows(3);
      },
      [](auto& m) {
        m.add_gauge_readings_after_blocking()->set_stitches(14);
        m.mutable_gauge_readings_after_blocking(0)->set_rows(16);
        m.mutable_gauge_readings_after_blocking(0)->set_row_span_mm(-1);
      },
  };
}

WrongChanges<v1::Materials> WrongEdges() {
  return {
      [](auto& m) { m.set_foundation(static_cast<v1::FoundationKind>(9)); },
      [](auto& m) { m.set_foundation_colour(static_cast<v1::Colour>(99)); },
      [](auto& m) { m.set_foundation_colour(v1::COLOUR_C); },
      [](auto& m) { m.set_tail_use(static_cast<v1::TailUse>(9)); },
      [](auto& m) { m.set_tail_use(v1::TAIL_USE_FRINGE); },
      [](auto& m) { m.set_tail_length_mm(-1); },
      [](auto& m) { m.mutable_border()->set_round_count(-1); },
      [](auto& m) { m.mutable_border()->set_role(static_cast<v1::YarnRole>(20)); },
      [](auto& m) {
        m.mutable_border()->set_round_count(2);
        m.mutable_border()->set_role(v1::YARN_ROLE_C);
      },
      [](auto& m) { m.add_added_fringe()->set_length_mm(5); },
      [](auto& m) { m.add_added_fringe()->set_strand_count(5); },
      [](auto& m) { m.add_added_fringe()->set_edge(static_cast<v1::FringeEdge>(5)); },
      [](auto& m) {
        for (int i = 0; i < 2; ++i) {
          m.add_added_fringe()->set_strand_count(5);
          m.mutable_added_fringe(i)->set_length_mm(50);
        }
      },
      [](auto& m) {
        for (int i = 0; i < 20; ++i) m.add_added_fringe();
      },
      [](auto& m) { m.mutable_swatch()->set_row_count(4); },
      [](auto& m) { m.mutable_swatch()->set_stitch_count(4); },
  };
}

WrongChanges<v1::Materials> WrongCalibrationsOfAMaterials() {
  return {
      [](auto& m) { m.set_calibration("mine"); },
      [](auto& m) { m.mutable_yarn_calibration()->set_name("mine"); },
      [](auto& m) { m.mutable_yarn_calibration()->clear_name(); },
      [](auto& m) {
        m.mutable_yarn_calibration()->set_name("mine");
        m.mutable_yarn_calibration()->add_paths()->set_stitch(v1::STITCH_KIND_SC);
        m.mutable_yarn_calibration()->mutable_paths(0)->set_up(kNan);
      },
      [](auto& m) {
        m.mutable_yarn_calibration()->set_name("mine");
        for (int i = 1; i <= 6; ++i) {
          m.mutable_yarn_calibration()->add_paths()->set_stitch(static_cast<v1::StitchKind>(i));
        }
      },
  };
}

WrongChanges<v1::Materials> WrongSettings() {
  return {
      [](auto& m) { m.set_hook_mm(0); },
      [](auto& m) { m.set_ends(static_cast<v1::Ends>(9)); },
      [](auto& m) { m.set_slack(3); },
      [](auto& m) { m.set_stitches_per_minute(0); },
      [](auto& m) { m.set_minutes_per_row_start(-1); },
      [](auto& m) { m.set_assurance(1); },
      [](auto& m) { m.set_item(static_cast<v1::ItemKind>(50)); },
  };
}

WrongChanges<v1::Design> WrongCharts() {
  return {
      [](auto& d) { d.clear_source(); },
      [](auto& d) { d.set_technique(static_cast<v1::Technique>(9)); },
      [](auto& d) { d.set_facing(static_cast<v1::Facing>(-1)); },
      [](auto& d) { d.set_ends(static_cast<v1::Ends>(9)); },
      [](auto& d) { d.set_form(static_cast<v1::Form>(9)); },
      [](auto& d) {
        d.set_form(v1::FORM_TUBE);
        d.set_technique(v1::TECHNIQUE_INSET);
      },
      [](auto& d) { d.mutable_chart()->set_row_count(0); },
      [](auto& d) { d.mutable_chart()->set_stitch_count(5000); },
      [](auto& d) { d.mutable_chart()->set_convention(static_cast<v1::Convention>(9)); },
      [](auto& d) { d.mutable_chart()->mutable_cells()->pop_back(); },
      [](auto& d) { d.mutable_chart()->mutable_cells()->back() = '\x80'; },
      [](auto& d) { d.mutable_chart()->add_row_colours(v1::COLOUR_A); },
      [](auto& d) { d.mutable_chart()->add_row_colours(static_cast<v1::Colour>(9)); },
      [](auto& d) {
        for (int i = 0; i < 5; ++i) d.mutable_chart()->add_row_colours(v1::COLOUR_C);
      },
      [](auto& d) { d.mutable_chart()->set_picture_colours("A"); },
      [](auto& d) { d.mutable_chart()->set_picture_colours(std::string(25, '\x02')); },
      [](auto& d) { d.mutable_chart()->set_picture_colours(std::string(25, '\x0b')); },
  };
}

WrongChanges<v1::Design> WrongSizesAndSources() {
  return {
      [](auto& d) { d.mutable_stitch_band()->set_first(3); },
      [](auto& d) {
        d.mutable_row_band()->set_first(3);
        d.mutable_row_band()->set_last(9);
      },
      [](auto& d) { d.add_sizes()->set_name(""); },
      [](auto& d) {
        d.add_sizes()->set_name("S");
        d.add_sizes()->set_name("S");
      },
      [](auto& d) {
        d.add_sizes()->set_name("S");
        d.mutable_sizes(0)->set_stitch_repeat_count(3);
      },
      [](auto& d) {
        d.add_sizes()->set_name("S");
        d.mutable_sizes(0)->set_row_repeat_count(-3);
      },
      [](auto& d) {
        for (int i = 0; i < 30; ++i) d.add_sizes()->set_name(std::to_string(i));
      },
      [](auto& d) { d.set_first_row_number(-4); },
      [](auto& d) { d.set_foundation_colour(static_cast<v1::Colour>(9)); },
      [](auto& d) { d.mutable_file()->set_content("what is this?"); },
      [](auto& d) { d.mutable_file()->set_content("A,B\nB,A,A,A\n"); },
      [](auto& d) { d.mutable_file()->set_content("P1 0 0\n"); },
      [](auto& d) { d.mutable_file()->set_tolerance(300); },
      [](auto& d) { d.mutable_file()->set_colour_a("white"); },
      [](auto& d) {
        d.mutable_file()->set_content("A,B\nB,A\n");
        d.mutable_file()->add_row_colours(v1::COLOUR_A);
      },
  };
}

// Changes of the first measurement's swatch and of the second one's piece.
WrongChanges<v1::SwatchMeasurement> WrongSwatches() {
  return {
      [](auto& s) { s.clear_stitches(); },
      [](auto& s) { s.mutable_stitches(1)->set_count(kNan); },
      [](auto& s) { s.mutable_stitches(1)->clear_stitch(); },
      [](auto& s) { s.mutable_stitches(1)->set_stitch(v1::STITCH_KIND_SC); },
      [](auto& s) { s.set_row_start_count(-1); },
      [](auto& s) { s.set_tail_length_mm(-1); },
      [](auto& s) { s.clear_gauge(); },
      [](auto& s) { s.add_gauge_readings(); },
      [](auto& s) {
        s.clear_gauge();
        s.add_gauge_readings()->set_stitches(kNan);
      },
      [](auto& s) { s.mutable_yarn()->Clear(); },
      [](auto& s) { s.mutable_yarn()->mutable_ball_band()->set_mass_g(4); },
      [](auto& s) { s.set_length_mm(0); },
      [](auto& s) { s.set_length_mm(90'000); },
      [](auto& s) { s.set_mass_g(kNan); },
      [](auto& s) { s.set_scale_step(-1); },
      [](auto& s) { s.set_relative_spread(2); },
  };
}

WrongChanges<v1::PieceMeasurement> WrongPieces() {
  return {
      [](auto& p) { p.clear_design(); },
      [](auto& p) { p.mutable_design()->mutable_stitch_band()->set_last(90); },
      [](auto& p) { p.clear_materials(); },
      [](auto& p) { p.mutable_materials()->mutable_yarns(2)->mutable_yarn()->Clear(); },
      [](auto& p) { p.set_size("none"); },
      [](auto& p) { p.set_last_row(50); },
      [](auto& p) { p.set_role(v1::YARN_ROLE_H); },
      [](auto& p) { p.set_role(v1::YARN_ROLE_BORDER); },
      [](auto& p) { p.clear_used(); },
      [](auto& p) { p.set_mass_g(5); },
      [](auto& p) { p.set_length_mm(kNan); },
      [](auto& p) { p.set_scale_step(kNan); },
      [](auto& p) { p.set_relative_spread(-1); },
  };
}

template <typename Message>
void Append(const WrongChanges<Message>& more, WrongChanges<Message>* to) {
  to->insert(to->end(), more.begin(), more.end());
}

}  // namespace

v1::Materials GoodMaterials() {
  v1::Materials materials;
  materials.mutable_gauge()->set_stitches_per_decimetre(14);
  materials.mutable_gauge()->set_rows_per_decimetre(16);
  AddYarn(v1::YARN_ROLE_BORDER, &materials);
  AddYarn(v1::YARN_ROLE_B, &materials);
  AddYarn(v1::YARN_ROLE_A, &materials);
  return materials;
}

WrongChanges<v1::Materials> WrongMaterials() {
  WrongChanges<v1::Materials> changes = WrongYarns();
  Append(WrongGauges(), &changes);
  Append(WrongEdges(), &changes);
  Append(WrongSettings(), &changes);
  Append(WrongCalibrationsOfAMaterials(), &changes);
  return changes;
}

WrongChanges<v1::Design> WrongDesigns() {
  WrongChanges<v1::Design> changes = WrongCharts();
  Append(WrongSizesAndSources(), &changes);
  return changes;
}

WrongChanges<v1::ChartFile> WrongFiles() {
  return {
      [](auto& f) { f.clear_content(); },
      [](auto& f) { f.set_content("P3 2 2 255 1 2 3"); },
      [](auto& f) { f.set_content("\x89PNG\r\n\x1a\n and no more"); },
      [](auto& f) { f.set_convention(static_cast<v1::Convention>(5)); },
      [](auto& f) { f.set_cell_scale(5000); },
      [](auto& f) { f.set_cell_scale(3); },
      [](auto& f) { f.set_colour_b("#12345"); },
      [](auto& f) {
        f.set_colour_a("#123456");
        f.set_colour_b("#123456");
      },
      [](auto& f) { f.set_tolerance(-1); },
      [](auto& f) { f.add_row_colours(static_cast<v1::Colour>(12)); },
      [](auto& f) { f.add_colours()->set_rgb("teal"); },
      [](auto& f) { f.add_colours()->set_rgb("#008080"); },
      [](auto& f) {
        f.add_colours()->set_rgb("#008080");
        f.mutable_colours(0)->set_chart_colour(v1::COLOUR_H);
      },
      [](auto& f) {
        for (int i = 0; i < 300; ++i) f.add_colours();
      },
      [](auto& f) { f.mutable_grid()->set_pitch_x_px(kNan); },
      [](auto& f) { f.mutable_grid()->set_pitch_x_px(4); },
      [](auto& f) {
        f.mutable_grid()->set_pitch_x_px(4);
        f.mutable_grid()->set_pitch_y_px(4);
        f.mutable_grid()->set_line_width_y_px(-4);
      },
      [](auto& f) {
        f.mutable_grid()->set_pitch_x_px(4);
        f.mutable_grid()->set_pitch_y_px(4);
        f.mutable_grid()->set_line_width_x_px(4);
      },
      [](auto& f) { f.mutable_crop()->set_left(-1); },
      [](auto& f) { f.mutable_crop()->set_bottom(9); },
  };
}

v1::CalibrateYarnRequest GoodCalibration() {
  v1::CalibrateYarnRequest request;
  request.set_name("mine (invented)");
  auto& swatch = *request.add_measurements()->mutable_swatch();
  swatch.add_stitches()->set_stitch(v1::STITCH_KIND_SC);
  swatch.mutable_stitches(0)->set_count(400);
  swatch.add_stitches()->set_stitch(v1::STITCH_KIND_SL_ST);
  swatch.mutable_stitches(1)->set_count(1);
  swatch.mutable_gauge()->set_stitches_per_decimetre(20);
  swatch.mutable_gauge()->set_rows_per_decimetre(25);
  swatch.mutable_yarn()->set_wraps_per_inch(12.7);
  swatch.set_length_mm(16'000);
  auto& piece = *request.add_measurements()->mutable_piece();
  *piece.mutable_design() = Picture(kMotif);
  *piece.mutable_materials() = GoodMaterials();
  piece.set_length_mm(2'000);
  return request;
}

WrongChanges<v1::CalibrateYarnRequest> WrongCalibrations() {
  WrongChanges<v1::CalibrateYarnRequest> changes = {
      [](auto& r) { r.clear_name(); },
      [](auto& r) { r.set_name("calibrations/x"); },
      [](auto& r) { r.add_measurements(); },
      [](auto& r) { r.mutable_scope()->set_weight_class(8); },
      [](auto& r) {
        for (int i = 0; i < 300; ++i) r.add_measurements();
      },
  };
  for (const auto& change : WrongSwatches()) {
    changes.push_back([change](auto& r) { change(*r.mutable_measurements(0)->mutable_swatch()); });
  }
  for (const auto& change : WrongPieces()) {
    changes.push_back([change](auto& r) { change(*r.mutable_measurements(1)->mutable_piece()); });
  }
  return changes;
}

}  // namespace rowproof::rpc
