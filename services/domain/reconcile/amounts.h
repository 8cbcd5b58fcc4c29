// Which amount of yarn to print. Pure; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_AMOUNTS_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_AMOUNTS_H_

#include <cstdint>
#include <functional>
#include <optional>
#include <span>

#include "absl/status/statusor.h"
#include "services/domain/reconcile/statistics/agreement.h"

namespace rowproof::reconcile {

// A length of yarn as it is printed: the exact one, and rounded up to whole steps of 5 m and 5 yd.
struct PrintedLength {
  double length_m = 0;
  int64_t rounded_m = 0;
  int64_t rounded_yd = 0;
};

// `length_m` finite, from 0 to 1e12 (CHECK). 1 yd = 0.9144 m.
PrintedLength RoundUp(double length_m);

// The strict choice: a one-sided upper normal tolerance limit on the log ratios, as if all makers'
// y had one variance.
struct StrictAmount {
  double factor_k = 0;
  PrintedLength amount;
  // False if the measuring uncertainties differ so much that the limit does not hold (the
  // largest total variance over kMostVarianceRatio times the smallest).
  bool variances_alike = true;
};
inline constexpr double kMostVarianceRatio = 2.0;  // assumption

struct AmountSettings {
  // Share of new makers at the design gauge for whom the amount suffices. 0.5 to 0.999.
  double assurance = 0.95;
  // Confidence of the strict choice. 0.5 to 0.999.
  double strict_confidence = 0.95;
  // Share of the testers that counts as loose. 0.01 to 0.5.
  double loose_share = 0.1;
};

struct Amounts {
  double design_gauge = 0;  // stitches in 100 mm
  double predicted_m = 0;   // at the design gauge, before any correction
  double factor = 1;        // what the predictive distribution multiplies it by
  PrintedLength suffices;   // predicted_m * factor
  // Additional metres for each stitch per 100 mm below the design gauge, including the factor.
  // Below 0 if a looser maker needs less.
  double more_per_looser_stitch_m = 0;
  // Gauge and amount of a maker as loose as the loosest tenth of the testers (the ceil(n / 10)-th
  // loosest); none without testers' gauges.
  std::optional<double> loose_gauge;
  std::optional<PrintedLength> loose;
  std::optional<StrictAmount> strict;  // from two used reports on
};

// Length in metres predicted for one colour at a stitch gauge (stitches in 100 mm), the rest of the
// design and the rows per stitch as the designer gave them.
using PredictedAtGauge = std::function<double(double stitches_per_decimetre)>;

// `tester_gauges` in stitches per 100 mm, one for each tester. INVALID_ARGUMENT for a gauge outside
// (1, 1000], settings out of range, or a prediction that is not finite or below 0.
absl::StatusOr<Amounts> AmountsToPrint(const Agreement& agreement, double design_gauge,
                                       const PredictedAtGauge& predicted,
                                       std::span<const double> tester_gauges,
                                       const AmountSettings& settings = {});

// Factor k of the one-sided normal tolerance limit mean + k * sd that covers the share `coverage`
// with `confidence`: the noncentral t quantile t'(confidence; n - 1, z_coverage * sqrt(n)) /
// sqrt(n) (NIST/SEMATECH e-Handbook 7.2.6.3). n from 2 to 1,000,000; 0 < coverage, confidence < 1.
double ToleranceFactor(int n, double coverage, double confidence);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_AMOUNTS_H_
