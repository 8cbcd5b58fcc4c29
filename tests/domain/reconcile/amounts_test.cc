#include "services/domain/reconcile/amounts.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "services/domain/errors.h"
#include "tests/domain/reconcile/statistics/check_values.h"

namespace rowproof::reconcile {
namespace {

// 15 stitches in 100 mm take 300 m; a looser maker takes more, in proportion.
double InProportion(double gauge) { return 300 * 15 / gauge; }

Agreement Reports(const std::vector<double>& ratios) {
  std::vector<Measurement> measurements;
  for (const double ratio : ratios) measurements.push_back({"t", 100 * ratio, 100, 0.02});
  const absl::StatusOr<Agreement> agreement = Agree(measurements, kYarnPrior);
  EXPECT_TRUE(agreement.ok());
  return *agreement;
}

TEST(PrintedLength, IsRoundedUpToFiveMetresAndFiveYards) {
  const PrintedLength length = RoundUp(312.4);
  EXPECT_EQ(length.rounded_m, 315);
  EXPECT_EQ(length.rounded_yd, 345);  // 341.645 yd
  EXPECT_EQ(RoundUp(0).rounded_m, 0);
  EXPECT_EQ(RoundUp(0.001).rounded_m, 5);
  EXPECT_EQ(RoundUp(315).rounded_m, 315);
  EXPECT_EQ(RoundUp(315.0001).rounded_m, 320);
  // Exact in yards: 350 yd are 320.04 m (1 yd = 0.9144 m by definition).
  EXPECT_EQ(RoundUp(320.04).rounded_yd, 350);
  EXPECT_EQ(RoundUp(350 * 0.9144).rounded_yd, 350);
}

TEST(PrintedLength, NeverPrintsLessThanTheAmount) {
  std::mt19937_64 random(11);
  for (int round = 0; round < 10000; ++round) {
    const double length_m = 2000 * std::generate_canonical<double, 53>(random);
    const PrintedLength length = RoundUp(length_m);
    EXPECT_EQ(length.rounded_m % 5, 0);
    EXPECT_EQ(length.rounded_yd % 5, 0);
    EXPECT_GE(static_cast<double>(length.rounded_m), length_m - 1e-6);
    EXPECT_LT(static_cast<double>(length.rounded_m), length_m + 5);
    EXPECT_GE(static_cast<double>(length.rounded_yd) * 0.9144, length_m - 1e-6);
    EXPECT_LT(static_cast<double>(length.rounded_yd) * 0.9144, length_m + 5 * 0.9144);
  }
}

TEST(Amounts, SufficeForTheShareOfNewMakersThatIsAskedFor) {
  const Agreement agreement = Reports({1.05, 1.12, 0.98, 1.09, 1.03});
  for (const double assurance : {0.5, 0.8, 0.95, 0.99}) {
    AmountSettings settings;
    settings.assurance = assurance;
    const auto amounts = AmountsToPrint(agreement, 15, InProportion, {}, settings);
    ASSERT_TRUE(amounts.ok());
    EXPECT_NEAR(agreement.predictive.Cdf(std::log(amounts->suffices.length_m / 300)), assurance,
                1e-10);
  }
}

// By simulation from the model: mu and tau from the prior, testers, then one new maker. The printed
// amount before rounding suffices in 95 of 100 calls, within four standard deviations.
TEST(Amounts, SufficeInSimulatedCalls) {
  std::mt19937_64 random(17);
  std::normal_distribution<double> normal;
  constexpr int kCalls = 2000;
  int sufficient = 0;
  for (int call = 0; call < kCalls; ++call) {
    const double mu = 0.12 * normal(random);
    const double tau = std::abs(0.10 * normal(random));
    std::vector<LogRatio> ratios;
    for (int i = 0; i < 5; ++i) {
      ratios.push_back({mu + tau * normal(random) + 0.015 * normal(random), 0.015});
    }
    const double new_maker = mu + tau * normal(random);
    sufficient += new_maker <= PredictNewMaker(ratios, kYarnPrior).Quantile(0.95) ? 1 : 0;
  }
  EXPECT_NEAR(sufficient, 0.95 * kCalls, 4 * std::sqrt(kCalls * 0.95 * 0.05));
}

TEST(Amounts, SayHowMuchMoreALooserMakerTakes) {
  const Agreement agreement = Reports({1.05, 1.12, 0.98, 1.09, 1.03});
  const std::vector<double> gauges = {15.5, 14.2, 13.1, 16.0, 15.2};
  const auto amounts = AmountsToPrint(agreement, 15, InProportion, gauges);
  ASSERT_TRUE(amounts.ok());
  // 300 * 15 / 14 - 300
  EXPECT_NEAR(amounts->more_per_looser_stitch_m, amounts->factor * (4500.0 / 14 - 300), 1e-9);
  EXPECT_EQ(*amounts->loose_gauge, 13.1);
  EXPECT_NEAR(amounts->loose->length_m, amounts->factor * 4500 / 13.1, 1e-9);
  EXPECT_GT(amounts->loose->rounded_m, amounts->suffices.rounded_m);
  EXPECT_FALSE(AmountsToPrint(agreement, 15, InProportion, {})->loose.has_value());
}

// The strict choice is the upper tolerance limit; here the EPA's example 17-3 (chrysene, 95 %/95 %)
// as if its values were ratios, predicted 1 m: published limit 90.9247.
TEST(Amounts, StrictChoiceIsThePublishedToleranceLimit) {
  const nlohmann::json examples = LoadChecks("tol_worked_examples")["examples"];
  const nlohmann::json& example = examples[2];
  ASSERT_TRUE(example["published"].contains("UTL"));
  std::vector<Measurement> measurements;
  for (const double value : example["values"]) measurements.push_back({"t", value, 1, 0.02});
  const absl::StatusOr<Agreement> agreement = Agree(measurements, kYarnPrior);
  const auto amounts = AmountsToPrint(*agreement, 15, [](double) { return 1.0; }, {});
  ASSERT_TRUE(amounts.ok() && amounts->strict.has_value());
  EXPECT_AS_PRINTED(amounts->strict->factor_k, example["published"]["K"].get<std::string>());
  EXPECT_AS_PRINTED(amounts->strict->amount.length_m,
                    example["published"]["UTL"].get<std::string>());
  EXPECT_TRUE(amounts->strict->variances_alike);
}

TEST(Amounts, StrictChoiceSaysWhereTheVariancesDiffer) {
  const std::vector<Measurement> measurements = {
      {"a", 101, 100, 0.001}, {"b", 100, 100, 0.2}, {"c", 102, 100, 0.001}};
  const auto amounts = AmountsToPrint(*Agree(measurements, kYarnPrior), 15, InProportion, {});
  EXPECT_FALSE(amounts->strict->variances_alike);
  EXPECT_FALSE(AmountsToPrint(Reports({1.1}), 15, InProportion, {})->strict.has_value());
}

TEST(Amounts, NameTheFieldThatIsOutOfRange) {
  const Agreement agreement = Reports({1.05});
  const auto field_of = [](const absl::StatusOr<Amounts>& amounts) {
    EXPECT_EQ(amounts.status().code(), absl::StatusCode::kInvalidArgument);
    return DetailOf(amounts.status()).fields.at(0).field;
  };
  const std::vector<double> bad_gauges = {15, std::nan("")};
  EXPECT_EQ(field_of(AmountsToPrint(agreement, 0, InProportion, {})), "design_gauge");
  EXPECT_EQ(field_of(AmountsToPrint(agreement, 15, InProportion, bad_gauges)), "tester_gauges[1]");
  EXPECT_EQ(field_of(AmountsToPrint(agreement, 15, InProportion, {}, {1.0, 0.95, 0.1})),
            "settings.assurance");
  EXPECT_EQ(field_of(AmountsToPrint(agreement, 15, InProportion, {}, {0.95, std::nan(""), 0.1})),
            "settings.strict_confidence");
  EXPECT_EQ(field_of(AmountsToPrint(agreement, 15, InProportion, {}, {0.95, 0.95, 0})),
            "settings.loose_share");
  for (const double bad : {-1.0, std::nan(""), static_cast<double>(INFINITY)}) {
    EXPECT_EQ(field_of(AmountsToPrint(agreement, 15, [bad](double) { return bad; }, {})),
              "predicted");
  }
}

}  // namespace
}  // namespace rowproof::reconcile
