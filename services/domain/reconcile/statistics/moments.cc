#include "services/domain/reconcile/statistics/moments.h"

#include <algorithm>
#include <cmath>

#include "services/domain/check.h"

namespace rowproof::reconcile {

double Sum(std::span<const double> values) {
  double sum = 0;
  double lost = 0;
  for (const double value : values) {
    const double next = sum + value;
    // What the addition rounded away comes from the smaller of the two.
    if (std::abs(sum) >= std::abs(value)) {
      lost += (sum - next) + value;
    } else {
      lost += (value - next) + sum;
    }
    sum = next;
  }
  return sum + lost;
}

Moments MomentsOf(std::span<const double> values) {
  Moments moments;
  moments.count = static_cast<int>(values.size());
  if (values.empty()) return moments;
  const double count = static_cast<double>(values.size());
  // Differences of close numbers are exact, so the common part is subtracted before any sum.
  const double shift = values[0];
  std::vector<double> work(values.size());
  std::transform(values.begin(), values.end(), work.begin(),
                 [shift](double value) { return value - shift; });
  const double mean = Sum(work) / count;
  moments.mean = shift + mean;
  for (double& value : work) value -= mean;
  const double rest = Sum(work);
  for (double& value : work) value *= value;
  moments.squares = std::max(0.0, Sum(work) - rest * rest / count);
  if (values.size() >= 2) moments.variance = moments.squares / (count - 1);
  moments.sd = std::sqrt(moments.variance);
  return moments;
}

double Median(std::vector<double> values) {
  ROWPROOF_CHECK(!values.empty());
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  const double below = *std::max_element(values.begin(), middle);
  return below + (*middle - below) / 2;
}

double MedianDistance(std::span<const double> values, double centre) {
  std::vector<double> distances;
  distances.reserve(values.size());
  for (const double value : values) distances.push_back(std::abs(value - centre));
  return Median(std::move(distances));
}

double OrderQuantile(std::vector<double> values, double p) {
  ROWPROOF_CHECK(!values.empty());
  ROWPROOF_CHECK(p > 0 && p <= 1);
  // A tenth of ten is one, although 0.1 * 10 may come out a hair above.
  const double position = std::ceil(p * static_cast<double>(values.size()) * (1 - 1e-12));
  const auto at =
      values.begin() + std::max<std::ptrdiff_t>(0, static_cast<std::ptrdiff_t>(position) - 1);
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

}  // namespace rowproof::reconcile
