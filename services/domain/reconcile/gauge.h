// How the testers' gauges compare with the design gauge, and how much of their variation is between
// makers. Pure; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_GAUGE_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_GAUGE_H_

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/reconcile/statistics/classical.h"

namespace rowproof::reconcile {

// Stitches or rows per 100 mm that a gauge may be.
inline bool IsGauge(double per_100mm) { return per_100mm > 1 && per_100mm <= 1000; }

struct MeanInterval {
  int count = 0;
  double mean = 0;
  double sd = 0;                     // 0 below two values
  double t = 0;                      // quantile used; 0 below two values
  std::optional<Interval> interval;  // mean -+ t * sd / sqrt(count); none below two values
};

// Of the interval for the mean offset.
inline constexpr double kGaugeConfidence = 0.95;

// Student's t interval for a mean (NIST e-Handbook 1.3.5.2). Finite values; 0 < confidence < 1.
MeanInterval StudentInterval(std::span<const double> values, double confidence = kGaugeConfidence);

// One-way analysis of variance with random groups; unbalanced groups allowed.
struct OneWayAnova {
  int groups = 0;
  int values = 0;
  int df_between = 0;
  int df_within = 0;
  double grand_mean = 0;  // of all values
  double ss_between = 0;
  double ss_within = 0;
  double ms_between = 0;
  double ms_within = 0;
  std::optional<double> f;  // none if ms_within is 0
  std::optional<double> p;  // upper tail of F
  double r_squared = 0;     // ss_between / total; 0 if all values are equal
  double residual_sd = 0;
  double effective_size = 0;  // (N - sum n_i^2 / N) / (groups - 1)
  double within_variance = 0;
  // (ms_between - ms_within) / effective_size: as it comes out, and not below 0.
  double raw_between_variance = 0;
  double between_variance = 0;
};

// None if there are fewer than two groups with values, or no group with two values: then the two
// components cannot be separated. Empty groups are ignored. Sums are taken on values shifted by the
// first, so that a large common part loses no digits.
std::optional<OneWayAnova> AnalyseOneWay(std::span<const std::vector<double>> groups);

// One reading of stitches (or of rows) in 100 mm.
struct GaugeReading {
  std::string tester;  // opaque key; readings of one key are of one maker
  double per_100mm = 0;
};

struct GaugeAgreement {
  double design_per_100mm = 0;
  int testers = 0;
  int readings = 0;
  // Each tester's mean reading minus the design gauge, in stitches (rows) per 100 mm.
  MeanInterval offset;
  // The same in relation to the design gauge (0.05: five in a hundred more).
  double relative_offset = 0;
  std::optional<OneWayAnova> components;
};

// INVALID_ARGUMENT (design_per_100mm, readings[i].per_100mm) for a gauge that is not finite or
// outside (1, 1000], or too many readings.
absl::StatusOr<GaugeAgreement> CompareGauge(double design_per_100mm,
                                            std::span<const GaugeReading> readings,
                                            double confidence = kGaugeConfidence);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_GAUGE_H_
