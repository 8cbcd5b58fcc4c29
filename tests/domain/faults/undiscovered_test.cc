#include "services/domain/faults/undiscovered.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "services/domain/reconcile/statistics/distributions.h"
#include "tests/domain/reconcile/statistics/check_values.h"

namespace rowproof::faults {
namespace {

// iNEXT's spider data (Ellison et al. 2010); vegan 2.6 prints the bias-corrected form with
// factor 1.
TEST(Chao, ReproducesThePublishedEstimatesWithFactorOne) {
  const nlohmann::json checks = reconcile::LoadChecks("caprecap_chao1_spider");
  const std::string vegan = checks["R_vegan_2_6_estimateR"];
  const TotalEstimate girdled = Chao(26, 12, 4, 1);
  EXPECT_NE(vegan.find("39.200000000 10.206970008"), std::string::npos);
  EXPECT_AS_PRINTED(girdled.total, std::string("39.200000000"));
  EXPECT_AS_PRINTED(girdled.se, std::string("10.206970008"));
  const TotalEstimate logged = Chao(37, 14, 4, 1);
  EXPECT_NE(vegan.find("55.20000000 13.14527391"), std::string::npos);
  EXPECT_AS_PRINTED(logged.total, std::string("55.20000000"));
  EXPECT_AS_PRINTED(logged.se, std::string("13.14527391"));
}

TEST(Chao, ReproducesTheBiasCorrectedFormWithTheSampleFactor) {
  const nlohmann::json recomputed = reconcile::LoadChecks("caprecap_chao1_spider")["recomputed"];
  for (const std::string name : {"Girdled", "Logged"}) {
    const nlohmann::json& one = recomputed[name];
    const double n = one["n"];
    EXPECT_NEAR(Chao(one["S_obs"], one["f1"], one["f2"], (n - 1) / n).total,
                one["chao1_bias_corrected"], 1e-12);
  }
}

// Chao 1987; the file's interval belongs to the classical estimate and its standard error.
TEST(LogNormalInterval, ReproducesTheRecomputedOne) {
  const nlohmann::json recomputed = reconcile::LoadChecks("caprecap_chao1_spider")["recomputed"];
  for (const std::string name : {"Girdled", "Logged"}) {
    const nlohmann::json& one = recomputed[name];
    const reconcile::Interval interval =
        LogNormalInterval(one["S_obs"], {one["chao1"], one["se"]}, 0.95);
    EXPECT_NEAR(interval.low, one["ci95"][0], 1e-3);  // made with z = 1.96
    EXPECT_NEAR(interval.high, one["ci95"][1], 5e-3);
  }
}

TEST(Chapman, ReproducesTheTextbooks) {
  const nlohmann::json cases = reconcile::LoadChecks("caprecap_two_sample")["cases"];
  int printed_values = 0;
  for (const nlohmann::json& one : cases) {
    const TotalEstimate estimate = Chapman(one["M_first"], one["n_second"], one["m_both"]);
    EXPECT_NEAR(estimate.total, one["recomputed"]["chapman"], 1e-8) << one["id"];
    EXPECT_NEAR(estimate.se, one["recomputed"]["chapman_se"], 1e-8) << one["id"];
    const nlohmann::json& printed = one["published"];
    const double reach = 1.96 * estimate.se;
    const auto expect = [&](const char* key, double value) {
      if (!printed.contains(key)) return;
      ++printed_values;
      EXPECT_AS_PRINTED(value, printed[key].get<std::string>()) << one["id"] << ' ' << key;
    };
    expect("chapman", estimate.total);
    expect("chapman_se", estimate.se);
    expect("se", estimate.se);
    expect("lower95", estimate.total - reach);
    expect("upper95", estimate.total + reach);
  }
  EXPECT_EQ(printed_values, 12);
}

ErrataCluster Found(int row, std::vector<std::string> by) {
  ErrataCluster cluster;
  cluster.row = cluster.last_row = row;
  cluster.found_by = std::move(by);
  return cluster;
}

std::vector<TesterWork> Testers(int count, int last_row) {
  std::vector<TesterWork> work;
  for (int i = 0; i < count; ++i) {
    TesterWork one;
    one.tester = std::string(1, static_cast<char>('a' + i));
    one.from_chart = true;
    one.last_row = last_row;
    work.push_back(one);
  }
  return work;
}

const ChartRows kTenRows = {{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}};

TEST(Undiscovered, IsTheChaoEstimateForSeveralTesters) {
  const std::vector<ErrataCluster> clusters = {Found(1, {"a"}), Found(2, {"b"}), Found(3, {"c"}),
                                               Found(4, {"a", "b"}), Found(0, {"a", "b", "d"})};
  const Undiscovered answer = EstimateUndiscovered(clusters, Testers(4, 10), kTenRows);
  EXPECT_EQ(answer.estimator, EstimatorUsed::kChao);
  EXPECT_EQ(answer.testers, 4);
  EXPECT_EQ(answer.rows, 10);
  EXPECT_EQ(answer.found, 5);
  EXPECT_EQ(answer.found_once, 3);
  EXPECT_EQ(answer.found_twice, 1);
  // 3/4 * 3 * 2 / (2 * 2)
  EXPECT_NEAR(answer.left, 1.125, 1e-12);
  ASSERT_TRUE(answer.left_interval.has_value());
  EXPECT_GT(answer.left_interval->low, 0);
  EXPECT_GT(answer.left_interval->high, answer.left);
  EXPECT_FALSE(answer.weak);
}

// The public defect example: five and four found, two by both; Chapman 9, seven found.
TEST(Undiscovered, IsChapmansForTwoTesters) {
  std::vector<ErrataCluster> clusters;
  for (int i = 0; i < 3; ++i) clusters.push_back(Found(1 + i, {"a"}));
  for (int i = 0; i < 2; ++i) clusters.push_back(Found(4 + i, {"b"}));
  for (int i = 0; i < 2; ++i) clusters.push_back(Found(6 + i, {"a", "b"}));
  const Undiscovered answer = EstimateUndiscovered(clusters, Testers(2, 10), kTenRows);
  EXPECT_EQ(answer.estimator, EstimatorUsed::kChapman);
  EXPECT_EQ(answer.found, 7);
  EXPECT_NEAR(answer.left, 2, 1e-12);
  EXPECT_NEAR(answer.left_se, 2.23606797749979, 1e-12);
  EXPECT_TRUE(answer.weak);
  EXPECT_NE(answer.caution, "");
}

TEST(Undiscovered, IsOnlyStatedForRowsThatTwoTestersWorked) {
  std::vector<TesterWork> work = Testers(2, 6);
  work[1].last_row = 4;
  const std::vector<ErrataCluster> clusters = {Found(2, {"a"}), Found(4, {"b"}), Found(5, {"a"})};
  const Undiscovered answer = EstimateUndiscovered(clusters, work, kTenRows);
  EXPECT_EQ(answer.rows, 4);
  EXPECT_EQ(answer.found, 2);  // the one in row 5 lies where only one has worked
  work[1].last_row = 0;
  EXPECT_EQ(EstimateUndiscovered(clusters, work, kTenRows).estimator, EstimatorUsed::kNone);
  EXPECT_NE(EstimateUndiscovered(clusters, work, kTenRows).not_stated, "");
  EXPECT_NE(EstimateUndiscovered({}, Testers(3, 6), kTenRows).not_stated, "");
}

TEST(Undiscovered, CountsTestersOfOtherSizesByTheChartRow) {
  std::vector<TesterWork> work = Testers(2, 4);
  work[1].size = 1;  // rows 1 2 2 3: four worked rows are three chart rows
  const ChartRows rows = {{1, 2, 3, 4}, {1, 2, 2, 3, 4}};
  EXPECT_EQ(EstimateUndiscovered({}, work, rows).rows, 3);
}

TEST(Undiscovered, LeavesOutWhatOthersThanTheTestersFound) {
  const std::vector<ErrataCluster> clusters = {Found(1, {"buyer"}), Found(2, {"a", "buyer"}),
                                               Found(3, {})};
  const Undiscovered answer = EstimateUndiscovered(clusters, Testers(4, 10), kTenRows);
  EXPECT_EQ(answer.found, 1);
  EXPECT_EQ(answer.found_once, 1);
}

TEST(Undiscovered, GivesNoIntervalWhereTheEstimateIsNone) {
  const std::vector<ErrataCluster> clusters = {Found(1, {"a", "b"}), Found(2, {"b", "c"})};
  const Undiscovered answer = EstimateUndiscovered(clusters, Testers(5, 10), kTenRows);
  EXPECT_EQ(answer.estimator, EstimatorUsed::kChao);
  EXPECT_EQ(answer.left, 0);
  EXPECT_FALSE(answer.left_interval.has_value());
  EXPECT_NE(answer.caution, "");
}

// Faults that each tester finds with one and the same chance: there the lower bound is the truth,
// on average over calls within four standard errors and a small bias.
TEST(Undiscovered, ComesNearTheTruthInSimulatedCalls) {
  std::mt19937_64 random(23);
  double left = 0;
  double truly_left = 0;
  constexpr int kCalls = 400;
  for (int call = 0; call < kCalls; ++call) {
    std::vector<ErrataCluster> clusters;
    for (int fault = 0; fault < 30; ++fault) {
      std::vector<std::string> by;
      for (char tester = 'a'; tester < 'a' + 6; ++tester) {
        if (std::generate_canonical<double, 53>(random) < 0.3) by.emplace_back(1, tester);
      }
      truly_left += by.empty() ? 1 : 0;
      clusters.push_back(Found(1 + fault % 10, by));
    }
    left += EstimateUndiscovered(clusters, Testers(6, 10), kTenRows).left;
  }
  EXPECT_NEAR(truly_left / kCalls, 30 * std::pow(0.7, 6), 0.4);
  EXPECT_NEAR(left / kCalls, truly_left / kCalls, 0.6);
}

}  // namespace
}  // namespace rowproof::faults
