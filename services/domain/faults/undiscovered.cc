#include "services/domain/faults/undiscovered.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "services/domain/check.h"
#include "services/domain/reconcile/statistics/distributions.h"

namespace rowproof::faults {
namespace {

// Who worked what, in any version.
struct Workers {
  std::set<std::string> testers;
  std::set<int> shared_rows;  // chart rows that at least two of them worked
};

Workers FindWorkers(std::span<const TesterWork> work, const ChartRows& chart_rows,
                    const Stop& stop) {
  Workers workers;
  std::map<int, std::set<std::string>> by_row;
  for (const TesterWork& tester : work) {
    if (tester.size < 0 || static_cast<size_t>(tester.size) >= chart_rows.size()) continue;
    if (!tester.from_chart && !tester.from_text) continue;
    const std::vector<int>& of_size = chart_rows[static_cast<size_t>(tester.size)];
    const auto last = std::min(static_cast<size_t>(std::max(0, tester.last_row)), of_size.size());
    if (last > 0) workers.testers.insert(tester.tester);
    for (size_t i = 0; i < last; ++i) {
      if (stop.After(20)) return workers;
      by_row[of_size[i]].insert(tester.tester);
    }
  }
  for (const auto& [row, testers] : by_row) {
    if (testers.size() >= static_cast<size_t>(kFewestTesters)) workers.shared_rows.insert(row);
  }
  return workers;
}

// How many found each cluster that the estimate is about.
struct Finds {
  int found = 0;
  int once = 0;
  int twice = 0;
  std::map<std::string, int> by_tester;
};

Finds CountFinds(std::span<const ErrataCluster> clusters, const Workers& workers) {
  Finds finds;
  for (const ErrataCluster& cluster : clusters) {
    const auto shared = workers.shared_rows.lower_bound(cluster.row);
    const bool in_shared =
        cluster.row == 0 || (shared != workers.shared_rows.end() && *shared <= cluster.last_row);
    if (!in_shared) continue;
    int finders = 0;
    for (const std::string& tester : cluster.found_by) {
      if (workers.testers.count(tester) == 0) continue;
      ++finders;
      ++finds.by_tester[tester];
    }
    finds.found += finders >= 1 ? 1 : 0;
    finds.once += finders == 1 ? 1 : 0;
    finds.twice += finders == 2 ? 1 : 0;
  }
  return finds;
}

TotalEstimate EstimateTotal(const Finds& finds, const Workers& workers) {
  const auto testers = static_cast<double>(workers.testers.size());
  if (workers.testers.size() == 2) {
    const auto found_by = [&](const std::string& tester) {
      const auto found = finds.by_tester.find(tester);
      return found == finds.by_tester.end() ? 0 : found->second;
    };
    return Chapman(found_by(*workers.testers.begin()), found_by(*workers.testers.rbegin()),
                   finds.twice);
  }
  return Chao(finds.found, finds.once, finds.twice, (testers - 1) / testers);
}

}  // namespace

TotalEstimate Chao(int found, int f1, int f2, double factor) {
  ROWPROOF_CHECK(f1 >= 0 && f2 >= 0 && f1 + f2 <= found);
  ROWPROOF_CHECK(factor > 0 && factor <= 1);
  const double once = f1;
  const double twice = f2;
  TotalEstimate estimate;
  estimate.total = found + factor * once * (once - 1) / (2 * (twice + 1));
  // Derivatives of the total by f1 and f2; by every other frequency it is 1.
  const double by_once = 1 + factor * (2 * once - 1) / (2 * (twice + 1));
  const double by_twice = 1 - factor * once * (once - 1) / (2 * (twice + 1) * (twice + 1));
  const double others = found - once - twice;
  const double squares = once * by_once * by_once + twice * by_twice * by_twice + others;
  const double sum = once * by_once + twice * by_twice + others;
  const double variance = estimate.total > 0 ? squares - sum * sum / estimate.total : 0;
  estimate.se = std::sqrt(std::max(0.0, variance));
  return estimate;
}

TotalEstimate Chapman(int first, int second, int both) {
  ROWPROOF_CHECK(both >= 0 && both <= first && both <= second);
  const double a = first;
  const double b = second;
  const double c = both;
  const double product = (a + 1) * (b + 1);
  return {product / (c + 1) - 1,
          std::sqrt(product * (a - c) * (b - c) / ((c + 1) * (c + 1) * (c + 2)))};
}

reconcile::Interval LogNormalInterval(int found, const TotalEstimate& estimate, double confidence) {
  const double left = estimate.total - found;
  ROWPROOF_CHECK(left > 0 && confidence > 0 && confidence < 1);
  const double relative = estimate.se / left;
  const double spread = std::exp(reconcile::NormalQuantile(0.5 + confidence / 2) *
                                 std::sqrt(std::log1p(relative * relative)));
  return {found + left / spread, found + left * spread};
}

NoEstimate ReasonOf(const Undiscovered& undiscovered) {
  if (undiscovered.estimator != EstimatorUsed::kNone) return NoEstimate::kThereIsOne;
  if (undiscovered.testers < kFewestTesters) return NoEstimate::kTooFewTesters;
  return undiscovered.rows == 0 ? NoEstimate::kNoSharedRow : NoEstimate::kNothingFound;
}

Undiscovered EstimateUndiscovered(std::span<const ErrataCluster> clusters,
                                  std::span<const TesterWork> work, const ChartRows& chart_rows,
                                  double confidence, const Stop& stop) {
  const Workers workers = FindWorkers(work, chart_rows, stop);
  const Finds finds = CountFinds(clusters, workers);
  Undiscovered answer;
  answer.testers = static_cast<int>(workers.testers.size());
  answer.rows = static_cast<int>(workers.shared_rows.size());
  answer.found = finds.found;
  answer.found_once = finds.once;
  answer.found_twice = finds.twice;
  if (answer.testers < kFewestTesters) {
    answer.not_stated = "Fewer than two testers have worked any row yet.";
  } else if (answer.rows == 0) {
    answer.not_stated = "No row has been worked by two testers yet.";
  } else if (finds.found == 0) {
    answer.not_stated = "No erratum was found independently, so there is nothing to estimate from.";
  }
  if (!answer.not_stated.empty()) return answer;
  answer.estimator = answer.testers == 2 ? EstimatorUsed::kChapman : EstimatorUsed::kChao;
  const TotalEstimate total = EstimateTotal(finds, workers);
  answer.left = std::max(0.0, total.total - finds.found);
  answer.left_se = total.se;
  if (answer.left > 1e-9) {
    const reconcile::Interval whole = LogNormalInterval(finds.found, total, confidence);
    answer.left_interval = reconcile::Interval{whole.low - finds.found, whole.high - finds.found};
  } else {
    answer.left = 0;
    answer.caution =
        "The estimate is that none is left; from so few finds it has no margin of error.";
  }
  answer.weak = answer.testers < kWeakBelowTesters;
  if (answer.weak) {
    if (!answer.caution.empty()) answer.caution += ' ';
    answer.caution += "With fewer than four testers the estimate is weak.";
  }
  return answer;
}

}  // namespace rowproof::faults
