// Mean, standard deviation, median and order statistics of plain numbers. Pure; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_MOMENTS_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_MOMENTS_H_

#include <span>
#include <vector>

namespace rowproof::reconcile {

struct Moments {
  int count = 0;
  double mean = 0;      // 0 if there is no value
  double variance = 0;  // divisor count - 1; 0 below two values
  double sd = 0;
  // Sum of squared deviations from the mean.
  double squares = 0;
};

// Corrected two-pass algorithm on values shifted by the first, with compensated sums (Chan, Golub
// and LeVeque 1983; Neumaier 1974). The values must be finite.
Moments MomentsOf(std::span<const double> values);

// Compensated sum (Neumaier 1974).
double Sum(std::span<const double> values);

// Middle value, or the mean of the two middle ones. At least one value.
double Median(std::vector<double> values);

// Median of the distances from `centre`, not scaled. At least one value.
double MedianDistance(std::span<const double> values, double centre);

// The ceil(p * n)-th smallest value: the inverse of the empirical distribution function (Hyndman
// and Fan 1996, type 1). At least one value, 0 < p <= 1.
double OrderQuantile(std::vector<double> values, double p);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_MOMENTS_H_
