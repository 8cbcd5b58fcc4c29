#include "services/domain/estimate/calibration/calibration.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <random>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/calibration/observations.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/quantities/units.h"
#include "tests/domain/estimate/sample_designs.h"
#include "tests/domain/reconcile/statistics/check_values.h"

namespace rowproof::estimate {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr size_t kSc = static_cast<size_t>(StitchKind::kSingleCrochet);
constexpr size_t kSsc = static_cast<size_t>(StitchKind::kSpikeSingleCrochet);
constexpr size_t kChainKind = static_cast<size_t>(StitchKind::kChain);

StitchNumbers Stitches(double ch, double sc, double ssc) {
  StitchNumbers stitches = {};
  stitches[kChainKind] = ch;
  stitches[kSc] = sc;
  stitches[kSsc] = ssc;
  return stitches;
}

// Invented: 400 sc at w = 5, h = 4, d = 2 mm, where the paths say 400 (23 + 4 pi) = 14,226.5 mm.
UnravelledSwatch Swatch400(double factor) {
  UnravelledSwatch swatch;
  swatch.stitches = Stitches(0, 400, 0);
  swatch.gauge = RoundMaking().gauge;
  swatch.yarn = RoundMaking().yarn_a;
  swatch.length_mm = factor * 400 * (23 + 4 * kPi);
  return swatch;
}

CalibrationObservation Plain(const StitchNumbers& stitches, double length_mm, double sd_mm) {
  return {stitches, {5, 4, 2}, 0, length_mm, sd_mm, 0};
}

TEST(CalibrationObservations, OfAnUnravelledSwatchCountsWhatIsBesideTheStitches) {
  UnravelledSwatch swatch = Swatch400(1.1);
  swatch.row_starts = 20;
  swatch.tails_mm = 300;
  const auto observation = ObservationOf(swatch).value();
  EXPECT_DOUBLE_EQ(observation.fabric.w_mm, 5);
  EXPECT_DOUBLE_EQ(observation.fabric.h_mm, 4);
  EXPECT_DOUBLE_EQ(observation.fabric.d_mm, 2);
  EXPECT_DOUBLE_EQ(observation.beside_mm, 20 * 3 * 5 + 300);
  EXPECT_EQ(observation.length_mm, swatch.length_mm);
  // Reading is 0.5 / sqrt 3 mm; gauge and wraps leave far more open.
  EXPECT_GT(observation.uncertainty_mm, 10);
}

// JCGM 100:2008 5.1.2 on paper: w and h to their stated uncertainty, d to half a wrap.
TEST(CalibrationObservations, CarryTheUncertaintyOfGaugeAndYarn) {
  UnravelledSwatch swatch = Swatch400(1);
  swatch.gauge = Gauge{20, 25, 0.4, 0.5};
  const double w = 400 * 3 * 5 * 0.4 / 20;
  const double h = 400 * 2 * 4 * 0.5 / 25;
  const double d = 400 * 2 * kPi * 2 * 0.25 / std::numbers::sqrt3 / 12.7;
  const double read = 0.5 / std::numbers::sqrt3;
  EXPECT_NEAR(ObservationOf(swatch).value().uncertainty_mm,
              std::sqrt(w * w + h * h + d * d + read * read), 1e-9);
}

TEST(CalibrationObservations, OfAWeighedSwatchFollowTheBallBand) {
  const UnravelledSwatch by_length = Swatch400(1.1);
  WeighedSwatch swatch;
  swatch.stitches = by_length.stitches;
  swatch.gauge = by_length.gauge;
  swatch.yarn = by_length.yarn;
  swatch.mass_g = quantities::MassG(by_length.length_mm, 400);
  EXPECT_EQ(DetailOf(ObservationOf(swatch).status()).fields[0].field, "yarn.ball_band");
  swatch.yarn.tex = 400;
  swatch.scale_step_g = 0.1;
  const auto observation = ObservationOf(swatch).value();
  EXPECT_NEAR(observation.length_mm, by_length.length_mm, 1e-8);
  // 0.05 / sqrt 3 g of 6.26 g is 0.46 %.
  const double more = observation.uncertainty_mm * observation.uncertainty_mm -
                      std::pow(ObservationOf(by_length).value().uncertainty_mm, 2);
  EXPECT_NEAR(std::sqrt(more), quantities::LengthMm(0.05 / std::numbers::sqrt3, 400), 0.01);
}

// The carried piece worked out on paper in hand_computed_test.cc: A has 204 sc, 36 ssc and 25 ch;
// beside them 300 of tails, 1134 carried, 117 climb and 150 of starts.
TEST(CalibrationObservations, OfAWholePieceTakeItsPartsApart) {
  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  WholePiece piece;
  piece.length_mm = 12'000;
  const auto observation = ObservationOf(design, RoundMaking(), piece).value();
  const StitchNumbers expected = Stitches(25, 204, 36);
  for (size_t kind = 0; kind < kStitchKinds; ++kind) {
    EXPECT_NEAR(observation.stitches[kind], expected[kind], 1e-9) << kind;
  }
  EXPECT_NEAR(observation.beside_mm, 300 + 1134 + 117 + 150, 1e-9);
  EXPECT_EQ(observation.relative_spread, kOtherHandsSpread);
}

// Any design, border, swatch and fringe: stitches times paths and what is beside them are the
// estimate's length again.
TEST(CalibrationObservations, OfRandomPiecesAddUpToTheEstimate) {
  std::mt19937 random(62);
  int seen = 0;
  for (int trial = 0; trial < 60; ++trial) {
    const chart::Design design = RandomDesign(random);
    Materials materials = RoundMaking();
    if (random() % 3 > 0) {
      materials.border = {1 + static_cast<int>(random() % 3), YarnColour::kA, random() % 2 == 0};
    }
    if (random() % 2 == 0) materials.swatch = Swatch{10, 12};
    const auto sizes = EstimateSizes(design, materials);
    ASSERT_TRUE(sizes.ok()) << sizes.status();
    WholePiece piece;
    piece.size = static_cast<int>(random() % sizes->size());
    for (const ColourEstimate& colour : (*sizes)[static_cast<size_t>(piece.size)].colours) {
      piece.colour = colour.colour;
      piece.length_mm = 1.2 * colour.length_mm;
      const auto observation = ObservationOf(design, materials, piece);
      if (!observation.ok()) continue;  // a yarn without stitches
      const double length_mm = StitchesMm(kPriorPaths, observation->stitches, observation->fabric) +
                               observation->beside_mm;
      EXPECT_NEAR(length_mm, colour.length_mm, 1e-9 * colour.length_mm) << trial;
      ++seen;
    }
  }
  EXPECT_GT(seen, 100);
}

TEST(Calibration, WithoutObservationsIsThePrior) {
  const auto calibration = Calibrate({}).value();
  EXPECT_EQ(CoefficientsOf(calibration.paths), CoefficientsOf(kPriorPaths));
  // sc: 3 across, up 2, 2 pi diameters. ch goes up by 0, which stays 0.
  EXPECT_NEAR(CoefficientUncertainty(calibration.covariance, 3 * kSc), 3 * std::hypot(0.12, 0.05),
              1e-12);
  EXPECT_NEAR(CoefficientUncertainty(calibration.covariance, 3 * kSsc + 1),
              6 * std::hypot(0.12, 0.15), 1e-12);
  EXPECT_NEAR(CovarianceAt(calibration.covariance, 3 * kSc, 3 * kSsc), 3 * 3 * 0.12 * 0.12, 1e-12);
  EXPECT_EQ(CoefficientUncertainty(calibration.covariance, 1), 0);
  EXPECT_EQ(calibration.relative_before, calibration.relative_after);
}

// Reference: the update written with the covariance of all 18 coefficients, m + S X'(X S X' +
// R)^-1 (y - X m), in NumPy; the code itself solves for deviations by QR.
TEST(Calibration, AgreesWithTheUpdateOfAllCoefficientsByNumPy) {
  StitchNumbers inset = Stitches(60, 300, 0);
  inset[static_cast<size_t>(StitchKind::kDoubleThreeRowsDown)] = 45;
  std::vector<CalibrationObservation> observations = {
      ObservationOf(Swatch400(1.08)).value(), Plain(Stitches(25, 204, 36), 13'000, 90),
      Plain(inset, 19'900, 150), Plain(Stitches(100, 0, 0), 2'300, 20)};
  observations[2].fabric = {6, 5.5, 2.4};
  observations[1].beside_mm = 1'701;
  const auto calibration = Calibrate(observations).value();
  std::string script = "m = np.array([";
  for (const double mean : CoefficientsOf(kPriorPaths)) script += fmt::format("{:.17g},", mean);
  script +=
      "])\nown = np.array([.05]*6 + [.15]*9 + [.05]*3)\n"
      "S = .12**2 * np.outer(m, m) + np.diag((own * m)**2)\nX = []; y = []; r = []\n";
  for (const CalibrationObservation& o : observations) {
    script += "X.append([";
    for (size_t kind = 0; kind < kStitchKinds; ++kind) {
      for (const double mm : {o.fabric.w_mm, o.fabric.h_mm, o.fabric.d_mm}) {
        script += fmt::format("{:.17g},", o.stitches[kind] * mm);
      }
    }
    script += fmt::format("])\ny.append({:.17g})\n", o.length_mm - o.beside_mm);
    script += fmt::format("r.append({:.17g}**2 + ({:.17g} * (np.array(X[-1]) @ m))**2)\n",
                          o.uncertainty_mm, o.relative_spread);
  }
  script +=
      "X = np.array(X); K = S @ X.T @ np.linalg.inv(X @ S @ X.T + np.diag(r))\n"
      "for n in m + K @ (np.array(y) - X @ m): print(repr(float(n)))\n"
      "for n in (S - K @ X @ S).ravel(): print(repr(float(n)))\n";
  const auto expected = reconcile::AskSciPy(script);
  ASSERT_EQ(expected.size(), kPathCoefficients + kPathCoefficients * kPathCoefficients);
  const PathCoefficients coefficients = CoefficientsOf(calibration.paths);
  for (size_t i = 0; i < kPathCoefficients; ++i) {
    EXPECT_NEAR(coefficients[i], expected[i], 1e-10) << i;
    for (size_t k = 0; k < kPathCoefficients; ++k) {
      EXPECT_NEAR(CovarianceAt(calibration.covariance, i, k),
                  expected[kPathCoefficients * (i + 1) + k], 1e-10)
          << i << ' ' << k;
    }
  }
}

// A swatch 10 % longer than predicted takes sc nearly there, and half of the news to ssc: the
// shared part of what was learnt.
TEST(Calibration, OfPlainStitchesTeachesDropsOnlyWhatIsShared) {
  const auto calibration = Calibrate(std::vector{ObservationOf(Swatch400(1.1)).value()}).value();
  const auto ratio = [&](size_t kind) {
    return PathLengthMm(calibration.paths[kind], 5, 4, 2) /
           PathLengthMm(kPriorPaths[kind], 5, 4, 2);
  };
  EXPECT_GT(ratio(kSc), 1.08);
  EXPECT_LT(ratio(kSc), 1.1);
  EXPECT_GT(ratio(kSsc), 1.05);
  EXPECT_LT(ratio(kSsc), ratio(kSc));
  for (size_t kind = 0; kind < kStitchKinds; ++kind) {
    EXPECT_LT(calibration.relative_after[kind], calibration.relative_before[kind]) << kind;
  }
  EXPECT_GT(calibration.relative_after[kSsc], calibration.relative_after[kSc]);
}

TEST(Calibration, OfMoreObservationsIsNeverLessCertain) {
  std::vector<CalibrationObservation> observations;
  auto before = Calibrate(observations).value();
  for (const double factor : {1.1, 1.04, 1.07, 0.99}) {
    observations.push_back(ObservationOf(Swatch400(factor)).value());
    const auto after = Calibrate(observations).value();
    EXPECT_LT(after.relative_after[kSc], before.relative_after[kSc]);
    for (size_t i = 0; i < kPathCoefficients; ++i) {
      EXPECT_LE(CovarianceAt(after.covariance, i, i),
                CovarianceAt(before.covariance, i, i) * (1 + 1e-12));
    }
    before = after;
  }
}

// The hand-computed length of colour A of the carried piece, with every coefficient in it.
double CarriedLengthOfA(const PathCoefficients& c) {
  const auto path = [&](size_t kind) {
    return c[3 * kind] * 5 + c[3 * kind + 1] * 4 + c[3 * kind + 2] * 2;
  };
  return 204 * path(kSc) + 36 * path(kSsc) + 25 * path(kChainKind);
}

// JCGM 101:2008 and Bayes' rule by weights: coefficients are drawn from the prior, each draw weighs
// as its likelihood of the swatch. 400,000 draws, about a quarter of them effective: the standard
// error of a deviation is 0.2 %.
TEST(Calibration, AndTheEstimateWithItAgreeWithMonteCarloWithinTwoPercent) {
  const auto observation = ObservationOf(Swatch400(1.1)).value();
  const auto calibration = Calibrate(std::vector{observation}).value();
  const double predicted_mm = 400 * (23 + 4 * kPi);
  const double sd_mm = std::hypot(observation.uncertainty_mm, 0.02 * predicted_mm);
  const PathCoefficients means = CoefficientsOf(kPriorPaths);
  std::mt19937 random(63);
  std::normal_distribution<double> normal;
  double weights = 0;
  double sum = 0;
  double squares = 0;
  for (int draw = 0; draw < 400'000; ++draw) {
    const double shared = 0.12 * normal(random);
    PathCoefficients c = means;
    for (size_t i = 0; i < kPathCoefficients; ++i) {
      const size_t kind = i / 3;
      const bool drop = kind >= 2 && kind <= 4;
      c[i] *= 1 + shared + (drop ? 0.15 : 0.05) * normal(random);
    }
    const double swatch_mm = 400 * (c[3 * kSc] * 5 + c[3 * kSc + 1] * 4 + c[3 * kSc + 2] * 2);
    const double off = (1.1 * predicted_mm - swatch_mm) / sd_mm;
    const double weight = std::exp(-off * off / 2);
    const double length_mm = CarriedLengthOfA(c);
    weights += weight;
    sum += weight * length_mm;
    squares += weight * length_mm * length_mm;
  }
  const double mean = sum / weights;
  const double deviation = std::sqrt(squares / weights - mean * mean);

  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  Materials materials = RoundMaking();
  Use(calibration, "swatch of the test", std::nullopt, materials);
  const auto size = EstimateSizes(design, materials).value().front();
  const ColourEstimate& a = size.colours.front();
  EXPECT_EQ(size.calibration, "swatch of the test");
  const double beside_mm = 300 + 1134 + 117 + 150;
  EXPECT_NEAR(a.length_mm - beside_mm, mean, 0.002 * mean);
  for (const Contribution& part : a.length_contributions) {
    if (part.source == UncertaintySource::kCalibration) {
      EXPECT_NEAR(part.uncertainty, deviation, 0.02 * deviation);
    }
    if (part.source == UncertaintySource::kModel) {
      EXPECT_NEAR(part.uncertainty, 0.12 * beside_mm, 1e-6);
    }
  }
  EXPECT_EQ(a.length_contributions.size(), 5u);
}

TEST(Calibration, MakesTheEstimateMoreCertainAndIsNamedInIt) {
  const chart::Design design = TwentyRows();
  Materials materials = RoundMaking();
  const auto before = EstimateSizes(design, materials).value().front();
  Use(Calibrate(std::vector{ObservationOf(Swatch400(1.1)).value()}).value(), "calibrations/x",
      std::nullopt, materials);
  const auto after = EstimateSizes(design, materials).value().front();
  EXPECT_EQ(before.calibration, "");
  EXPECT_EQ(after.calibration, "calibrations/x");
  for (size_t i = 0; i < before.colours.size(); ++i) {
    EXPECT_GT(after.colours[i].length_mm, before.colours[i].length_mm);
    EXPECT_LT(after.colours[i].length_uncertainty_mm / after.colours[i].length_mm,
              before.colours[i].length_uncertainty_mm / before.colours[i].length_mm);
  }
  bool said = false;
  for (const std::string& sentence : after.assumed) {
    EXPECT_EQ(sentence.find("idealised path"), std::string::npos);
    said = said || sentence.find("the calibration does not cover it") != std::string::npos;
  }
  EXPECT_TRUE(said);
}

std::string RefusedField(const absl::Status& status) {
  const auto detail = DetailOf(status);
  return detail.fields.empty() ? "" : detail.fields[0].field;
}

TEST(Calibration, RefusesWhatCannotBe) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](auto change) {
    UnravelledSwatch swatch = Swatch400(1);
    change(swatch);
    return RefusedField(ObservationOf(swatch).status());
  };
  EXPECT_EQ(refused([](auto&) {}), "");
  EXPECT_EQ(refused([&](auto& s) { s.length_mm = nan; }), "length_mm");
  EXPECT_EQ(refused([](auto& s) { s.length_mm = -1; }), "length_mm");
  EXPECT_EQ(refused([](auto& s) { s.length_mm = 1e12; }), "length_mm");
  EXPECT_EQ(refused([](auto& s) { s.scale_step_mm = -1; }), "scale_step");
  EXPECT_EQ(refused([](auto& s) { s.stitches = {}; }), "stitches");
  EXPECT_EQ(refused([&](auto& s) { s.stitches[kSc] = nan; }), "stitches[sc].count");
  EXPECT_EQ(refused([](auto& s) { s.row_starts = -1; }), "row_start_count");
  EXPECT_EQ(refused([](auto& s) { s.tails_mm = 1e6; }), "length_mm");
  EXPECT_EQ(refused([](auto& s) { s.gauge.rows_per_decimetre = 0; }), "gauge.rows_per_decimetre");
  EXPECT_EQ(refused([](auto& s) { s.yarn.wraps_per_inch.reset(); }), "yarn.wraps_per_inch");
  EXPECT_EQ(refused([](auto& s) { s.relative_spread = -0.1; }), "relative_spread");

  const auto piece = [](auto change) {
    WholePiece worked;
    worked.length_mm = 12'000;
    change(worked);
    return RefusedField(ObservationOf(TwentyRows(), RoundMaking(), worked).status());
  };
  EXPECT_EQ(piece([](auto&) {}), "");
  EXPECT_EQ(piece([](auto& p) { p.size = 1; }), "size");
  EXPECT_EQ(piece([](auto& p) { p.last_row = 21; }), "last_row");
  EXPECT_EQ(piece([](auto& p) { p.colour = YarnColour::kC; }), "role");
  EXPECT_EQ(piece([](auto& p) { p.colour = YarnColour::kBorder; }), "role");
  EXPECT_EQ(piece([](auto& p) { p.mass_g = 10; }), "length_mm");  // both

  // Inches for centimetres, and the other way round.
  for (const double factor : {2.54, 1 / 2.54}) {
    const auto slip = ObservationOf(Swatch400(factor)).value();
    EXPECT_EQ(RefusedField(Calibrate(std::vector{slip}).status()), "observations[0].length_mm");
  }
  const std::vector many(201, ObservationOf(Swatch400(1)).value());
  EXPECT_EQ(RefusedField(Calibrate(many).status()), "observations");
  CalibrationPrior prior;
  prior.own = 0;
  EXPECT_EQ(RefusedField(Calibrate({}, prior).status()), "prior");
}

TEST(Calibration, CovarianceIsCheckedInAMaterials) {
  Materials materials = RoundMaking();
  Use(Calibrate({}).value(), "c", std::nullopt, materials);
  EXPECT_TRUE(Validate(materials).ok());
  const auto refused = [&](auto change) {
    Materials changed = materials;
    change(*changed.assumptions.path_covariance);
    return RefusedField(Validate(changed));
  };
  const char* field = "yarn_calibration.covariance";
  EXPECT_EQ(refused([](auto& c) { c.pop_back(); }), field);
  EXPECT_EQ(refused([](auto& c) { c[0] = -1; }), field);
  EXPECT_EQ(refused([](auto& c) { c[0] = 401; }), field);
  EXPECT_EQ(refused([](auto& c) { c[0] = std::nan(""); }), field);
  EXPECT_EQ(refused([](auto& c) { c[3] = 10; }), field);  // more than the variances allow
}

}  // namespace
}  // namespace rowproof::estimate
