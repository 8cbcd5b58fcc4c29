#include "services/domain/reconcile/outliers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "services/domain/errors.h"
#include "services/domain/reconcile/statistics/leave_one_out.h"
#include "tests/domain/reconcile/statistics/check_values.h"

namespace rowproof::reconcile {
namespace {

using testing::HasSubstr;

std::vector<Measurement> Ratios(const std::vector<double>& ratios) {
  std::vector<Measurement> measurements;
  for (const double ratio : ratios) {
    measurements.push_back(
        {std::string(1, static_cast<char>('a' + measurements.size())), 100 * ratio, 100, 0.02});
  }
  return measurements;
}

std::vector<OutlierView> Find(const std::vector<Measurement>& measurements) {
  const auto views = FindOutliers(measurements, kYarnPrior);
  EXPECT_TRUE(views.ok()) << views.status();
  return views.ok() ? *views : std::vector<OutlierView>{};
}

// The isotope masses of Tietjen and Moore (NIST e-Handbook 1.3.5.17.1), where Grubbs' test finds
// 245.57; the scores are computed here by SciPy's median absolute deviation.
TEST(ModifiedZ, AgreesWithSciPyOnTheHandbooksExample) {
  const std::vector<double> values = LoadChecks("outlier_grubbs")["values"];
  const std::vector<double> scipy = AskSciPy(
      "x = np.array([199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57])\n"
      "for z in 0.6745 * (x - np.median(x)) / stats.median_abs_deviation(x): "
      "print(repr(float(z)))");
  const std::vector<double> scores = ModifiedZ(values);
  ASSERT_EQ(scores.size(), scipy.size());
  for (size_t i = 0; i < scores.size(); ++i) {
    EXPECT_NEAR(scores[i], scipy[i], 1e-11);
    EXPECT_EQ(std::abs(scores[i]) > 3.5, values[i] == 245.57) << values[i];
  }
}

// CMH-17-1G's batches: the one value that the maximum normed residual rejects, and none.
TEST(ModifiedZ, FlagsTheValueThatAnotherTestRejectsInAHandbook) {
  const nlohmann::json cases = LoadChecks("outlier_grubbs")["more_cases"];
  const std::vector<double> values = cases[1]["values"];
  const std::vector<double> scores = ModifiedZ(values);
  ASSERT_EQ(scores.size(), values.size());
  for (size_t i = 0; i < values.size(); ++i) {
    if (values[i] == cases[1]["published"]["outlier"].get<double>()) {
      EXPECT_LT(scores[i], -3.5);
    }
  }
}

TEST(ModifiedZ, IsNotGivenWhereMostAgreeExactly) {
  EXPECT_TRUE(ModifiedZ(std::vector<double>{1, 1, 1, 1, 2}).empty());
}

TEST(LeaveOneOut, EqualsSciPysQuadrature) {
  const std::vector<double> scipy = AskSciPy(R"(
y = np.array([0.08, 0.03, 0.11, 0.05]); s = np.array([0.02, 0.01, 0.04, 0.015])
def parts(t):
    v = s * s + t * t
    P = (1 / v).sum() + 1 / 0.12 ** 2
    m = (y / v).sum() / P
    q = (y * y / v).sum() - P * m * m
    return np.exp(-t * t / 2 / 0.01 - 0.5 * np.log(v).sum() - 0.5 * np.log(P) - 0.5 * q - 10), m, 1 / P
def I(f): return integrate.quad(f, 0, 1, epsabs=0, epsrel=1e-11, limit=500, points=[0.02, 0.05, 0.1, 0.2])[0]
Z = I(lambda t: parts(t)[0])
def above(x, e): return I(lambda t: parts(t)[0] * stats.norm.sf((x - parts(t)[1]) / (parts(t)[2] + t * t + e * e) ** 0.5)) / Z
print(repr(2 * above(0.45, 0.02)))
)");
  ASSERT_EQ(scipy.size(), 1u);
  const std::vector<LogRatio> ratios = {
      {0.08, 0.02}, {0.03, 0.01}, {0.45, 0.02}, {0.11, 0.04}, {0.05, 0.015}};
  EXPECT_NEAR(LeaveOneOut(ratios, kYarnPrior)[2] / scipy[0], 1, 1e-8);
}

TEST(LeaveOneOut, IsTheSameOnOneGridAsDoneAnew) {
  std::mt19937_64 random(99);
  for (const size_t count : {6u, 25u, 120u}) {
    for (const double far : {0.0, 0.9, 4.0}) {  // one report of inches for centimetres, and worse
      std::vector<LogRatio> ratios;
      for (size_t i = 0; i < count; ++i) {
        ratios.push_back({std::normal_distribution<double>(0.05, 0.08)(random),
                          i % 7 == 3 ? 0.0 : 0.01 + 0.001 * static_cast<double>(i % 30)});
      }
      ratios[2].y += far;
      const std::vector<double> anew = LeaveOneOutDirectly(ratios, kYarnPrior);
      const std::vector<double> grid = LeaveOneOutOnOneGrid(ratios, kYarnPrior);
      ASSERT_EQ(grid.size(), anew.size());
      for (size_t i = 0; i < count; ++i) {
        EXPECT_NEAR(grid[i], anew[i], 1e-6 * anew[i] + 1e-14) << count << ' ' << far << ' ' << i;
      }
    }
  }
}

// Under the model itself the probabilities are uniform (prior predictive: mu, tau, theta and y
// drawn from the prior): each tenth of them holds a tenth, within four standard deviations.
TEST(LeaveOneOut, ProbabilitiesAreUniformUnderTheModel) {
  std::mt19937_64 random(5);
  std::normal_distribution<double> normal;
  std::vector<int> tenths(10);
  constexpr int kRounds = 2000;
  for (int round = 0; round < kRounds; ++round) {
    const double mu = 0.12 * normal(random);
    const double tau = std::abs(0.10 * normal(random));
    std::vector<LogRatio> ratios;
    for (int i = 0; i < 4; ++i) {
      ratios.push_back({mu + tau * normal(random) + 0.02 * normal(random), 0.02});
    }
    const std::vector<LogRatio> others(ratios.begin() + 1, ratios.end());
    const double p = TwoSidedProbability(PredictNewMaker(others, kYarnPrior), ratios[0]);
    ++tenths[std::min<size_t>(9, static_cast<size_t>(10 * p))];
  }
  for (const int count : tenths) {
    EXPECT_NEAR(count, kRounds * 0.1, 4 * std::sqrt(kRounds * 0.1 * 0.9));
  }
}

TEST(Outliers, AReportOfInchesForCentimetresIsFlaggedWithItsReasons) {
  const std::vector<OutlierView> views = Find(Ratios({1.02, 1.10, 0.97, 1.05, 0.394, 1.08}));
  for (const OutlierView& view : views) EXPECT_EQ(view.flagged(), view.id == "e") << view.id;
  EXPECT_TRUE(views[4].far_by_modified_z);
  EXPECT_TRUE(views[4].far_by_prediction);
  EXPECT_THAT(views[4].reason, HasSubstr("0.39 times the prediction"));
  EXPECT_THAT(views[4].reason, HasSubstr("modified z-score"));
  EXPECT_THAT(views[4].reason, HasSubstr("by the other 5 reports"));
  EXPECT_EQ(views[0].reason, "");
}

TEST(Outliers, SoundReportsAreNotFlagged) {
  for (const OutlierView& view : Find(Ratios({1.02, 1.10, 0.97, 1.05, 0.99, 1.08, 1.15}))) {
    EXPECT_FALSE(view.flagged()) << view.reason;
    EXPECT_GT(view.predictive_probability, 0.05);
  }
}

TEST(Outliers, BelowFiveReportsOnlyThePredictionSpeaks) {
  const std::vector<OutlierView> views = Find(Ratios({1.02, 1.05, 1.00, 2.54}));
  for (const OutlierView& view : views) EXPECT_FALSE(view.modified_z.has_value());
  EXPECT_TRUE(views[3].far_by_prediction);
  EXPECT_FALSE(views[3].far_by_modified_z);
  EXPECT_TRUE(Find(Ratios({1.02, 1.05, 1.00, 1.01, 1.03}))[0].modified_z.has_value());
}

TEST(Outliers, AloneReportIsHeldAgainstThePrior) {
  EXPECT_FALSE(Find(Ratios({1.1}))[0].flagged());
  const OutlierView far = Find(Ratios({2.54}))[0];
  EXPECT_TRUE(far.far_by_prediction);
  EXPECT_THAT(far.reason, HasSubstr("by the prior assumption"));
  EXPECT_TRUE(Find({}).empty());
}

TEST(Outliers, WhatIsSetAsideDoesNotMoveTheOthersAndIsStillJudged) {
  std::vector<Measurement> measurements = Ratios({1.02, 1.10, 0.97, 1.05, 2.54, 1.08});
  measurements[4].set_aside = true;
  const std::vector<OutlierView> views = Find(measurements);
  EXPECT_TRUE(views[4].set_aside);
  EXPECT_TRUE(views[4].flagged());
  measurements.erase(measurements.begin() + 4);
  const std::vector<OutlierView> without = Find(measurements);
  EXPECT_EQ(views[0].predictive_probability, without[0].predictive_probability);
  EXPECT_EQ(views[5].modified_z, without[4].modified_z);
}

TEST(Outliers, RefuseSettingsOutOfRangeAndAFlatPriorWithoutReports) {
  const std::vector<Measurement> five = Ratios({1, 1.1, 1.2, 1.3, 1.4});
  const auto field_of = [&](const Prior& prior, const OutlierSettings& settings) {
    const absl::Status status = FindOutliers(five, prior, settings).status();
    EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
    return DetailOf(status).fields.at(0).field;
  };
  EXPECT_EQ(field_of(kYarnPrior, {std::nan(""), 0.05}), "settings.most_modified_z");
  EXPECT_EQ(field_of(kYarnPrior, {3.5, 0}), "settings.least_probability");
  EXPECT_EQ(field_of({0, 0, true}, {}), "prior.flat");
}

}  // namespace
}  // namespace rowproof::reconcile
