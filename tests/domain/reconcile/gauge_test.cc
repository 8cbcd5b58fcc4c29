#include "services/domain/reconcile/gauge.h"

#include <gtest/gtest.h>

#include <cmath>

#include "services/domain/errors.h"
#include "tests/domain/reconcile/statistics/check_values.h"

namespace rowproof::reconcile {
namespace {

using Groups = std::vector<std::vector<double>>;

OneWayAnova Analyse(const Groups& groups) {
  const std::optional<OneWayAnova> table = AnalyseOneWay(groups);
  EXPECT_TRUE(table.has_value());
  return table.value_or(OneWayAnova{});
}

// NIST Statistical Reference Datasets, analysis of variance; ceilings as in moments_test.cc.
void ExpectCertified(const std::string& name, const Groups& groups) {
  const nlohmann::json checks = LoadChecks("nist_anova_" + name);
  const nlohmann::json& certified = checks["certified"];
  const OneWayAnova table = Analyse(groups);
  EXPECT_EQ(table.df_between, certified["df_between"].get<int>()) << name;
  EXPECT_EQ(table.df_within, certified["df_within"].get<int>()) << name;
  const nlohmann::json& ceiling = checks["verified"]["ceiling_if_inputs_rounded_to_binary64"];
  const auto expect = [&](const char* what, double value) {
    const double most = ceiling[what].get<double>();
    EXPECT_GE(RightDigits(value, checks["exact_recomputation"][what]), std::min(most, 14.5) - 0.2)
        << name << ' ' << what;
    EXPECT_GE(RightDigits(value, certified[what]), std::min(most, 14.5) - 0.2)
        << name << ' ' << what;
  };
  expect("ss_between", table.ss_between);
  expect("ss_within", table.ss_within);
  expect("ms_between", table.ms_between);
  expect("ms_within", table.ms_within);
  expect("F", table.f.value());
  expect("r_squared", table.r_squared);
  expect("residual_sd", table.residual_sd);
  const nlohmann::json& derived = checks["derived_not_certified"];
  EXPECT_NEAR(table.effective_size, derived["replicates_per_group"].get<double>(), 1e-9);
  // Two mean squares, each with its own digits, are taken from each other.
  const double between = std::stod(derived["between_variance_ANOVA_estimator"].get<std::string>());
  const auto error = [&](double value, const char* what) {
    return value * std::pow(10, 0.2 - std::min(ceiling[what].get<double>(), 14.5));
  };
  EXPECT_NEAR(table.between_variance, between,
              (error(table.ms_between, "ms_between") + error(table.ms_within, "ms_within")) /
                  table.effective_size)
      << name;
}

// The rule in the files; a tenth of a whole number is the binary number nearest to the decimal.
Groups SmithLesser(int64_t base, int replicates) {
  Groups groups;
  for (int treatment = 1; treatment <= 9; ++treatment) {
    const int64_t centre = base * 10 + (treatment == 1 ? 4 : treatment % 2 == 0 ? 3 : 5);
    std::vector<double> group = {static_cast<double>(centre) / 10};
    for (int i = 0; i < replicates / 2; ++i) {
      group.push_back(static_cast<double>(centre - 1) / 10);
      group.push_back(static_cast<double>(centre + 1) / 10);
    }
    groups.push_back(group);
  }
  return groups;
}

TEST(OneWayAnova, ReproducesNistSetsGivenInFull) {
  for (const std::string name : {"atmwtag", "sirstv"}) {
    ExpectCertified(name, LoadChecks("nist_anova_" + name)["groups"]);
  }
}

TEST(OneWayAnova, ReproducesNistSetsWithALargeCommonPart) {
  ExpectCertified("smls01", SmithLesser(1, 21));
  ExpectCertified("smls02", SmithLesser(1, 201));
  ExpectCertified("smls03", SmithLesser(1, 2001));
  ExpectCertified("smls04", SmithLesser(1000000, 21));
  ExpectCertified("smls05", SmithLesser(1000000, 201));
  ExpectCertified("smls07", SmithLesser(1000000000000, 21));
  ExpectCertified("smls08", SmithLesser(1000000000000, 201));
}

// NIST e-Handbook 1.3.5.4, GEAR.DAT.
TEST(OneWayAnova, ReproducesTheGearDiametersOfTheHandbook) {
  const nlohmann::json checks = LoadChecks("re_gear_oneway");
  const OneWayAnova table = Analyse(checks["values"]);
  const nlohmann::json& printed = checks["published"];
  EXPECT_AS_PRINTED(table.ss_between, printed["ss_batch"].get<std::string>());
  EXPECT_AS_PRINTED(table.ms_between, printed["ms_batch"].get<std::string>());
  EXPECT_AS_PRINTED(table.f.value(), printed["F"].get<std::string>());
  EXPECT_AS_PRINTED(table.ss_within, printed["ss_res"].get<std::string>());
  EXPECT_AS_PRINTED(table.ms_within, printed["ms_res"].get<std::string>());
  EXPECT_AS_PRINTED(table.residual_sd, printed["residual_sd"].get<std::string>());
  EXPECT_NEAR(table.p.value(), checks["recomputed"]["p"].get<double>(), 1e-10);
  EXPECT_NEAR(table.between_variance, checks["recomputed"]["between_batch_variance_MoM"],
              1e-9 * 4.57e-6);
}

// Davies and Goldsmith 1972, as lme4 prints it: for balanced groups REML is the ANOVA estimator.
TEST(OneWayAnova, ReproducesTheVarianceComponentsOfDyestuff) {
  const nlohmann::json checks = LoadChecks("re_dyestuff_blup");
  Groups groups;
  for (const auto& [name, values] : checks["groups"].items()) groups.push_back(values);
  const OneWayAnova table = Analyse(groups);
  const nlohmann::json& printed = checks["published"];
  EXPECT_AS_PRINTED(table.between_variance, printed["REML_var_batch"].get<std::string>());
  EXPECT_AS_PRINTED(table.within_variance, printed["REML_var_residual"].get<std::string>());
  EXPECT_AS_PRINTED(table.grand_mean, printed["intercept"].get<std::string>());
  EXPECT_NEAR(table.f.value(), checks["recomputed"]["F"].get<double>(), 1e-12 * 4.6);
}

// Box and Tiao 1973 (Dyestuff2): the estimator comes out below 0.
TEST(OneWayAnova, NeverGivesANegativeVarianceBetweenMakers) {
  const nlohmann::json companion = LoadChecks("re_dyestuff_blup")["companion"];
  const OneWayAnova table = Analyse(companion["groups"]);
  EXPECT_NEAR(table.raw_between_variance, companion["recomputed"]["var_between_MoM"], 1e-12);
  EXPECT_EQ(table.between_variance, 0);
  EXPECT_NEAR(table.ms_within, companion["recomputed"]["ms_within"], 1e-12);
}

// JCGM 100:2008 H.5: only daily means and standard deviations are published, so each day stands
// here as five values with that mean and standard deviation. Published F from unrounded data: 0.02.
TEST(OneWayAnova, ReproducesTheZenerStandardOfTheGum) {
  const nlohmann::json checks = LoadChecks("re_gum_h5");
  const std::vector<double> pattern = {-1, -1, 0, 1, 1};  // standard deviation 1
  Groups groups;
  for (size_t day = 0; day < 10; ++day) {
    std::vector<double> values;
    for (const double z : pattern) {
      values.push_back(checks["daily_means_V"][day].get<double>() +
                       1e-6 * checks["daily_sd_uV"][day].get<double>() * z);
    }
    groups.push_back(values);
  }
  const OneWayAnova table = Analyse(groups);
  const nlohmann::json& printed = checks["published"];
  EXPECT_EQ(table.df_between, printed["df_a"].get<int>());
  EXPECT_EQ(table.df_within, printed["df_b"].get<int>());
  EXPECT_AS_PRINTED(table.grand_mean, printed["grand_mean"].get<std::string>());
  EXPECT_NEAR(table.f.value(), std::stod(printed["F"].get<std::string>()), 0.02);
  const nlohmann::json& recomputed = checks["recomputed"];
  EXPECT_NEAR(table.f.value(), recomputed["F"], 1e-6);
  EXPECT_NEAR(1e6 * std::sqrt(table.ms_between), recomputed["s_a_uV"], 1e-4);
  EXPECT_NEAR(1e6 * table.residual_sd, recomputed["s_b_uV"], 1e-4);
  EXPECT_NEAR(1e6 * std::sqrt(table.between_variance), recomputed["s_B_uV"], 1e-4);
  // From memory of the GUM's text (the file says so): 128, 85 and 43 microvolts.
  EXPECT_AS_PRINTED(1e6 * std::sqrt(table.ms_between), printed["s_a_uV"].get<std::string>());
  EXPECT_AS_PRINTED(1e6 * table.residual_sd, printed["s_b_uV"].get<std::string>());
  EXPECT_AS_PRINTED(1e6 * std::sqrt(table.between_variance), printed["s_B_uV"].get<std::string>());
}

TEST(OneWayAnova, AgreesWithSciPyOnUnbalancedGroups) {
  const Groups groups = {{15.2, 15.9}, {14.1}, {16.4, 16.0, 16.9, 16.1}, {}, {15.0, 14.6, 15.3}};
  const OneWayAnova table = Analyse(groups);
  const std::vector<double> scipy = AskSciPy(
      "r = stats.f_oneway([15.2,15.9],[14.1],[16.4,16.0,16.9,16.1],[15.0,14.6,15.3])\n"
      "print(repr(float(r.statistic))); print(repr(float(r.pvalue)))");
  ASSERT_EQ(scipy.size(), 2u);
  EXPECT_EQ(table.groups, 4);
  EXPECT_NEAR(table.f.value(), scipy[0], 1e-11 * scipy[0]);
  EXPECT_NEAR(table.p.value(), scipy[1], 1e-11);
  // (10 - (4 + 1 + 16 + 9) / 10) / 3
  EXPECT_NEAR(table.effective_size, 7.0 / 3, 1e-14);
  EXPECT_NEAR(table.raw_between_variance, (table.ms_between - table.ms_within) / (7.0 / 3), 1e-14);
}

TEST(OneWayAnova, IsNotGivenWhereTheComponentsCannotBeToldApart) {
  EXPECT_FALSE(AnalyseOneWay(Groups{}).has_value());
  EXPECT_FALSE(AnalyseOneWay(Groups{{1, 2, 3}}).has_value());
  EXPECT_FALSE(AnalyseOneWay(Groups{{1}, {2}, {3}}).has_value());
  const std::optional<OneWayAnova> equal = AnalyseOneWay(Groups{{2, 2}, {2, 2}});
  ASSERT_TRUE(equal.has_value());
  EXPECT_FALSE(equal->f.has_value());
  EXPECT_EQ(equal->r_squared, 0);
}

// NIST e-Handbook 1.3.5.2, ZARR13.DAT; NIST cuts the mean off.
TEST(StudentInterval, ReproducesTheHeatFlowMeterOfTheHandbook) {
  const nlohmann::json checks = LoadChecks("tci_zarr13");
  const MeanInterval mean = StudentInterval(checks["values"].get<std::vector<double>>());
  const nlohmann::json& printed = checks["published"];
  EXPECT_EQ(mean.count, 195);
  EXPECT_AS_CUT(mean.mean, printed["mean"].get<std::string>());
  EXPECT_AS_PRINTED(mean.sd, printed["sd"].get<std::string>());
  EXPECT_AS_PRINTED(mean.t, printed["t"].get<std::string>());
  EXPECT_AS_PRINTED(mean.interval->low, printed["lower"].get<std::string>());
  EXPECT_AS_PRINTED(mean.interval->high, printed["upper"].get<std::string>());
  const nlohmann::json& recomputed = checks["recomputed"];
  EXPECT_NEAR(mean.mean, recomputed["mean"], 1e-13);
  EXPECT_NEAR(mean.interval->low, recomputed["lower"], 1e-12);
  EXPECT_NEAR(mean.interval->high, recomputed["upper"], 1e-12);
}

// USEPA 1994b as EnvStats prints it: the same arithmetic on logarithms.
TEST(StudentInterval, ReproducesTheMeanOfLogarithmsOfTccb) {
  const nlohmann::json checks = LoadChecks("tci_log_tccb");
  std::vector<double> logs;
  for (const double value : checks["values"]) logs.push_back(std::log(value));
  const MeanInterval mean = StudentInterval(logs);
  const nlohmann::json& printed = checks["published"];
  EXPECT_AS_PRINTED(mean.mean, printed["mean_log"].get<std::string>());
  EXPECT_AS_PRINTED(mean.sd, printed["sd_log"].get<std::string>());
  EXPECT_AS_PRINTED(mean.interval->low, printed["lower"].get<std::string>());
  EXPECT_AS_PRINTED(mean.interval->high, printed["upper"].get<std::string>());
}

TEST(StudentInterval, IsNotGivenForOneValue) {
  const std::vector<double> one = {3.0};
  EXPECT_FALSE(StudentInterval(one).interval.has_value());
  EXPECT_EQ(StudentInterval(one).mean, 3.0);
}

TEST(Gauge, TakesEachTesterOnceHoweverManyReadings) {
  const std::vector<GaugeReading> readings = {{"a", 15}, {"b", 17}, {"a", 17},
                                              {"b", 17}, {"a", 16}, {"c", 15}};
  const absl::StatusOr<GaugeAgreement> gauge = CompareGauge(15, readings);
  ASSERT_TRUE(gauge.ok());
  EXPECT_EQ(gauge->testers, 3);
  EXPECT_EQ(gauge->readings, 6);
  EXPECT_NEAR(gauge->offset.mean, 1.0, 1e-14);  // offsets 1, 2, 0
  EXPECT_NEAR(gauge->offset.sd, 1.0, 1e-14);
  // t(0.975; 2) = 4.302653 (any table; NIST e-Handbook 1.3.6.7.2 prints 4.303)
  EXPECT_AS_PRINTED(gauge->offset.t, std::string("4.303"));
  EXPECT_NEAR(gauge->offset.interval->high, 1 + gauge->offset.t / std::sqrt(3.0), 1e-12);
  EXPECT_NEAR(gauge->relative_offset, 1.0 / 15, 1e-14);
  ASSERT_TRUE(gauge->components.has_value());
  EXPECT_EQ(gauge->components->df_within, 3);
}

TEST(Gauge, SaysNothingAboutSpreadWithFewTesters) {
  const absl::StatusOr<GaugeAgreement> none = CompareGauge(15, {});
  ASSERT_TRUE(none.ok());
  EXPECT_EQ(none->testers, 0);
  EXPECT_FALSE(none->offset.interval.has_value());
  const std::vector<GaugeReading> one = {{"a", 14}};
  EXPECT_FALSE(CompareGauge(15, one)->offset.interval.has_value());
  EXPECT_FALSE(CompareGauge(15, one)->components.has_value());
}

TEST(Gauge, RefusesWhatIsNoGauge) {
  for (const double bad : {0.0, -3.0, 1001.0, std::nan(""), static_cast<double>(INFINITY)}) {
    const std::vector<GaugeReading> readings = {{"a", 15}, {"b", bad}};
    const absl::Status status = CompareGauge(15, readings).status();
    ASSERT_EQ(status.code(), absl::StatusCode::kInvalidArgument) << bad;
    EXPECT_EQ(DetailOf(status).fields[0].field, "readings[1].per_100mm");
    EXPECT_EQ(DetailOf(CompareGauge(bad, {}).status()).fields[0].field, "design_per_100mm");
  }
  EXPECT_EQ(DetailOf(CompareGauge(15, {}, 1.0).status()).fields[0].field, "confidence");
}

}  // namespace
}  // namespace rowproof::reconcile
