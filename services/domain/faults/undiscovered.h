// How many errata nobody has found yet, from who found which. Pure; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_FAULTS_UNDISCOVERED_H_
#define ROWPROOF_SERVICES_DOMAIN_FAULTS_UNDISCOVERED_H_

#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "services/domain/faults/clusters.h"
#include "services/domain/faults/coverage.h"
#include "services/domain/reconcile/statistics/classical.h"
#include "services/domain/stop.h"

namespace rowproof::faults {

inline constexpr int kFewestTesters = 2;
inline constexpr int kWeakBelowTesters = 4;
// Probability of the interval for what is left.
inline constexpr double kLeftCoverage = 0.95;

enum class EstimatorUsed : uint8_t { kNone, kChapman, kChao };

struct Undiscovered {
  EstimatorUsed estimator = EstimatorUsed::kNone;
  std::string not_stated;  // one sentence why there is no estimate, else empty
  int testers = 0;
  int rows = 0;        // chart rows that two testers or more worked, in any size: its subject
  int found = 0;       // clusters found at least once there (or naming no row)
  int found_once = 0;  // by exactly one tester
  int found_twice = 0;
  double left = 0;  // estimated number that nobody found; a lower bound by its theory (Chao)
  double left_se = 0;
  // Log-normal interval for `left`; none if `left` is 0, because the method then gives no width.
  std::optional<reconcile::Interval> left_interval;
  bool weak = false;    // fewer than kWeakBelowTesters testers
  std::string caution;  // one sentence if weak or without interval, else empty
};

// Why there is no estimate.
enum class NoEstimate : uint8_t { kThereIsOne, kTooFewTesters, kNoSharedRow, kNothingFound };
NoEstimate ReasonOf(const Undiscovered& undiscovered);

// Counts only reports made before the tester could see the erratum (ErrataCluster::found_by) by the
// testers of `work`, in rows that at least two testers worked in any version. Two testers: Chapman.
// More: bias-corrected Chao for incidences, factor (m - 1) / m. Not from all rows if the work has
// to stop, which the caller asks.
Undiscovered EstimateUndiscovered(std::span<const ErrataCluster> clusters,
                                  std::span<const TesterWork> work, const ChartRows& chart_rows,
                                  double confidence = kLeftCoverage, const Stop& stop = {});

struct TotalEstimate {
  double total = 0;
  double se = 0;
};

// Bias-corrected Chao estimator: found + factor * f1 (f1 - 1) / (2 (f2 + 1)), f1 and f2 the numbers
// found exactly once and twice (Chao 1987; Chao and Chiu 2016). The standard error is the delta
// method's with multinomial frequencies. factor is (m - 1) / m for m testers, 1 for the plain form.
TotalEstimate Chao(int found, int f1, int f2, double factor);

// Chapman's estimator for two: `first` and `second` found by each, `both` by both (Seber 1982).
TotalEstimate Chapman(int first, int second, int both);

// Log-normal interval for the total (Chao 1987): found + d / K to found + d * K, where d is total -
// found > 0 and K = exp(z sqrt(ln(1 + se^2 / d^2))).
reconcile::Interval LogNormalInterval(int found, const TotalEstimate& estimate, double confidence);

}  // namespace rowproof::faults

#endif  // ROWPROOF_SERVICES_DOMAIN_FAULTS_UNDISCOVERED_H_
