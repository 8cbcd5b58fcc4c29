#include <gtest/gtest.h>

#include <cmath>

#include "services/domain/reconcile/amounts.h"
#include "services/domain/reconcile/statistics/moments.h"
#include "tests/domain/reconcile/statistics/check_values.h"

namespace rowproof::reconcile {
namespace {

// NIST/SEMATECH e-Handbook 7.2.6.3.
TEST(ToleranceFactor, ReproducesTheHandbooksNoncentralT) {
  const nlohmann::json checks = LoadChecks("tol_nist_7263");
  const nlohmann::json& printed = checks["published"];
  const double k43 = ToleranceFactor(43, 0.9, 0.99);
  EXPECT_AS_PRINTED(k43, printed["k1_noncentral_t"].get<std::string>());
  EXPECT_NEAR(k43, checks["recomputed"]["k1_noncentral_t_by_quadrature"], 1e-9);
  const double k6 = ToleranceFactor(6, 0.9, 0.99);
  EXPECT_AS_PRINTED(k6, printed["N6_k1_noncentral_t"].get<std::string>());
  EXPECT_NEAR(k6, checks["recomputed"]["N6_k1_noncentral_t"], 1e-9);
  const Moments moments = MomentsOf(checks["values"].get<std::vector<double>>());
  EXPECT_AS_PRINTED(moments.mean, printed["mean"].get<std::string>());
  EXPECT_AS_PRINTED(moments.sd, printed["s"].get<std::string>());
}

// Montgomery and Runger, table XII; columns n, coverage, confidence, printed, SciPy's.
TEST(ToleranceFactor, ReproducesAPrintedTable) {
  for (const std::vector<std::string>& row : LoadRows("tol_onesided_k_montgomery_table_xii")) {
    const double k = ToleranceFactor(std::stoi(row[0]), std::stod(row[1]), std::stod(row[2]));
    EXPECT_NEAR(k, std::stod(row[4]), 2e-8 * k) << row[0] << ' ' << row[1] << ' ' << row[2];
    EXPECT_AS_PRINTED(k, row[3]) << row[0] << ' ' << row[1] << ' ' << row[2];
  }
}

// CMH-17-1G; the handbook's kB are an approximation, up to 0.0017 too high (see the file), its kA
// are the exact factors rounded.
TEST(ToleranceFactor, ReproducesTheBasisValuesOfAHandbook) {
  for (const std::vector<std::string>& row : LoadRows("tol_onesided_k_cmh17")) {
    const double k = ToleranceFactor(std::stoi(row[1]), std::stod(row[2]), std::stod(row[3]));
    EXPECT_NEAR(k, std::stod(row[5]), 2e-8 * k) << row[0] << ' ' << row[1];
    if (row[0] == "kA") {
      EXPECT_AS_PRINTED(k, row[4]) << row[1];
    } else {
      EXPECT_NEAR(k, std::stod(row[4]), 0.002) << row[1];
    }
  }
}

// USEPA 2009, example 17-3: an upper limit on logarithms, as the strict amount is one.
TEST(ToleranceFactor, ReproducesAWorkedUpperLimitOnLogarithms) {
  const nlohmann::json examples = LoadChecks("tol_worked_examples")["examples"];
  int met = 0;
  for (const nlohmann::json& example : examples) {
    const nlohmann::json& printed = example["published"];
    if (printed.contains("UTL")) {
      ++met;
      std::vector<double> logs;
      for (const double value : example["values"]) logs.push_back(std::log(value));
      const Moments moments = MomentsOf(logs);
      const double k = ToleranceFactor(moments.count, 0.95, 0.95);
      EXPECT_AS_PRINTED(moments.mean, printed["meanlog"].get<std::string>());
      EXPECT_AS_PRINTED(moments.sd, printed["sdlog"].get<std::string>());
      EXPECT_AS_PRINTED(k, printed["K"].get<std::string>());
      EXPECT_AS_PRINTED(std::exp(moments.mean + k * moments.sd), printed["UTL"].get<std::string>());
    } else if (printed.contains("k")) {  // EnvStats: n 20, coverage 0.99, confidence 0.90
      ++met;
      EXPECT_AS_PRINTED(ToleranceFactor(20, 0.99, 0.90), printed["k"].get<std::string>());
    }
  }
  EXPECT_EQ(met, 2);
}

TEST(ToleranceFactor, AgreesWithSciPyFarBeyondTheTables) {
  const std::vector<double> scipy = AskSciPy(
      "for n in (150, 400, 1000):\n"
      "  z = stats.norm.ppf(0.95) * n ** 0.5\n"
      "  print(repr(float(stats.nct.ppf(0.95, n - 1, z) / n ** 0.5)))");
  ASSERT_EQ(scipy.size(), 3u);
  EXPECT_NEAR(ToleranceFactor(150, 0.95, 0.95), scipy[0], 1e-7);
  EXPECT_NEAR(ToleranceFactor(400, 0.95, 0.95), scipy[1], 1e-7);
  EXPECT_NEAR(ToleranceFactor(1000, 0.95, 0.95), scipy[2], 1e-7);
  // For many makers: z_p + z_confidence sqrt((1 + z_p^2 / 2) / n), the asymptotic normal form.
  EXPECT_NEAR(ToleranceFactor(100000, 0.95, 0.95), 1.6449 + 1.6449 * std::sqrt(2.353 / 100000),
              2e-4);
}

}  // namespace
}  // namespace rowproof::reconcile
