#include "services/domain/estimate/materials_validation.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <limits>
#include <vector>

#include "services/domain/errors.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/materials.h"
#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

std::string RefusedField(const absl::Status& status) {
  const auto fields = DetailOf(status).fields;
  return fields.empty() ? "" : fields.front().field;
}

// Both the check itself and the estimate refuse, with the same field.
std::string RefusedField(const Materials& materials) {
  const absl::Status status = Validate(materials);
  EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(EstimateSizes(TwentyRows(), materials).status(), status);
  return RefusedField(status);
}

// Every yarn, border, fringe, swatch and setting given.
Materials FullMaterials() {
  Materials materials = RoundMaking();
  for (Yarn* yarn : {&materials.yarn_a, &materials.yarn_b}) {
    yarn->name = "Sample";
    yarn->fibre = "cotton";
    yarn->weight_class = 4;
    yarn->ball_length_m = 125;
    yarn->ball_mass_g = 50;
  }
  materials.border_yarn = materials.yarn_a;
  materials.hook_mm = 5;
  materials.gauge = Gauge{20, 25, 0.2, 0.3};
  materials.gauge_after_blocking = Gauge{19, 24, 0.2, 0.3};
  materials.tail_use = TailUse::kFringe;
  materials.fringe_length_mm = 100;
  materials.tail_mm = 120;
  materials.border = {2, YarnColour::kBorder, true};
  materials.added_fringe = {{YarnColour::kA, 10, 80, FringeEdge::kRowEnds}};
  materials.swatch = Swatch{20, 20};
  materials.stitches_per_minute = 15;
  materials.minutes_per_row_start = 1;
  return materials;
}

TEST(MaterialsValidation, AcceptsAMaterialsWithEverythingGiven) {
  EXPECT_EQ(Validate(FullMaterials()), absl::OkStatus());
  EXPECT_EQ(Validate(RoundMaking()), absl::OkStatus());
}

struct NumberField {
  const char* path;
  std::function<void(Materials&, double)> set;
  double below;
  double above;
};

std::vector<NumberField> NumberFields() {
  return {
      {"yarns[A].wraps_per_inch", [](Materials& m, double v) { m.yarn_a.wraps_per_inch = v; }, 0,
       101},
      {"yarns[B].ball_band.length_m", [](Materials& m, double v) { m.yarn_b.ball_length_m = v; }, 0,
       1e6},
      {"yarns[border].ball_band.mass_g",
       [](Materials& m, double v) { m.border_yarn->ball_mass_g = v; }, 0, 1e6},
      {"hook_mm", [](Materials& m, double v) { m.hook_mm = v; }, 0, 51},
      {"gauge.stitches_per_decimetre",
       [](Materials& m, double v) { m.gauge.stitches_per_decimetre = v; }, 0, 201},
      {"gauge.rows_per_decimetre", [](Materials& m, double v) { m.gauge.rows_per_decimetre = v; },
       0, 201},
      {"gauge.stitches_uncertainty_per_decimetre",
       [](Materials& m, double v) { m.gauge.stitches_uncertainty_per_decimetre = v; }, -0.1, 6},
      {"gauge.rows_uncertainty_per_decimetre",
       [](Materials& m, double v) { m.gauge.rows_uncertainty_per_decimetre = v; }, -0.1, 7},
      {"gauge_after_blocking.stitches_per_decimetre",
       [](Materials& m, double v) { m.gauge_after_blocking->stitches_per_decimetre = v; }, 0, 201},
      {"fringe_length_mm", [](Materials& m, double v) { m.fringe_length_mm = v; }, 0, 5001},
      {"tail_length_mm", [](Materials& m, double v) { m.tail_mm = v; }, -1, 5001},
      {"yarns[H].wraps_per_inch",
       [](Materials& m, double v) { m.more_yarns[5].wraps_per_inch = v; }, 0, 101},
      {"yarns[C].tex", [](Materials& m, double v) { m.more_yarns[0].tex = v; }, 0.9, 1e6},
      {"slack", [](Materials& m, double v) { m.slack = v; }, -0.01, 1.01},
      {"added_fringe[0].length_mm", [](Materials& m, double v) { m.added_fringe[0].length_mm = v; },
       0, 5001},
      {"stitches_per_minute", [](Materials& m, double v) { m.stitches_per_minute = v; }, 0, 501},
      {"minutes_per_row_start", [](Materials& m, double v) { m.minutes_per_row_start = v; }, -1,
       121},
      {"assurance", [](Materials& m, double v) { m.assurance = v; }, 0.49, 1},
      {"yarn_calibration.paths[2]", [](Materials& m, double v) { m.assumptions.paths[2].up = v; },
       -1, 21},
      {"assumptions.model_relative_uncertainty",
       [](Materials& m, double v) { m.assumptions.model_relative_uncertainty = v; }, -0.1, 0.6},
      {"assumptions.size_relative_uncertainty",
       [](Materials& m, double v) { m.assumptions.size_relative_uncertainty = v; }, -0.1, 0.6},
      {"assumptions.time_relative_uncertainty",
       [](Materials& m, double v) { m.assumptions.time_relative_uncertainty = v; }, -0.1, 2.1},
      {"assumptions.maker_relative_spread",
       [](Materials& m, double v) { m.assumptions.maker_relative_spread = v; }, -0.1, 0.6},
      {"assumptions.fringe_allowance_mm",
       [](Materials& m, double v) { m.assumptions.fringe_allowance_mm = v; }, -1, 5001},
      {"assumptions.enclosed_tail_mm",
       [](Materials& m, double v) { m.assumptions.enclosed_tail_mm = v; }, -1, 5001},
      {"assumptions.stitches_per_minute",
       [](Materials& m, double v) { m.assumptions.stitches_per_minute = v; }, 0, 501},
      {"assumptions.minutes_per_row_start",
       [](Materials& m, double v) { m.assumptions.minutes_per_row_start = v; }, -1, 121},
  };
}

TEST(MaterialsValidation, RefusesEveryNumberThatIsNotFiniteOrPastItsRangeByItsPath) {
  const double infinity = std::numeric_limits<double>::infinity();
  for (const NumberField& field : NumberFields()) {
    for (const double bad : {std::nan(""), infinity, -infinity, -1e300, field.below, field.above}) {
      Materials materials = FullMaterials();
      field.set(materials, bad);
      EXPECT_EQ(RefusedField(materials), field.path) << bad;
    }
  }
}

TEST(MaterialsValidation, RefusesCountsPastTheirRangeByTheirPath) {
  const auto refused = [](const std::function<void(Materials&)>& change) {
    Materials materials = FullMaterials();
    change(materials);
    return RefusedField(materials);
  };
  EXPECT_EQ(refused([](Materials& m) { m.yarn_a.weight_class = 8; }), "yarns[A].weight_class");
  EXPECT_EQ(refused([](Materials& m) { m.yarn_b.weight_class = -1; }), "yarns[B].weight_class");
  EXPECT_EQ(refused([](Materials& m) { m.border.rounds = -1; }), "border.round_count");
  EXPECT_EQ(refused([](Materials& m) { m.border.rounds = 201; }), "border.round_count");
  EXPECT_EQ(refused([](Materials& m) { m.border.rounds = 0; }), "border.round_count");  // enclosing
  EXPECT_EQ(refused([](Materials& m) { m.added_fringe[0].strands = 0; }),
            "added_fringe[0].strand_count");
  EXPECT_EQ(refused([](Materials& m) { m.added_fringe.push_back(m.added_fringe[0]); }),
            "added_fringe[1].role");
  EXPECT_EQ(refused([](Materials& m) { m.swatch->stitches = 0; }), "swatch.stitch_count");
  EXPECT_EQ(refused([](Materials& m) { m.swatch->rows = 1001; }), "swatch.row_count");
}

TEST(MaterialsValidation, RefusesWhatIsMissingOrDoesNotGoTogether) {
  const auto refused = [](const std::function<void(Materials&)>& change) {
    Materials materials = FullMaterials();
    change(materials);
    return RefusedField(materials);
  };
  EXPECT_EQ(refused([](Materials& m) {
              m.yarn_a.wraps_per_inch.reset();
              m.yarn_a.weight_class.reset();
            }),
            "yarns[A].wraps_per_inch");
  EXPECT_EQ(refused([](Materials& m) { m.yarn_a.ball_mass_g.reset(); }),
            "yarns[A].ball_band.mass_g");
  EXPECT_EQ(refused([](Materials& m) { m.yarn_b.ball_length_m.reset(); }),
            "yarns[B].ball_band.length_m");
  EXPECT_EQ(refused([](Materials& m) { m.border_yarn.reset(); }), "yarns[border]");
  EXPECT_EQ(refused([](Materials& m) { m.yarn_a.tex = 400; }), "yarns[A].tex");  // and a band
  EXPECT_EQ(refused([](Materials& m) { m.more_yarns.resize(7, m.yarn_a); }), "yarns");
  EXPECT_EQ(refused([](Materials& m) {
              m.more_yarns.resize(2);
              m.border.colour = YarnColour::kE;
            }),
            "yarns[E]");
  EXPECT_EQ(refused([](Materials& m) {
              m.more_yarns.clear();
              m.added_fringe[0].colour = YarnColour::kC;
            }),
            "yarns[C]");
  EXPECT_EQ(refused([](Materials& m) { m.calibration = std::string(201, 'c'); }),
            "yarn_calibration.name");
  // Half a metre to the kilogram, and a ball that its own tails use up.
  EXPECT_EQ(refused([](Materials& m) {
              m.yarn_a.ball_length_m = 2;
              m.yarn_a.ball_mass_g = 1000;
            }),
            "yarns[A].ball_band.mass_g");
  EXPECT_EQ(refused([](Materials& m) {
              m.yarn_b.ball_length_m = 1;
              m.yarn_b.ball_mass_g = 1;
              m.tail_mm = 400;
            }),
            "yarns[B].ball_band.length_m");
}

// A design's rows and foundation need the yarns of their colours.
TEST(MaterialsValidation, SaysThatOneOfTheTwoNumbersOfAGaugeIsMissing) {
  Materials materials = FullMaterials();
  materials.gauge.rows_per_decimetre = 0;
  const auto fields = DetailOf(Validate(materials)).fields;
  ASSERT_EQ(fields.size(), 1u);
  EXPECT_EQ(fields.front().field, "gauge.rows_per_decimetre");
  EXPECT_EQ(fields.front().description,
            "is missing; it must be between 0.5 and 200 worked rows per 100 mm");
}

TEST(MaterialsValidation, RefusesADesignWithAColourThatHasNoYarn) {
  chart::Design design = TwentyRows();
  design.row_colours.assign(20, chart::Colour::kA);
  design.row_colours[7] = chart::Colour::kD;
  Materials materials = RoundMaking();
  EXPECT_TRUE(EstimateSizes(design, materials).ok());
  materials.more_yarns.resize(1);
  EXPECT_EQ(RefusedField(EstimateSizes(design, materials).status()), "yarns[D]");
  materials = RoundMaking();
  materials.more_yarns.clear();
  materials.foundation.colour = chart::Colour::kC;
  EXPECT_EQ(RefusedField(EstimateSizes(TwentyRows(), materials).status()), "yarns[C]");
}

TEST(MaterialsValidation, RefusesTextsWithControlCharactersOrOverTheirLimit) {
  const auto refused = [](const std::string& text) {
    Materials materials = FullMaterials();
    materials.yarn_a.name = text;
    return RefusedField(materials);
  };
  EXPECT_EQ(refused("two\nlines"), "yarns[A].name");
  EXPECT_EQ(refused(std::string("nul\0", 4)), "yarns[A].name");
  EXPECT_EQ(refused("delete\x7f"), "yarns[A].name");
  EXPECT_EQ(refused(std::string(201, 'x')), "yarns[A].name");
  Materials materials = FullMaterials();
  materials.yarn_b.fibre = "tab\t";
  EXPECT_EQ(RefusedField(materials), "yarns[B].fibre");
  materials.yarn_b.fibre = "Schurwolle, weich gewaschen: \xc3\xa4";
  EXPECT_EQ(Validate(materials), absl::OkStatus());
}

TEST(MaterialsValidation, AlsoRefusesADesignThatIsNotWellFormed) {
  chart::Design design = TwentyRows();
  design.sizes.clear();
  EXPECT_EQ(RefusedField(EstimateSizes(design, RoundMaking()).status()), "sizes");
}

// 4000 x 4000 stitches at one stitch in 200 mm from balls of a metre are more than can be bought.
TEST(MaterialsValidation, SaysWhereAnAmountPassesItsLimit) {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(4000, 4000);
  Materials materials = RoundMaking();
  materials.gauge = Gauge{0.5, 0.5, {}, {}};
  materials.yarn_a.wraps_per_inch = 0.5;
  materials.yarn_a.ball_length_m = 1;
  materials.yarn_a.ball_mass_g = 100;
  const auto estimate = EstimateSizes(design, materials);
  EXPECT_EQ(estimate.status().code(), absl::StatusCode::kResourceExhausted);
}

// Craft Yarn Council: class 4 has 9 to 12 wraps, class 0 30 to 40.
TEST(YarnDiameter, ComesFromTheClassOnlyWhereNoWrapsAreDeclared) {
  Yarn yarn;
  yarn.weight_class = 4;
  EXPECT_TRUE(DiameterOf(yarn).assumed);
  EXPECT_DOUBLE_EQ(DiameterOf(yarn).mm, 25.4 / 10.5);
  yarn.weight_class = 0;
  EXPECT_DOUBLE_EQ(DiameterOf(yarn).mm, 25.4 / 35);
  yarn.wraps_per_inch = 10;
  EXPECT_FALSE(DiameterOf(yarn).assumed);
  EXPECT_DOUBLE_EQ(DiameterOf(yarn).mm, 2.54);
}

TEST(Assumed, NamesWhatWasNotDeclared) {
  Materials materials = RoundMaking();
  materials.yarn_b.wraps_per_inch.reset();
  materials.yarn_b.weight_class = 3;
  materials.gauge_is_of_another_fabric = true;
  const auto contains = [](const Materials& from, const std::string& words) {
    const SizeEstimate size = EstimateSizes(TwentyRows(), from).value().front();
    for (const auto& sentence : size.assumed) {
      if (sentence.find(words) != std::string::npos) return true;
    }
    return false;
  };
  EXPECT_TRUE(contains(materials, "Yarn B: 13.0 wraps per inch, the middle of weight class 3"));
  EXPECT_FALSE(contains(materials, "Yarn A: 1"));
  EXPECT_TRUE(contains(materials, "another fabric (technique, facing or ends)"));
  EXPECT_TRUE(contains(materials, "its uncertainty is not given"));
  EXPECT_TRUE(contains(materials, "150 mm each"));
  EXPECT_TRUE(contains(materials, "15 stitches per minute"));
  EXPECT_FALSE(contains(FullMaterials(), "its uncertainty is not given"));
  EXPECT_FALSE(contains(FullMaterials(), "150 mm each"));
  EXPECT_FALSE(contains(FullMaterials(), "stitches a minute"));
}

}  // namespace
}  // namespace rowproof::estimate
