#include "services/domain/reconcile/statistics/agreement.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "services/domain/errors.h"
#include "services/domain/reconcile/statistics/distributions.h"
#include "services/domain/reconcile/statistics/tau_posterior.h"
#include "tests/domain/reconcile/statistics/check_values.h"

namespace rowproof::reconcile {
namespace {

constexpr Prior kFlat{0, 0, true};

std::vector<LogRatio> SomeRatios(size_t count, double tau, uint64_t seed) {
  std::mt19937_64 random(seed);
  std::vector<LogRatio> ratios;
  for (size_t i = 0; i < count; ++i) {
    const double s = 0.005 + 0.03 * std::generate_canonical<double, 53>(random);
    const double theta = std::normal_distribution<double>(0.04, tau)(random);
    ratios.push_back({std::normal_distribution<double>(theta, s)(random), s});
  }
  return ratios;
}

// Rubin 1981; Gelman et al., Bayesian Data Analysis, section 5.5 (the data are from memory, as the
// file says). The recomputed values there come from another rule and are good to about 4 digits.
class EightStudies : public testing::Test {
 protected:
  static std::vector<LogRatio> Ratios(const nlohmann::json& checks) {
    std::vector<LogRatio> ratios;
    for (size_t i = 0; i < checks["y"].size(); ++i) {
      ratios.push_back({checks["y"][i], checks["s"][i]});
    }
    return ratios;
  }
  const nlohmann::json checks_ = LoadChecks("bayes_eight_studies");
  const nlohmann::json& values_ = checks_["recomputed"];
  const std::vector<LogRatio> ratios_ = Ratios(checks_);
  const Agreement agreement_ = AgreeOnLogRatios(ratios_, kFlat);
};

TEST_F(EightStudies, GiveThePosteriorOfMuAndTau) {
  EXPECT_NEAR(agreement_.mu.mean, values_["mu_mean"], 5e-4);
  EXPECT_NEAR(agreement_.mu.sd, values_["mu_sd"], 5e-4);
  EXPECT_NEAR(agreement_.tau.mean, values_["tau_mean"], 5e-4);
  const TauPosterior posterior = IntegrateTau(CentredRatios(ratios_), kFlat);
  const std::vector<double> quantiles = posterior.Quantiles(std::vector<double>{0.05, 0.5, 0.95});
  EXPECT_NEAR(quantiles[0], values_["tau_quantiles_05_50_95"][0], 1.1e-3);  // its step is 0.001
  EXPECT_NEAR(quantiles[1], values_["tau_quantiles_05_50_95"][1], 1.1e-3);
  EXPECT_NEAR(quantiles[2], values_["tau_quantiles_05_50_95"][2], 1.1e-3);
}

TEST_F(EightStudies, GiveTheShrunkenStudiesAndTheNewOne) {
  for (size_t i = 0; i < 8; ++i) {
    EXPECT_NEAR(agreement_.makers[i].theta_mean, values_["theta_mean"][i], 5e-4) << i;
    EXPECT_NEAR(agreement_.makers[i].theta_sd, values_["theta_sd"][i], 1e-3) << i;
  }
  EXPECT_NEAR(agreement_.predictive.Quantile(0.95), values_["new_theta_quantile_95"], 1e-3);
}

// Published medians of draws (from memory): A 10, C 7, E 5, G 10; means stand near them.
TEST_F(EightStudies, LieNearThePublishedDraws) {
  EXPECT_NEAR(agreement_.makers[0].theta_mean, 10, 2);
  EXPECT_NEAR(agreement_.makers[2].theta_mean, 7, 2);
  EXPECT_NEAR(agreement_.makers[4].theta_mean, 5, 2);
  EXPECT_NEAR(agreement_.makers[6].theta_mean, 10, 2);
}

// Given tau the shrunken means are the best linear unbiased predictors: Dyestuff as lme4 prints it.
TEST(GivenTau, ReproducesThePredictorsOfDyestuff) {
  const nlohmann::json checks = LoadChecks("re_dyestuff_blup");
  const double residual = checks["recomputed"]["REML_var_residual"];
  const double between = checks["recomputed"]["REML_var_batch"];
  std::vector<LogRatio> means;
  for (const auto& [name, values] : checks["groups"].items()) {
    double sum = 0;
    for (const double value : values) sum += value;
    means.push_back({sum / 5, std::sqrt(residual / 5)});
  }
  const GivenTau given = ConditionOnTau(means, kFlat, std::sqrt(between));
  EXPECT_AS_PRINTED(given.mu_mean, checks["published"]["intercept"].get<std::string>());
  EXPECT_AS_PRINTED(given.mu_sd, checks["published"]["se_intercept"].get<std::string>());
  for (size_t i = 0; i < 6; ++i) {
    EXPECT_AS_PRINTED(given.theta_mean[i] - given.mu_mean,
                      checks["published"]["blup"][i].get<std::string>());
  }
}

// The joint posterior of mu and tau, theta integrated out, summed over a plain grid of both: no
// closed form, no transformation, nothing shared with the code under test.
struct BruteForce {
  double mu_mean = 0, mu_sd = 0, tau_mean = 0, tau_sd = 0;
  double tau_median = 0;
  double new_mean = 0, new_sd = 0;
  double new_below = 0;  // probability of a new theta below `at`
  double theta0_mean = 0, theta0_sd = 0;
};

BruteForce SumOverGrid(const std::vector<LogRatio>& ratios, const Prior& prior, double at) {
  constexpr int kSteps = 1500;
  const double most_tau = 6.5 * prior.tau_scale;
  const double most_mu = 7.5 * prior.mu_sd;
  double mass = 0, mu1 = 0, mu2 = 0, tau1 = 0, tau2 = 0, below = 0, theta1 = 0, theta2 = 0;
  std::vector<double> tau_mass(kSteps);
  for (int j = 0; j < kSteps; ++j) {
    const double tau = (j + 0.5) * most_tau / kSteps;
    double log_given_tau = -0.5 * (tau / prior.tau_scale) * (tau / prior.tau_scale);
    std::vector<double> weights;
    for (const LogRatio& ratio : ratios) {
      weights.push_back(1 / (ratio.s * ratio.s + tau * tau));
      log_given_tau += 0.5 * std::log(weights.back());
    }
    for (int i = 0; i < kSteps; ++i) {
      const double mu = -most_mu + (i + 0.5) * 2 * most_mu / kSteps;
      double squares = mu * mu / (prior.mu_sd * prior.mu_sd);
      for (size_t r = 0; r < ratios.size(); ++r) {
        squares += weights[r] * (ratios[r].y - mu) * (ratios[r].y - mu);
      }
      const double log_density = log_given_tau - 0.5 * squares;
      const double density = std::exp(log_density);
      mass += density;
      mu1 += density * mu;
      mu2 += density * mu * mu;
      tau1 += density * tau;
      tau2 += density * tau * tau;
      tau_mass[static_cast<size_t>(j)] += density;
      below += density * 0.5 * std::erfc((mu - at) / tau / std::sqrt(2.0));
      if (ratios.empty()) continue;
      const double s2 = ratios[0].s * ratios[0].s;
      const double mean = (ratios[0].y * tau * tau + mu * s2) / (tau * tau + s2);
      theta1 += density * mean;
      theta2 += density * (mean * mean + tau * tau * s2 / (tau * tau + s2));
    }
  }
  BruteForce sums;
  sums.mu_mean = mu1 / mass;
  sums.mu_sd = std::sqrt(mu2 / mass - sums.mu_mean * sums.mu_mean);
  sums.tau_mean = tau1 / mass;
  sums.tau_sd = std::sqrt(tau2 / mass - sums.tau_mean * sums.tau_mean);
  sums.new_mean = sums.mu_mean;
  sums.new_sd = std::sqrt(mu2 / mass + tau2 / mass - sums.mu_mean * sums.mu_mean);
  sums.new_below = below / mass;
  sums.theta0_mean = theta1 / mass;
  sums.theta0_sd = std::sqrt(theta2 / mass - sums.theta0_mean * sums.theta0_mean);
  double reached = 0;
  for (int j = 0; j < kSteps; ++j) {
    const double here = tau_mass[static_cast<size_t>(j)];
    if (reached + here >= 0.5 * mass) {
      sums.tau_median = (j + (0.5 * mass - reached) / here) * most_tau / kSteps;
      break;
    }
    reached += here;
  }
  return sums;
}

void ExpectAsBruteForce(const std::vector<LogRatio>& ratios, const Prior& prior) {
  const Agreement agreement = AgreeOnLogRatios(ratios, prior);
  const double at = agreement.predictive.Quantile(0.95);
  const BruteForce sums = SumOverGrid(ratios, prior, at);
  // The grid's own error is of the order of its step squared.
  const double close = 2e-5 * (prior.mu_sd + prior.tau_scale);
  EXPECT_NEAR(agreement.mu.mean, sums.mu_mean, close);
  EXPECT_NEAR(agreement.mu.sd, sums.mu_sd, close);
  EXPECT_NEAR(agreement.tau.mean, sums.tau_mean, close);
  EXPECT_NEAR(agreement.tau.sd, sums.tau_sd, close);
  EXPECT_NEAR(agreement.tau.median, sums.tau_median, 3 * close);
  EXPECT_NEAR(agreement.new_maker.mean, sums.new_mean, close);
  EXPECT_NEAR(agreement.new_maker.sd, sums.new_sd, close);
  EXPECT_NEAR(sums.new_below, 0.95, 1e-4);
  if (ratios.empty()) return;
  EXPECT_NEAR(agreement.makers[0].theta_mean, sums.theta0_mean, close);
  EXPECT_NEAR(agreement.makers[0].theta_sd, sums.theta0_sd, close);
}

TEST(Agreement, EqualsASumOverAPlainGridForAnyNumberOfReports) {
  for (const Prior& prior : {kYarnPrior, kSizePrior, kTimePrior}) {
    ExpectAsBruteForce({}, prior);
    ExpectAsBruteForce({{0.08, 0.02}}, prior);
    ExpectAsBruteForce({{0.08, 0.02}, {-0.02, 0.03}}, prior);
    ExpectAsBruteForce({{0.08, 0.02}, {0.03, 0.01}, {0.11, 0.04}, {0.05, 0.015}, {0.02, 0.02}},
                       prior);
  }
}

// The same by SciPy's adaptive quadrature over tau of the closed form.
TEST(Agreement, EqualsSciPysQuadrature) {
  const std::vector<double> scipy = AskSciPy(R"(
y = np.array([0.08, 0.03, 0.11, 0.05, 0.62, 0.02]); s = np.array([0.02, 0.01, 0.04, 0.015, 0.02, 0.02])
def parts(t):
    v = s * s + t * t
    P = (1 / v).sum() + 1 / 0.12 ** 2
    m = (y / v).sum() / P
    q = (y * y / v).sum() - P * m * m
    return np.exp(-t * t / 2 / 0.01 - 0.5 * np.log(v).sum() - 0.5 * np.log(P) - 0.5 * q - 10), m, 1 / P
def I(f): return integrate.quad(f, 0, 1, epsabs=0, epsrel=1e-11, limit=500, points=[0.05, 0.1, 0.2, 0.3])[0]
Z = I(lambda t: parts(t)[0])
mm = I(lambda t: parts(t)[0] * parts(t)[1]) / Z
m2 = I(lambda t: parts(t)[0] * (parts(t)[1] ** 2 + parts(t)[2])) / Z
tm = I(lambda t: t * parts(t)[0]) / Z
t2 = I(lambda t: t * t * parts(t)[0]) / Z
def below(x): return I(lambda t: parts(t)[0] * stats.norm.cdf((x - parts(t)[1]) / (parts(t)[2] + t * t) ** 0.5)) / Z
from scipy.optimize import brentq
print(repr(mm)); print(repr((m2 - mm * mm) ** 0.5)); print(repr(tm)); print(repr((t2 - tm * tm) ** 0.5))
print(repr(brentq(lambda x: below(x) - 0.95, -1, 2, xtol=1e-13)))
def tau_below(x): return integrate.quad(lambda t: parts(t)[0], 0, x, epsabs=0, epsrel=1e-11)[0] / Z
print(repr(brentq(lambda x: tau_below(x) - 0.975, 0.01, 0.9, xtol=1e-13)))
)");
  ASSERT_EQ(scipy.size(), 6u);
  const std::vector<LogRatio> ratios = {{0.08, 0.02},  {0.03, 0.01}, {0.11, 0.04},
                                        {0.05, 0.015}, {0.62, 0.02}, {0.02, 0.02}};
  const Agreement agreement = AgreeOnLogRatios(ratios, kYarnPrior);
  EXPECT_NEAR(agreement.mu.mean, scipy[0], 1e-9);
  EXPECT_NEAR(agreement.mu.sd, scipy[1], 1e-9);
  EXPECT_NEAR(agreement.tau.mean, scipy[2], 1e-9);
  EXPECT_NEAR(agreement.tau.sd, scipy[3], 1e-9);
  EXPECT_NEAR(agreement.predictive.Quantile(0.95), scipy[4], 1e-9);
  EXPECT_NEAR(agreement.tau.high, scipy[5], 1e-6);  // interpolated between nodes
}

TEST(Agreement, OfNoReportsIsThePrior) {
  const Agreement agreement = AgreeOnLogRatios({}, kYarnPrior);
  EXPECT_EQ(agreement.note, AgreementNote::kPriorSpeaks);
  EXPECT_FALSE(agreement.classical.has_value());
  EXPECT_NEAR(agreement.mu.mean, 0, 1e-14);
  EXPECT_NEAR(agreement.mu.sd, 0.12, 1e-12);
  EXPECT_NEAR(agreement.mu.high, 0.12 * NormalQuantile(0.975), 1e-12);
  // Half-normal: mean scale sqrt(2/pi), median scale * 0.6745 (the normal quantile of 0.75).
  EXPECT_NEAR(agreement.tau.mean, 0.1 * std::sqrt(2 / M_PI), 1e-12);
  EXPECT_NEAR(agreement.tau.median, 0.1 * NormalQuantile(0.75), 1e-6);
  EXPECT_NEAR(agreement.tau.low, 0.1 * NormalQuantile(0.5125), 1e-6);
  EXPECT_NEAR(agreement.tau.high, 0.1 * NormalQuantile(0.9875), 1e-6);
  EXPECT_NEAR(agreement.new_maker.sd, std::sqrt(0.12 * 0.12 + 0.01), 1e-12);
}

TEST(Agreement, SaysWhenThePriorSpeaks) {
  EXPECT_EQ(AgreeOnLogRatios(SomeRatios(1, 0.1, 1), kYarnPrior).note, AgreementNote::kPriorSpeaks);
  EXPECT_EQ(AgreeOnLogRatios(SomeRatios(2, 0.1, 1), kYarnPrior).note, AgreementNote::kFew);
  EXPECT_EQ(AgreeOnLogRatios(SomeRatios(3, 0.1, 1), kYarnPrior).note, AgreementNote::kNone);
  EXPECT_NE(Sentence(AgreementNote::kPriorSpeaks, 0), Sentence(AgreementNote::kPriorSpeaks, 1));
}

TEST(Agreement, OfManyReportsFindsTheTrueValues) {
  const Agreement agreement = AgreeOnLogRatios(SomeRatios(20000, 0.08, 7), kYarnPrior);
  // Four standard errors: 0.08 / sqrt(20000) and 0.08 / sqrt(40000).
  EXPECT_NEAR(agreement.mu.mean, 0.04, 4 * 0.0006);
  EXPECT_NEAR(agreement.tau.mean, 0.08, 4 * 0.00042);
  EXPECT_NEAR(agreement.tau.sd, 0.08 / std::sqrt(40000.0), 5e-5);
  EXPECT_NEAR(agreement.classical->tau2_reml, agreement.tau.mean * agreement.tau.mean, 2e-5);
}

TEST(Agreement, HoldsForReportsWithoutMeasuringUncertainty) {
  const Agreement differing = AgreeOnLogRatios(
      std::vector<LogRatio>{{0.10, 0}, {0.02, 0}, {0.05, 0}, {0.07, 0}}, kYarnPrior);
  EXPECT_TRUE(std::isfinite(differing.mu.mean) && std::isfinite(differing.new_maker.high));
  // Nothing to shrink: each maker's own ratio is known.
  EXPECT_NEAR(differing.makers[0].theta_mean, 0.10, 1e-5);
  const Agreement equal = AgreeOnLogRatios(std::vector<LogRatio>(6, LogRatio{0.05, 0}), kYarnPrior);
  EXPECT_NEAR(equal.mu.mean, 0.05, 1e-4);
  EXPECT_LT(equal.tau.mean, 1e-3);
}

TEST(Agreement, CarriesTheIdsAndLeavesOutWhatIsSetAside) {
  std::vector<Measurement> measurements = {
      {"p", 110, 100, 0.02, false}, {"q", 254, 100, 0.02, true}, {"r", 105, 100, 0.02, false}};
  const absl::StatusOr<Agreement> agreement = Agree(measurements, kYarnPrior);
  ASSERT_TRUE(agreement.ok());
  EXPECT_EQ(agreement->reports_used, 2);
  EXPECT_EQ(agreement->reports_set_aside, 1);
  ASSERT_EQ(agreement->makers.size(), 3u);
  EXPECT_EQ(agreement->makers[1].id, "q");
  EXPECT_TRUE(agreement->makers[1].set_aside);
  EXPECT_NEAR(agreement->makers[1].y, std::log(2.54), 1e-15);
  EXPECT_EQ(agreement->makers[1].theta_mean, agreement->new_maker.mean);
  EXPECT_EQ(agreement->makers[2].id, "r");
  measurements.erase(measurements.begin() + 1);
  EXPECT_EQ(Agree(measurements, kYarnPrior)->mu.mean, agreement->mu.mean);
}

TEST(Agreement, DoesNotDependOnTheOrderOfTheReports) {
  std::vector<LogRatio> ratios = SomeRatios(7, 0.1, 3);
  const Agreement forward = AgreeOnLogRatios(ratios, kYarnPrior);
  std::reverse(ratios.begin(), ratios.end());
  const Agreement backward = AgreeOnLogRatios(ratios, kYarnPrior);
  EXPECT_NEAR(forward.mu.mean, backward.mu.mean, 1e-12);
  EXPECT_NEAR(forward.new_maker.high, backward.new_maker.high, 1e-12);
  EXPECT_NEAR(forward.makers[0].theta_mean, backward.makers[6].theta_mean, 1e-12);
}

TEST(Agreement, PredictiveQuantilesInvertItsDistribution) {
  const NormalMixture predictive = AgreeOnLogRatios(SomeRatios(5, 0.1, 5), kYarnPrior).predictive;
  for (const double p : {1e-9, 0.001, 0.05, 0.5, 0.8, 0.95, 0.999}) {
    EXPECT_NEAR(predictive.Cdf(predictive.Quantile(p)) / p, 1, 1e-10) << p;
    EXPECT_NEAR(predictive.Survival(predictive.Quantile(1 - p)) / p, 1, 1e-6) << p;
  }
}

TEST(Agreement, NamesTheFieldThatIsOutOfRange) {
  const auto field_of = [](const Measurement& bad, const Prior& prior, double probability) {
    const std::vector<Measurement> both = {{"a", 100, 100, 0.02, false}, bad};
    const absl::Status status = Agree(both, prior, probability).status();
    EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
    return DetailOf(status).fields.at(0).field;
  };
  const Measurement good{"b", 100, 100, 0.02, false};
  for (const double bad : {0.0, -1.0, std::nan(""), 1e13, static_cast<double>(INFINITY)}) {
    EXPECT_EQ(field_of({"b", bad, 100, 0.02, false}, kYarnPrior, 0.95), "measurements[1].measured");
    EXPECT_EQ(field_of({"b", 100, bad, 0.02, false}, kYarnPrior, 0.95),
              "measurements[1].predicted");
    EXPECT_EQ(field_of(good, {bad, 0.1}, 0.95), "prior.mu_sd");
    EXPECT_EQ(field_of(good, {0.1, bad}, 0.95), "prior.tau_scale");
    EXPECT_EQ(field_of(good, kYarnPrior, bad), "interval_probability");
  }
  EXPECT_EQ(field_of({"b", 100, 100, -0.1, false}, kYarnPrior, 0.95),
            "measurements[1].relative_uncertainty");
  EXPECT_EQ(field_of({"b", 100, 100, std::nan(""), true}, kYarnPrior, 0.95),
            "measurements[1].relative_uncertainty");
  EXPECT_EQ(field_of(good, kFlat, 0.95), "prior.flat");
}

}  // namespace
}  // namespace rowproof::reconcile
