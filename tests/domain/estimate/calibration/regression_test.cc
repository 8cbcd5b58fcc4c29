#include "services/domain/estimate/calibration/regression.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <random>

#include "fmt/format.h"
#include "tests/domain/reconcile/statistics/check_values.h"

namespace rowproof::estimate {
namespace {

using reconcile::LoadChecks;
using reconcile::RightDigits;

// NIST Statistical Reference Datasets (StRD), Linear Regression; the source is in each file. Their
// columns are y, then x or x1 to x6.
struct Dataset {
  std::vector<RegressionRow> rows;
  nlohmann::json checks;
};

Dataset Load(const std::string& name, bool intercept, int degree) {
  Dataset data;
  data.checks = LoadChecks("nist_lls_" + name);
  for (const auto& line : data.checks["rows"]) {
    RegressionRow row;
    row.observed = line[0].get<double>();
    if (intercept) row.factors.push_back(1);
    for (size_t x = 1; x < line.size(); ++x) {
      double power = 1;
      for (int n = 0; n < degree; ++n) {
        power *= line[x].get<double>();
        row.factors.push_back(power);
      }
    }
    data.rows.push_back(row);
  }
  return data;
}

struct LeastSquaresFit : LinearFit {
  double residual_sd = 0;
};

// The regression with flat priors is least squares: its covariance is (X'X)^-1, which the variance
// of the residuals, about the fitted line, scales to that of the coefficients.
LeastSquaresFit LeastSquares(const std::vector<RegressionRow>& rows) {
  const std::vector<NormalPrior> flat(rows.front().factors.size());
  LeastSquaresFit fit;
  static_cast<LinearFit&>(fit) = BayesianRegression(rows, flat).value();
  long double squares = 0;
  for (const RegressionRow& row : rows) {
    long double residual = row.observed;
    for (size_t i = 0; i < flat.size(); ++i) {
      residual -= static_cast<long double>(row.factors[i]) * fit.coefficients[i];
    }
    squares += residual * residual;
  }
  const long double variance = squares / static_cast<long double>(rows.size() - flat.size());
  fit.residual_sd = static_cast<double>(std::sqrt(variance));
  for (double& covariance : fit.covariance) {
    covariance = static_cast<double>(covariance * variance);
  }
  return fit;
}

// Nine significant digits of every certified figure: coefficients, their standard deviations and
// the residual standard deviation. Certified values print 15 digits.
void ExpectNineDigits(const std::string& name, const Dataset& data) {
  const LeastSquaresFit fit = LeastSquares(data.rows);
  const auto& certified = data.checks["certified"];
  const auto expect = [&](double value, const nlohmann::json& printed, const std::string& what) {
    EXPECT_GE(RightDigits(value, printed.get<std::string>()), 9)
        << name << ' ' << what << fmt::format(" {:.17g}", value);
  };
  ASSERT_EQ(certified["params"].size(), fit.coefficients.size()) << name;
  for (size_t i = 0; i < fit.coefficients.size(); ++i) {
    const auto& param = certified["params"][i];
    expect(fit.coefficients[i], param["estimate"], param["name"].get<std::string>());
    if (std::stod(param["std_error"].get<std::string>()) == 0) continue;
    expect(fit.standard_error(i), param["std_error"], "deviation of B" + std::to_string(i));
  }
  if (std::stod(certified["residual_sd"].get<std::string>()) != 0) {
    expect(fit.residual_sd, certified["residual_sd"], "residual sd");
  }
}

TEST(BayesianRegression, WithFlatPriorsGivesTheCertifiedValuesOfNist) {
  ExpectNineDigits("norris", Load("norris", true, 1));
  ExpectNineDigits("pontius", Load("pontius", true, 2));
  ExpectNineDigits("longley", Load("longley", true, 1));
  ExpectNineDigits("wampler3", Load("wampler3", true, 5));
  // Lines through the origin.
  ExpectNineDigits("noint1", Load("noint1", false, 1));
  ExpectNineDigits("noint2", Load("noint2", false, 1));
}

// Wampler1 and 2 are exact polynomials: the certified residual sd and deviations are exactly 0, of
// which no digits can be right. They are held against rounding instead: Wampler1's numbers are
// whole (up to 3.4e6) and exact in a double; Wampler2's (up to 63) are decimals, each rounded by
// 2^-53 of itself on reading, so that 1e-15 of the largest value is all that the data allow.
TEST(BayesianRegression, WithFlatPriorsFitsExactPolynomialsOfNistToRounding) {
  for (const char* name : {"wampler1", "wampler2"}) {
    const Dataset data = Load(name, true, 5);
    ExpectNineDigits(name, data);
    const LeastSquaresFit fit = LeastSquares(data.rows);
    const double largest = data.rows.back().observed;
    EXPECT_LT(fit.residual_sd, 1e-15 * largest) << name;
    for (size_t i = 0; i < 6; ++i) {
      EXPECT_LT(fit.standard_error(i), 1e-9 * fit.coefficients[i]) << name << " B" << i;
    }
  }
}

// Weights alone: ISO/TS 28037-like data made up here; the reference is NumPy's normal equations
// in plain matrices (well conditioned, so that they lose nothing).
TEST(BayesianRegression, AgreesWithConjugateFormulasByNumPy) {
  std::mt19937 random(61);
  std::normal_distribution<double> normal;
  std::vector<RegressionRow> rows;
  std::string x_text;
  std::string y_text;
  std::string sd_text;
  for (int i = 0; i < 12; ++i) {
    RegressionRow row;
    row.factors = {1, normal(random), normal(random)};
    row.sd = 0.1 + 0.05 * i;
    row.observed = 2 - row.factors[1] + 0.5 * row.factors[2] + row.sd * normal(random);
    rows.push_back(row);
    x_text +=
        fmt::format("[{:.17g},{:.17g},{:.17g}],", row.factors[0], row.factors[1], row.factors[2]);
    y_text += fmt::format("{:.17g},", row.observed);
    sd_text += fmt::format("{:.17g},", row.sd);
  }
  const NormalPrior priors[] = {{1.5, 0.3}, {-0.5, 0.2}, {0, 0.1}};
  const auto posterior = BayesianRegression(rows, priors).value();
  const auto expected = reconcile::AskSciPy(
      "x = np.array([" + x_text + "])\ny = np.array([" + y_text + "])\n" +
      "w = np.diag(np.array([" + sd_text + "])**-2.0)\n" +
      "m = np.array([1.5, -0.5, 0.0])\np = np.diag(np.array([0.3, 0.2, 0.1])**-2.0)\n"
      "v = np.linalg.inv(p + x.T @ w @ x)\nb = v @ (p @ m + x.T @ w @ y)\n"
      "for n in list(b) + list(v.ravel()): print(repr(float(n)))");
  ASSERT_EQ(expected.size(), 12u);
  for (size_t i = 0; i < 3; ++i) EXPECT_NEAR(posterior.coefficients[i], expected[i], 1e-12);
  for (size_t i = 0; i < 9; ++i) EXPECT_NEAR(posterior.covariance[i], expected[3 + i], 1e-13);
}

TEST(BayesianRegression, WithoutObservationsIsThePrior) {
  const NormalPrior priors[] = {{3, 0.4}, {-2, 5}};
  const auto posterior = BayesianRegression({}, priors).value();
  EXPECT_DOUBLE_EQ(posterior.coefficients[0], 3);
  EXPECT_DOUBLE_EQ(posterior.coefficients[1], -2);
  EXPECT_DOUBLE_EQ(posterior.standard_error(0), 0.4);
  EXPECT_DOUBLE_EQ(posterior.standard_error(1), 5);
  EXPECT_EQ(posterior.covariance[1], 0);
}

// Normal mean, known variance, from memory of any textbook: precisions add.
TEST(BayesianRegression, AddsPrecisionsOfOneMean) {
  const RegressionRow rows[] = {{{1}, 10, 2}, {{1}, 14, 2}};
  const NormalPrior priors[] = {{9, 1}};
  const auto posterior = BayesianRegression(rows, priors).value();
  EXPECT_NEAR(posterior.coefficients[0], (9 + 24 / 4.0) / 1.5, 1e-14);
  EXPECT_NEAR(posterior.covariance[0], 1 / 1.5, 1e-14);
}

std::string FieldOf(const absl::Status& status) { return std::string(status.message()); }

TEST(Regression, RefusesWhatCannotBeSolved) {
  const auto refused = [](const std::vector<RegressionRow>& rows) {
    const std::vector<NormalPrior> flat(rows.empty() ? 1 : rows.front().factors.size());
    const auto fit = BayesianRegression(rows, flat);
    return fit.status().code() == absl::StatusCode::kInvalidArgument ? FieldOf(fit.status()) : "";
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_NE(refused({}), "");
  EXPECT_NE(refused({{{1, 2}, 1, 1}, {{2, 4}, 1, 1}, {{3, 6}, 1, 1}}), "");  // twice one column
  EXPECT_NE(refused({{{0}, 1, 1}, {{0}, 2, 1}}), "");
  EXPECT_NE(refused({{{1}, nan, 1}, {{1}, 2, 1}}), "");
  EXPECT_NE(refused({{{nan}, 1, 1}, {{1}, 2, 1}}), "");
  EXPECT_NE(refused({{{1}, 1, 0}, {{1}, 2, 1}}), "");
  EXPECT_NE(refused({{{1}, 1, 1}, {{1, 2}, 2, 1}}), "");
  EXPECT_EQ(refused({{{1}, 1, 1}, {{1}, 2, 1}}), "");
  const NormalPrior flat[] = {{}, {}};
  const RegressionRow one[] = {{{1, 2}, 1, 1}};
  EXPECT_FALSE(BayesianRegression(one, flat).ok());
  const NormalPrior bad[] = {{0, 0}, {0, 1}};
  EXPECT_FALSE(BayesianRegression(one, bad).ok());
}

}  // namespace
}  // namespace rowproof::estimate
