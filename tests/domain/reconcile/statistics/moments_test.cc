#include "services/domain/reconcile/statistics/moments.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/domain/reconcile/statistics/check_values.h"

namespace rowproof::reconcile {
namespace {

// NIST Statistical Reference Datasets, univariate summary statistics; the exact values are rational
// arithmetic on the published data, and `ceiling` is how many digits survive their rounding to
// binary64. A correct double result loses at most half a digit on top of 15.
void ExpectCertified(const std::string& name, const std::vector<double>& values) {
  const nlohmann::json checks = LoadChecks("nist_univariate_" + name);
  ASSERT_EQ(values.size(), checks["n"].get<size_t>());
  const nlohmann::json& ceiling = checks["verified"]["ceiling_if_inputs_rounded_to_binary64"];
  const Moments moments = MomentsOf(values);
  EXPECT_GE(RightDigits(moments.mean, checks["exact_recomputation"]["mean"]),
            std::min(15.0, ceiling["mean"].get<double>()) - 0.1)
      << name;
  EXPECT_GE(RightDigits(moments.sd, checks["exact_recomputation"]["sd"]),
            std::min(15.0, ceiling["sd"].get<double>()) - 0.1)
      << name;
  // The certified values themselves, to the fewer of those digits and the printed ones.
  EXPECT_GE(RightDigits(moments.sd, checks["certified"]["sd"]),
            std::min(14.5, ceiling["sd"].get<double>()) - 0.1)
      << name;
}

std::vector<double> Alternating(double first, double low, double high) {
  std::vector<double> values = {first};
  for (int i = 0; i < 500; ++i) values.insert(values.end(), {low, high});
  return values;
}

// Rabinowitz and Wagon's spigot, four digits a round.
std::vector<double> DigitsOfPi(size_t count) {
  constexpr int kBase = 10000;
  const size_t length = (count + 8) * 14 / 4;
  std::vector<int64_t> rest(length + 1, kBase / 5);
  std::vector<double> digits;
  int64_t carry = 0;
  for (size_t left = length; left >= 14 && digits.size() < count; left -= 14) {
    int64_t sum = 0;
    for (size_t i = left; i > 0; --i) {
      sum = sum * static_cast<int64_t>(i) + kBase * rest[i];
      const auto divisor = static_cast<int64_t>(2 * i - 1);
      rest[i] = sum % divisor;
      sum /= divisor;
    }
    int64_t four = carry + sum / kBase;
    carry = sum % kBase;
    for (int64_t place = 1000; place > 0; place /= 10) {
      digits.push_back(static_cast<double>(four / place % 10));
    }
  }
  digits.resize(count);
  return digits;
}

TEST(Moments, ReproduceNistSetsGivenInFull) {
  for (const std::string name : {"lew", "lottery", "michelso", "numacc1"}) {
    ExpectCertified(name, LoadChecks("nist_univariate_" + name)["values"]);
  }
}

TEST(Moments, ReproduceNistSetsGivenByARule) {
  ExpectCertified("numacc2", Alternating(1.2, 1.1, 1.3));
  ExpectCertified("numacc4", Alternating(10000000.2, 10000000.1, 10000000.3));
  std::vector<double> digits = DigitsOfPi(5000);
  ASSERT_EQ(digits[956], 8);
  digits[956] = 3;  // so it stands in the published file
  ExpectCertified("pidigits", digits);
}

TEST(Moments, OfNothingAndOfOneValueHaveNoSpread) {
  EXPECT_EQ(MomentsOf({}).count, 0);
  const std::vector<double> one = {4.5};
  EXPECT_EQ(MomentsOf(one).mean, 4.5);
  EXPECT_EQ(MomentsOf(one).sd, 0);
}

TEST(Moments, SumKeepsWhatIsFarSmallerThanItsFellows) {
  EXPECT_EQ(Sum(std::vector<double>{1, 1e100, 1, -1e100}), 2);
}

TEST(Moments, MedianTakesTheMiddleOrTheMeanOfTheMiddleTwo) {
  EXPECT_EQ(Median({5, 1, 3}), 3);
  EXPECT_EQ(Median({5, 1, 3, 4}), 3.5);
  EXPECT_EQ(MedianDistance(std::vector<double>{1, 3, 4, 5}, 3.5), 1);
}

TEST(Moments, OrderQuantileIsTheInverseOfTheEmpiricalDistribution) {
  const std::vector<double> ten = {10, 9, 8, 7, 6, 5, 4, 3, 2, 1};
  EXPECT_EQ(OrderQuantile(ten, 0.1), 1);
  EXPECT_EQ(OrderQuantile(ten, 0.11), 2);
  EXPECT_EQ(OrderQuantile(ten, 1), 10);
  EXPECT_EQ(OrderQuantile({7, 9}, 0.1), 7);
  std::vector<double> thirty;
  for (int i = 1; i <= 30; ++i) thirty.push_back(i);
  EXPECT_EQ(OrderQuantile(thirty, 0.1), 3);
}

}  // namespace
}  // namespace rowproof::reconcile
