#include "services/rpc/converters/charts/calibration.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "services/domain/errors.h"
#include "services/domain/estimate/estimate.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/materials.h"

namespace rowproof::rpc {
namespace {

// Invented: 400 sc at w = 5, h = 4, d = 2 mm, a tenth longer than the paths say.
v1::CalibrateYarnRequest SwatchRequest() {
  v1::CalibrateYarnRequest request;
  request.set_name("Oat, my hands (invented)");
  v1::SwatchMeasurement* swatch = request.add_measurements()->mutable_swatch();
  v1::StitchCount* count = swatch->add_stitches();
  count->set_stitch(v1::STITCH_KIND_SC);
  count->set_count(400);
  swatch->mutable_gauge()->set_stitches_per_decimetre(20);
  swatch->mutable_gauge()->set_rows_per_decimetre(25);
  swatch->mutable_yarn()->set_wraps_per_inch(12.7);
  swatch->set_length_mm(1.1 * 400 * (23 + 4 * std::numbers::pi));
  return request;
}

v1::Materials PlainMaterials() {
  v1::Materials materials;
  for (const auto role : {v1::YARN_ROLE_A, v1::YARN_ROLE_B}) {
    materials.add_yarns()->set_role(role);
    materials.mutable_yarns(materials.yarns_size() - 1)->mutable_yarn()->set_wraps_per_inch(12.7);
  }
  materials.mutable_gauge()->set_stitches_per_decimetre(20);
  materials.mutable_gauge()->set_rows_per_decimetre(25);
  return materials;
}

chart::Design SmallDesign() {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(20, 24);
  return design;
}

std::string RefusedField(const absl::Status& status) {
  const auto detail = DetailOf(status);
  return detail.fields.empty() ? "" : detail.fields[0].field;
}

TEST(ConvertCalibration, ASwatchMakesEveryStitchMoreCertain) {
  const auto made = Calibrate(SwatchRequest(), Stop()).value();
  EXPECT_EQ(made.name(), "Oat, my hands (invented)");
  EXPECT_EQ(made.measurement_count(), 1);
  ASSERT_EQ(made.paths_size(), 6);
  EXPECT_EQ(made.covariance_size(), 171);
  const v1::StitchPath& sc = made.paths(1);
  EXPECT_EQ(sc.stitch(), v1::STITCH_KIND_SC);
  EXPECT_NEAR(sc.length_before_mm(), 23 + 4 * std::numbers::pi, 1e-9);
  EXPECT_GT(sc.length_mm(), 1.08 * sc.length_before_mm());
  for (const v1::StitchPath& path : made.paths()) {
    EXPECT_LT(path.relative_uncertainty(), path.relative_uncertainty_before()) << path.stitch();
  }
}

TEST(ConvertCalibration, IsUsedNamedAndGivenBackByAMaterials) {
  v1::Materials sent = PlainMaterials();
  const auto before = FromProto(sent).value().materials;
  *sent.mutable_yarn_calibration() = Calibrate(SwatchRequest(), Stop()).value();
  const auto read = FromProto(sent);
  ASSERT_TRUE(read.ok()) << read.status();
  const estimate::Materials& materials = read->materials;
  EXPECT_EQ(FromProto(ToProto(materials)).value().materials, materials);
  const auto assumed = estimate::EstimateSizes(SmallDesign(), before).value().front();
  const auto size = estimate::EstimateSizes(SmallDesign(), materials).value().front();
  EXPECT_EQ(size.calibration, "Oat, my hands (invented)");
  EXPECT_LT(size.colours[0].length_uncertainty_mm / size.colours[0].length_mm,
            assumed.colours[0].length_uncertainty_mm / assumed.colours[0].length_mm);
}

// A tenth more of the whole yarn than predicted, by length and by mass.
TEST(ConvertCalibration, TakesWholePieces) {
  const auto estimate =
      estimate::EstimateSizes(SmallDesign(), FromProto(PlainMaterials()).value().materials)
          .value()
          .front();
  v1::CalibrateYarnRequest request;
  request.set_name("pieces");
  v1::PieceMeasurement* piece = request.add_measurements()->mutable_piece();
  *piece->mutable_design() = ToProto(SmallDesign());
  *piece->mutable_materials() = PlainMaterials();
  piece->set_role(v1::YARN_ROLE_B);
  piece->set_length_mm(1.1 * estimate.colours[1].length_mm);
  const auto by_length = Calibrate(request, Stop());
  ASSERT_TRUE(by_length.ok()) << by_length.status();
  EXPECT_GT(by_length->paths(1).length_mm(), 1.02 * by_length->paths(1).length_before_mm());
  piece->set_mass_g(10);
  EXPECT_EQ(RefusedField(Calibrate(request, Stop()).status()),
            "measurements[0].piece.materials.yarns[B].ball_band");
  piece->mutable_materials()->mutable_yarns(1)->mutable_yarn()->set_tex(400);
  piece->set_mass_g(1.1 * estimate.colours[1].length_mm * 400e-6);
  EXPECT_TRUE(Calibrate(request, Stop()).ok());
  piece->set_role(static_cast<v1::YarnRole>(10));
  EXPECT_EQ(RefusedField(Calibrate(request, Stop()).status()), "measurements[0].piece.role");
}

TEST(ConvertCalibration, RefusesByTheFieldOfTheRequest) {
  const auto refused = [](auto change) {
    v1::CalibrateYarnRequest request = SwatchRequest();
    change(request, *request.mutable_measurements(0)->mutable_swatch());
    return RefusedField(Calibrate(request, Stop()).status());
  };
  EXPECT_EQ(refused([](auto&, auto&) {}), "");
  EXPECT_EQ(refused([](auto& r, auto&) { r.clear_name(); }), "name");
  EXPECT_EQ(refused([](auto& r, auto&) { r.set_name("calibrations/mine"); }), "name");
  EXPECT_EQ(refused([](auto& r, auto&) { r.set_name("a\nb"); }), "name");
  EXPECT_EQ(refused([](auto& r, auto&) { r.add_measurements(); }), "measurements[1].swatch");
  EXPECT_EQ(refused([](auto&, auto& s) {
              s.mutable_stitches(0)->set_stitch(static_cast<v1::StitchKind>(7));
            }),
            "measurements[0].swatch.stitches[0].stitch");
  EXPECT_EQ(refused([](auto&, auto& s) { *s.add_stitches() = s.stitches(0); }),
            "measurements[0].swatch.stitches[1].stitch");
  EXPECT_EQ(refused([](auto&, auto& s) { s.clear_length_mm(); }),
            "measurements[0].swatch.length_mm");
  EXPECT_EQ(refused([](auto&, auto& s) { s.set_mass_g(6); }),
            "measurements[0].swatch.yarn.ball_band");
  EXPECT_EQ(refused([](auto&, auto& s) { s.set_length_mm(2.54 * s.length_mm()); }),
            "measurements[0].length_mm");
  EXPECT_EQ(refused([](auto&, auto& s) { s.clear_gauge(); }),
            "measurements[0].swatch.gauge.stitches_per_decimetre");
}

TEST(ConvertCalibration, RefusesOneThatIsNotWhole) {
  const auto refused = [](auto change) {
    v1::Materials materials = PlainMaterials();
    *materials.mutable_yarn_calibration() = Calibrate(SwatchRequest(), Stop()).value();
    change(*materials.mutable_yarn_calibration());
    return RefusedField(FromProto(materials).status());
  };
  EXPECT_EQ(refused([](auto&) {}), "");
  EXPECT_EQ(refused([](auto& c) { c.clear_name(); }), "yarn_calibration.name");
  EXPECT_EQ(refused([](auto& c) { c.mutable_paths()->RemoveLast(); }), "yarn_calibration.paths");
  EXPECT_EQ(refused([](auto& c) { *c.mutable_paths(5) = c.paths(0); }),
            "yarn_calibration.paths[5].stitch");
  EXPECT_EQ(refused([](auto& c) { c.mutable_covariance()->RemoveLast(); }),
            "yarn_calibration.covariance");
  EXPECT_EQ(refused([](auto& c) { c.set_covariance(0, -1); }), "yarn_calibration.covariance");
}

TEST(ConvertCalibration, KeepsWhatWasMeasuredInFromSwatchToMaterials) {
  v1::CalibrateYarnRequest request = SwatchRequest();
  request.mutable_scope()->set_technique(v1::TECHNIQUE_OVERLAY);
  request.mutable_scope()->set_ends(v1::ENDS_WAITING);
  request.mutable_scope()->set_weight_class(0);
  v1::Materials sent = PlainMaterials();
  *sent.mutable_yarn_calibration() = Calibrate(request, Stop()).value();
  const auto materials = FromProto(sent).value().materials;
  EXPECT_EQ(materials.calibration_scope,
            (estimate::CalibrationScope{chart::Technique::kOverlay, std::nullopt,
                                        chart::Ends::kWaiting, 0}));
  EXPECT_EQ(FromProto(ToProto(materials)).value().materials, materials);
  request.mutable_scope()->set_weight_class(8);
  EXPECT_EQ(RefusedField(Calibrate(request, Stop()).status()), "scope.weight_class");
  sent.mutable_yarn_calibration()->mutable_scope()->set_facing(static_cast<v1::Facing>(7));
  EXPECT_EQ(RefusedField(FromProto(sent).status()), "yarn_calibration.scope.facing");
}

TEST(ConvertCalibration, LeavesAKeptOneToBeLookedUp) {
  v1::Materials sent = PlainMaterials();
  sent.set_calibration("calibrations/k1");
  const auto newest = FromProto(sent).value();
  ASSERT_TRUE(newest.calibration.has_value());
  EXPECT_EQ(newest.calibration->id.value, "k1");
  EXPECT_EQ(newest.calibration->revision, 0);
  EXPECT_EQ(newest.materials.calibration, "");
  sent.set_calibration("calibrations/k1/revisions/3");
  EXPECT_EQ(FromProto(sent).value().calibration->revision, 3);
  for (const char* wrong : {"k1", "calibrations/", "calibrations/k1/revisions/0", "patterns/k1"}) {
    sent.set_calibration(wrong);
    EXPECT_EQ(RefusedField(FromProto(sent).status()), "calibration") << wrong;
  }
}

// What a version says of a kept one can be sent back as it is: the name counts, not the numbers.
TEST(ConvertCalibration, NamesAKeptOneBesideItsNumbers) {
  estimate::Materials materials = FromProto(PlainMaterials()).value().materials;
  estimate::Use(estimate::Calibrate({}).value(), "calibrations/k1/revisions/2", std::nullopt,
                materials);
  v1::Materials to = ToProto(materials);
  EXPECT_EQ(to.calibration(), "calibrations/k1/revisions/2");
  EXPECT_EQ(to.yarn_calibration().name(), "calibrations/k1/revisions/2");
  const auto back = FromProto(to).value();
  EXPECT_EQ(back.calibration->name, "calibrations/k1/revisions/2");
  EXPECT_FALSE(back.materials.assumptions.path_covariance.has_value());
  to.clear_calibration();  // numbers alone under such a name could be anybody's
  EXPECT_EQ(RefusedField(FromProto(to).status()), "yarn_calibration.name");
}

}  // namespace
}  // namespace rowproof::rpc
