#include "services/domain/estimate/uncertainty.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <numbers>
#include <random>
#include <sstream>

#include "services/domain/estimate/estimate.h"
#include "tests/domain/estimate/sample_designs.h"
#include "tests/support/source_folder.h"

namespace rowproof::estimate {
namespace {

// The number after "key": in a flat JSON text.
double NumberAt(const std::string& json, const std::string& key) {
  const size_t at = json.find("\"" + key + "\":");
  EXPECT_NE(at, std::string::npos) << key;
  return std::stod(json.substr(at + key.size() + 3));
}

std::string ReadData(const std::string& name) {
  std::ifstream file(InSources("tests/data/" + name));
  EXPECT_TRUE(file.is_open()) << name;
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

struct EndGauge {
  double of_d;
  double of_alpha;
  double of_theta;
  double all;
};

EndGauge EndGaugeBudget(const std::string& file, double length_nm) {
  const auto input = [&file](const char* key) { return NumberAt(file, key); };
  const double of_d_parts[] = {input("u_d0"), input("u_d1"), input("u_d2")};
  EndGauge budget = {};
  budget.of_d = Combined(of_d_parts);
  budget.of_alpha = std::abs(length_nm * input("theta_bar")) *
                    RectangularUncertainty(input("halfwidth_delta_alpha"));
  budget.of_theta =
      length_nm * input("alpha_s") * RectangularUncertainty(input("halfwidth_delta_theta"));
  const double all[] = {input("u_l_s"), budget.of_d, budget.of_alpha, budget.of_theta};
  budget.all = Combined(all);
  return budget;
}

// JCGM 100:2008 H.1, end-gauge calibration; inputs, printed values and source in the file. Printed:
// contributions 9.7 (of d), 2.88679 and 16.599 nm, u_c = 32 nm.
TEST(Uncertainty, CombinesTheEndGaugeBudgetOfTheGum) {
  const std::string file = ReadData("gum_h1_end_gauge.json");
  const EndGauge budget = EndGaugeBudget(file, NumberAt(file, "l_s_nm"));
  EXPECT_NEAR(budget.of_d, 9.7, 0.05);
  EXPECT_NEAR(budget.of_alpha, 2.88679, 5e-6);
  EXPECT_NEAR(budget.of_theta, 16.599, 5e-4);
  EXPECT_NEAR(budget.all, 32, 0.5);
  // The file's own recomputation takes the nominal 50 mm for the two sensitivities.
  const double nominal = EndGaugeBudget(file, 50e6).all;
  EXPECT_NEAR(nominal * nominal, NumberAt(file, "u_c_squared"), 1e-9);
}

// JCGM 100:2008 4.3.7: half-width over sqrt 3. A half stitch read: 0.25 / sqrt 3.
TEST(Uncertainty, OfARectangularHalfWidthIsItOverRootThree) {
  EXPECT_NEAR(RectangularUncertainty(0.25), 0.14433756729740643, 1e-15);
}

TEST(Uncertainty, LeavesTheModelOutOfAMakersOwnMeasuring) {
  const Contribution parts[] = {{UncertaintySource::kModel, 12},
                                {UncertaintySource::kStitchGauge, 3},
                                {UncertaintySource::kRowGauge, 4}};
  EXPECT_DOUBLE_EQ(Combined(parts), 13);
  EXPECT_DOUBLE_EQ(CombinedMeasuring(parts), 5);
}

// Normal quantiles 1.644854 (95 %) and 1.959964 (97.5 %): from memory of the usual tables.
TEST(Uncertainty, BoundsAreLogNormal) {
  EXPECT_NEAR(LogNormalUpperBound(100, 10, 0.95), 100 * std::exp(0.1644854), 1e-5);
  const Interval interval = LogNormalInterval(100, 10, 0.95);
  EXPECT_NEAR(interval.low, 100 * std::exp(-0.1959964), 1e-5);
  EXPECT_NEAR(interval.high, 100 * std::exp(0.1959964), 1e-5);
  EXPECT_EQ(interval.coverage, 0.95);
  EXPECT_EQ(LogNormalUpperBound(0, 0, 0.95), 0);
  EXPECT_EQ(LogNormalInterval(0, 0, 0.95).high, 0);
}

TEST(Uncertainty, ListsTheContributionsOfALengthLargestFirst) {
  const auto size = EstimateSizes(TwentyRows(), RoundMaking()).value().front();
  for (const ColourEstimate& colour : size.colours) {
    ASSERT_EQ(colour.length_contributions.size(), 4u);
    EXPECT_EQ(colour.length_contributions.front().source, UncertaintySource::kModel);
    EXPECT_NEAR(colour.length_contributions.front().uncertainty, 0.12 * colour.length_mm, 1e-9);
    for (size_t i = 1; i < 4; ++i) {
      EXPECT_LE(colour.length_contributions[i].uncertainty,
                colour.length_contributions[i - 1].uncertainty);
      EXPECT_GT(colour.length_contributions[i].uncertainty, 0);
    }
    EXPECT_DOUBLE_EQ(colour.length_uncertainty_mm, Combined(colour.length_contributions));
  }
}

struct Moments {
  double mean = 0;
  double deviation = 0;
};

template <typename Draw>
Moments MonteCarlo(int draws, Draw draw) {
  double sum = 0;
  double squares = 0;
  for (int i = 0; i < draws; ++i) {
    const double value = draw();
    sum += value;
    squares += value * value;
  }
  const double mean = sum / draws;
  return {mean, std::sqrt(squares / draws - mean * mean)};
}

// JCGM 101:2008: distributions are propagated through the formula itself, here the hand-computed
// length of colour A of the carried piece with every part written in w, h and d.
double CarriedLengthOfA(double stitches, double rows, double d) {
  const double w = 100 / stitches;
  const double h = 100 / rows;
  const double sc = 3 * w + 2 * h + 2 * std::numbers::pi * d;
  const double ssc = 3 * w + 6 * h + 2 * std::numbers::pi * d;
  const double ch = 3 * w + std::numbers::pi * d;
  return 204 * sc + 36 * ssc + 25 * ch + 9 * 24 * w * 1.05 + 9 * (w + 2 * h) + 10 * 3 * w + 300;
}

TEST(Uncertainty, OfALengthAgreesWithMonteCarloWithinTwoPercent) {
  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  Materials materials = RoundMaking();
  materials.gauge = Gauge{20, 25, 0.5, 0.8};
  materials.yarn_a.wraps_per_inch.reset();
  materials.yarn_a.weight_class = 4;  // 9 to 12 wraps: 10.5, half-width 1.5
  const auto size = EstimateSizes(design, materials).value().front();
  const ColourEstimate& a = size.colours.front();
  const double d_mm = 25.4 / 10.5;
  const double d_uncertainty_mm = d_mm * 1.5 / 10.5 / std::numbers::sqrt3;
  std::mt19937 random(20);
  std::normal_distribution<double> normal;
  const auto both = MonteCarlo(200'000, [&] {
    const double length_mm = CarriedLengthOfA(20 + 0.5 * normal(random), 25 + 0.8 * normal(random),
                                              d_mm + d_uncertainty_mm * normal(random));
    return length_mm * (1 + 0.12 * normal(random));
  });
  EXPECT_NEAR(a.length_mm, both.mean, 0.005 * both.mean);
  EXPECT_NEAR(a.length_uncertainty_mm, both.deviation, 0.02 * both.deviation);
  const auto measuring = MonteCarlo(200'000, [&] {
    return CarriedLengthOfA(20 + 0.5 * normal(random), 25 + 0.8 * normal(random),
                            d_mm + d_uncertainty_mm * normal(random));
  });
  EXPECT_NEAR(CombinedMeasuring(a.length_contributions), measuring.deviation,
              0.02 * measuring.deviation);
}

TEST(Uncertainty, OfEachSourceAloneAgreesWithMonteCarloWithinTwoPercent) {
  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  Materials materials = RoundMaking();
  materials.gauge = Gauge{20, 25, 0.4, 0.5};
  const auto size = EstimateSizes(design, materials).value().front();
  std::mt19937 random(21);
  std::normal_distribution<double> normal;
  // 12.7 wraps to the nearest half: 2 mm * (0.25 / sqrt 3) / 12.7.
  const double d_uncertainty_mm = 2 * 0.25 / std::numbers::sqrt3 / 12.7;
  for (const Contribution& part : size.colours.front().length_contributions) {
    const auto alone = MonteCarlo(100'000, [&] {
      const double z = normal(random);
      const bool stitch = part.source == UncertaintySource::kStitchGauge;
      const bool row = part.source == UncertaintySource::kRowGauge;
      const bool yarn = part.source == UncertaintySource::kYarnDiameter;
      const double length_mm =
          CarriedLengthOfA(20 + (stitch ? 0.4 * z : 0), 25 + (row ? 0.5 * z : 0),
                           2 + (yarn ? d_uncertainty_mm * z : 0));
      return part.source == UncertaintySource::kModel ? length_mm * (1 + 0.12 * z) : length_mm;
    });
    EXPECT_NEAR(part.uncertainty, alone.deviation, 0.02 * alone.deviation) << Name(part.source);
  }
}

TEST(Uncertainty, OfASizeWithABorderAgreesWithMonteCarloWithinTwoPercent) {
  Materials materials = RoundMaking();
  materials.gauge = Gauge{20, 25, 0.4, 0.6};
  materials.border = {2, YarnColour::kA, false};
  const auto size = EstimateSizes(TwentyRows(), materials).value().front();
  std::mt19937 random(22);
  std::normal_distribution<double> normal;
  const auto width = MonteCarlo(200'000, [&] {
    const double w = 100 / (20 + 0.4 * normal(random));
    const double h = 100 / (25 + 0.6 * normal(random));
    return (24 * w + 4 * h) * (1 + 0.03 * normal(random));
  });
  const auto height = MonteCarlo(200'000, [&] {
    return 24 * 100 / (25 + 0.6 * normal(random)) * (1 + 0.03 * normal(random));
  });
  EXPECT_NEAR(size.before_blocking.width_uncertainty_mm, width.deviation, 0.02 * width.deviation);
  EXPECT_NEAR(size.before_blocking.height_uncertainty_mm, height.deviation,
              0.02 * height.deviation);
}

// An inset piece and the mass of its yarn from the weight class, each input drawn from its own
// distribution (rectangles for wraps and metres in 100 g): SmallInset of hand_computed_test.cc as a
// formula. With 200,000 draws the standard error of a deviation is 0.16 %: 2 % are more than
// twelve.
TEST(Uncertainty, OfAnInsetsMassAgreesWithMonteCarloWithinTwoPercent) {
  chart::Design design;
  design.technique = chart::Technique::kInset;
  design.ends = chart::Ends::kWaiting;
  design.convention = chart::Convention::kWorking;
  design.cells = chart::Grid(3, 6);
  design.cells.set(3, 3, true);
  design.cells.set(3, 4, true);
  Materials materials = RoundMaking();
  materials.gauge = Gauge{20, 25, 0.5, 0.8};
  materials.yarn_b.wraps_per_inch = 12;
  materials.yarn_b.weight_class = 3;  // 200 to 250 m in 100 g are usual
  const auto size = EstimateSizes(design, materials).value().front();
  const ColourEstimate& b = size.colours.back();
  std::mt19937 random(24);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> rectangle(-1, 1);
  const auto mass = MonteCarlo(200'000, [&] {
    const double w = 100 / (20 + 0.5 * normal(random));
    const double h = 100 / (25 + 0.8 * normal(random));
    const double d = 25.4 / (12 + 0.25 * rectangle(random));
    const double sc = 3 * w + 2 * h + 2 * std::numbers::pi * d;
    const double ch = 3 * w + std::numbers::pi * d;
    const double length_mm = (8 * sc + 6 * ch + 2 * 3 * w + 300) * (1 + 0.12 * normal(random));
    return length_mm / 1000 / (225 + 25 * rectangle(random)) * 100;
  });
  EXPECT_NEAR(*b.mass_g, mass.mean, 0.01 * mass.mean);
  EXPECT_NEAR(*b.mass_uncertainty_g, mass.deviation, 0.02 * mass.deviation);
}

// Every stated interval is of its own figure and holds it.
TEST(Uncertainty, EveryFigureHasAnIntervalOfTheStatedCoverage) {
  Materials materials = RoundMaking();
  materials.yarn_a.weight_class = 4;
  materials.gauge_after_blocking = Gauge{19, 24, {}, {}};
  materials.tail_use = TailUse::kFringe;
  materials.fringe_length_mm = 100;
  const auto size = EstimateSizes(TwentyRows(), materials).value().front();
  const auto expect = [](double value, double uncertainty, const Interval& interval) {
    EXPECT_EQ(interval.coverage, kIntervalCoverage);
    EXPECT_GT(uncertainty, 0);
    EXPECT_LT(interval.low, value);
    EXPECT_GT(interval.high, value);
    // 1.96 standard uncertainties to each side, but for the log-normal's skewness.
    EXPECT_NEAR(interval.high - interval.low, 2 * 1.96 * uncertainty, 0.2 * uncertainty * 3.92);
  };
  const ColourEstimate& a = size.colours.front();
  expect(a.length_mm, a.length_uncertainty_mm, a.length_interval_mm);
  expect(*a.mass_g, *a.mass_uncertainty_g, *a.mass_interval_g);
  for (const Extent& extent : {size.before_blocking, *size.after_blocking}) {
    expect(extent.width_mm, extent.width_uncertainty_mm, extent.width_interval_mm);
    expect(extent.height_mm, extent.height_uncertainty_mm, extent.height_interval_mm);
  }
  // Half the time is its uncertainty: exp(+-0.98) of it.
  EXPECT_NEAR(size.minutes_interval.low, size.minutes * std::exp(-0.9799820), 1e-5);
  EXPECT_NEAR(size.minutes_interval.high, size.minutes * std::exp(0.9799820), 1e-5);
  ASSERT_EQ(size.minutes_contributions.size(), 1u);
  EXPECT_EQ(size.minutes_contributions[0].source, UncertaintySource::kRate);
}

// The published amount suffices for 95 of 100 makers at this gauge: model (0.12) and spread (0.10)
// drawn for each, beside what the gauge reading and the wraps leave open.
TEST(Uncertainty, PublishedAmountSufficesForTheAssuredShareOfMakers) {
  chart::Design design = TwentyRows();
  design.ends = chart::Ends::kCarried;
  Materials materials = RoundMaking();
  for (const double assurance : {0.8, 0.95}) {
    materials.assurance = assurance;
    const auto size = EstimateSizes(design, materials).value().front();
    const ColourEstimate& a = size.colours.front();
    const double measuring = CombinedMeasuring(a.length_contributions) / a.length_mm;
    std::mt19937 random(23);
    std::normal_distribution<double> normal;
    const int makers = 200'000;
    int sufficed = 0;
    for (int maker = 0; maker < makers; ++maker) {
      const double log_ratio =
          0.12 * normal(random) + 0.10 * normal(random) + measuring * normal(random);
      if (a.length_mm * std::exp(log_ratio) <= a.upper_length_mm) ++sufficed;
    }
    EXPECT_NEAR(static_cast<double>(sufficed) / makers, assurance, 0.004);
  }
}

}  // namespace
}  // namespace rowproof::estimate
