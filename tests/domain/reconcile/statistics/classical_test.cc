#include "services/domain/reconcile/statistics/classical.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

#include "services/domain/reconcile/statistics/distributions.h"
#include "tests/domain/reconcile/statistics/check_values.h"

namespace rowproof::reconcile {
namespace {

std::vector<double> Roots(const std::vector<double>& variances) {
  std::vector<double> roots;
  for (const double variance : variances) roots.push_back(std::sqrt(variance));
  return roots;
}

// Thirteen log ratios with known variances (Colditz et al. 1994), as metafor prints them
// (Viechtbauer 2010, J. Statistical Software 36(3)).
class LogRatiosOfThirteenTrials : public testing::Test {
 protected:
  const nlohmann::json checks_ = LoadChecks("meta_bcg_log_ratio");
  const nlohmann::json& printed_ = checks_["published"];
  const nlohmann::json& recomputed_ = checks_["recomputed"];
  const std::vector<double> y_ = checks_["y"];
  const std::vector<double> s_ = Roots(checks_["v"]);
  const Classical pooled_ = Pool(y_, s_);
};

TEST_F(LogRatiosOfThirteenTrials, GiveThePublishedRestrictedMaximumLikelihood) {
  EXPECT_AS_PRINTED(pooled_.tau2_reml, printed_["tau2"].get<std::string>());
  EXPECT_AS_PRINTED(std::sqrt(pooled_.tau2_reml), printed_["tau"].get<std::string>());
  EXPECT_AS_PRINTED(pooled_.q, printed_["Q"].get<std::string>());
  EXPECT_AS_PRINTED(pooled_.mu, printed_["estimate"].get<std::string>());
  EXPECT_AS_PRINTED(pooled_.mu_se, printed_["se"].get<std::string>());
  EXPECT_NEAR(pooled_.tau2_reml, recomputed_["tau2"], 1e-13);
  EXPECT_NEAR(pooled_.mu, recomputed_["estimate"], 1e-13);
  EXPECT_NEAR(pooled_.mu_se, recomputed_["se"], 1e-13);
}

TEST_F(LogRatiosOfThirteenTrials, GiveTheDerSimonianLairdEstimate) {
  EXPECT_NEAR(pooled_.tau2_dl, checks_["dersimonian_laird"]["recomputed"]["tau2"], 1e-13);
  EXPECT_NEAR(pooled_.tau2_dl, checks_["metafor_3_8_1_tight_convergence"][7], 1e-13);
}

TEST_F(LogRatiosOfThirteenTrials, GiveThePublishedHartungKnappInterval) {
  EXPECT_AS_PRINTED(pooled_.hk_se, printed_["kh_se"].get<std::string>());
  EXPECT_AS_PRINTED(pooled_.hk.low, printed_["kh_lower"].get<std::string>());
  EXPECT_AS_PRINTED(pooled_.hk.high, printed_["kh_upper"].get<std::string>());
  EXPECT_NEAR(pooled_.hk.low, recomputed_["kh_lower"], 1e-12);
  EXPECT_NEAR(pooled_.hk.high, recomputed_["kh_upper"], 1e-12);
}

// The published interval for a new study is metafor's with the normal quantile; ours takes the t
// quantile with n - 2 degrees of freedom (Higgins, Thompson and Spiegelhalter 2009), here SciPy's,
// whose own quantiles of t are good to 11 digits.
TEST_F(LogRatiosOfThirteenTrials, GiveThePredictionInterval) {
  const double normal = NormalQuantile(0.975);
  EXPECT_AS_PRINTED(std::exp(pooled_.mu - normal * pooled_.predictive_sd),
                    printed_["new_study_lower"].get<std::string>());
  EXPECT_AS_PRINTED(std::exp(pooled_.mu + normal * pooled_.predictive_sd),
                    printed_["new_study_upper"].get<std::string>());
  const std::vector<double> t = AskSciPy("print(repr(float(stats.t.ppf(0.975, 11))))");
  ASSERT_EQ(t.size(), 1u);
  EXPECT_NEAR(pooled_.prediction->low, pooled_.mu - t[0] * pooled_.predictive_sd, 1e-10);
  EXPECT_NEAR(pooled_.prediction->high, pooled_.mu + t[0] * pooled_.predictive_sd, 1e-10);
}

// With equal variances REML is closed form: the batch means of Dyestuff, each with variance MSW / 5
// (published REML estimate, intercept and its standard error: lme4).
TEST(Pool, ReproducesTheRandomEffectsOfDyestuff) {
  const nlohmann::json checks = LoadChecks("re_dyestuff_blup");
  std::vector<double> means;
  for (const auto& [name, values] : checks["groups"].items()) {
    double sum = 0;
    for (const double value : values) sum += value;
    means.push_back(sum / 5);
  }
  const double residual = std::stod(checks["published"]["REML_var_residual"].get<std::string>());
  const Classical pooled = Pool(means, std::vector<double>(6, std::sqrt(residual / 5)));
  EXPECT_AS_PRINTED(pooled.tau2_reml, checks["published"]["REML_var_batch"].get<std::string>());
  EXPECT_AS_PRINTED(pooled.mu, checks["published"]["intercept"].get<std::string>());
  EXPECT_AS_PRINTED(pooled.mu_se, checks["published"]["se_intercept"].get<std::string>());
  EXPECT_NEAR(pooled.tau2_reml, pooled.tau2_dl, 1e-9);  // the same for equal variances
}

double RestrictedLogLikelihood(double tau2, const std::vector<double>& y,
                               const std::vector<double>& s) {
  double sum_w = 0;
  double sum_wy = 0;
  double log_w = 0;
  for (size_t i = 0; i < y.size(); ++i) {
    const double w = 1 / (s[i] * s[i] + tau2);
    sum_w += w;
    sum_wy += w * y[i];
    log_w += std::log(w);
  }
  double squares = 0;
  for (size_t i = 0; i < y.size(); ++i) {
    const double distance = y[i] - sum_wy / sum_w;
    squares += distance * distance / (s[i] * s[i] + tau2);
  }
  return 0.5 * (log_w - std::log(sum_w) - squares);
}

// No tau^2 on a fine grid is likelier than the one found, whatever the variances.
TEST(Pool, FindsTheHighestRestrictedLikelihood) {
  std::mt19937_64 random(20240611);
  for (int round = 0; round < 300; ++round) {
    const size_t count = 2 + random() % 9;
    std::vector<double> y;
    std::vector<double> s;
    for (size_t i = 0; i < count; ++i) {
      s.push_back(std::exp(-7 + 7 * std::generate_canonical<double, 53>(random)));
      y.push_back(std::normal_distribution<double>(0, 0.2)(random));
    }
    const double best = RestrictedLogLikelihood(Pool(y, s).tau2_reml, y, s);
    EXPECT_GE(best, RestrictedLogLikelihood(0, y, s) - 1e-9);
    for (double log_tau2 = -20; log_tau2 < 3; log_tau2 += 0.01) {
      EXPECT_GE(best, RestrictedLogLikelihood(std::exp(log_tau2), y, s) - 1e-9) << round;
    }
  }
}

TEST(Pool, OfTwoReportsGivesNoPredictionInterval) {
  const std::vector<double> y = {0.05, 0.15};
  const std::vector<double> s = {0.01, 0.01};
  const Classical pooled = Pool(y, s);
  EXPECT_EQ(pooled.reports, 2);
  EXPECT_FALSE(pooled.prediction.has_value());
  EXPECT_NEAR(pooled.mu, 0.10, 1e-12);
  // ((0.1)^2 - 2 * 0.01^2) / 2
  EXPECT_NEAR(pooled.tau2_reml, 0.0049, 1e-12);
}

TEST(Pool, OfEqualReportsFindsNoSpread) {
  const std::vector<double> y = {0.1, 0.1, 0.1};
  const std::vector<double> s = {0.01, 0.02, 0.03};
  const Classical pooled = Pool(y, s);
  EXPECT_EQ(pooled.tau2_reml, 0);
  EXPECT_EQ(pooled.tau2_dl, 0);
  EXPECT_NEAR(pooled.hk_se, 0, 1e-15);
}

}  // namespace
}  // namespace rowproof::reconcile
