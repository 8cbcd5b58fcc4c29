#include "services/domain/reconcile/statistics/classical.h"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "services/domain/check.h"
#include "services/domain/reconcile/statistics/distributions.h"

namespace rowproof::reconcile {
namespace {

// Sums for the weights 1 / (s_i^2 + tau2).
struct Weighted {
  double w = 0;   // sum of weights
  double w2 = 0;  // of their squares
  double mu = 0;  // weighted mean
  double q = 0;   // sum w (y - mu)^2
  double q2 = 0;  // sum w^2 (y - mu)^2
  // Derivative of the restricted log likelihood by tau2.
  double Score() const { return 0.5 * (q2 - w + w2 / w); }
};

Weighted WeightBy(double tau2, std::span<const double> y, std::span<const double> s) {
  Weighted sums;
  double wy = 0;
  for (size_t i = 0; i < y.size(); ++i) {
    const double w = 1 / (s[i] * s[i] + tau2);
    sums.w += w;
    sums.w2 += w * w;
    wy += w * (y[i] - y[0]);
  }
  sums.mu = y[0] + wy / sums.w;
  for (size_t i = 0; i < y.size(); ++i) {
    const double w = 1 / (s[i] * s[i] + tau2);
    const double distance = w * (y[i] - sums.mu) * (y[i] - sums.mu);
    sums.q += distance;
    sums.q2 += w * distance;
  }
  return sums;
}

double RestrictedLogLikelihood(double tau2, std::span<const double> y, std::span<const double> s) {
  const Weighted sums = WeightBy(tau2, y, s);
  double log_w = 0;
  for (const double one : s) log_w -= std::log(one * one + tau2);
  return 0.5 * (log_w - std::log(sums.w) - sums.q);
}

// The score's zero between a point where it is above 0 and one where it is not.
double SolveScore(double low, double high, std::span<const double> y, std::span<const double> s) {
  const auto score = [&](double tau2) { return WeightBy(tau2, y, s).Score(); };
  const auto settled = [](double a, double b) { return b - a <= 1e-15 * b; };
  std::uintmax_t most_steps = 200;
  const auto root = boost::math::tools::toms748_solve(score, low, high, score(low), score(high),
                                                      settled, most_steps);
  return root.first + (root.second - root.first) / 2;
}

// The restricted likelihood may have several maxima: each one found on a geometric grid is solved
// for, and the highest is taken, 0 among them.
double RestrictedMaximum(std::span<const double> y, std::span<const double> s) {
  const auto [least_y, most_y] = std::minmax_element(y.begin(), y.end());
  // As w <= 1 / tau2, the score is at most (range^2 / tau2 - 2) / 2 times a sum that is not below
  // 0: it has no zero above half the range squared.
  const double top = 0.5 * (*most_y - *least_y) * (*most_y - *least_y);
  if (top <= 0) return 0;
  const double least_s = *std::min_element(s.begin(), s.end());
  double best = 0;
  double best_likelihood = RestrictedLogLikelihood(0, y, s);
  double last_score = WeightBy(0, y, s).Score();
  double last_tau2 = 0;
  for (double tau2 = std::min(1e-2 * least_s * least_s, top);; tau2 = std::min(3 * tau2, top)) {
    const double score = WeightBy(tau2, y, s).Score();
    if (last_score > 0 && score <= 0) {
      const double root = SolveScore(last_tau2, tau2, y, s);
      const double likelihood = RestrictedLogLikelihood(root, y, s);
      if (likelihood > best_likelihood) {
        best = root;
        best_likelihood = likelihood;
      }
    }
    if (tau2 >= top) break;
    last_score = score;
    last_tau2 = tau2;
  }
  return best;
}

}  // namespace

Classical Pool(std::span<const double> y, std::span<const double> s, double confidence) {
  ROWPROOF_CHECK(y.size() == s.size() && y.size() >= 2);
  ROWPROOF_CHECK(confidence > 0 && confidence < 1);
  const double degrees = static_cast<double>(y.size()) - 1;
  Classical pooled;
  pooled.reports = static_cast<int>(y.size());
  pooled.confidence = confidence;
  const Weighted fixed = WeightBy(0, y, s);
  pooled.q = fixed.q;
  pooled.tau2_dl = std::max(0.0, (fixed.q - degrees) / (fixed.w - fixed.w2 / fixed.w));
  pooled.tau2_reml = RestrictedMaximum(y, s);
  const Weighted random = WeightBy(pooled.tau2_reml, y, s);
  pooled.mu = random.mu;
  pooled.mu_se = 1 / std::sqrt(random.w);
  pooled.hk_se = std::sqrt(random.q / (degrees * random.w));
  const double p = 0.5 + confidence / 2;
  const double half = StudentQuantile(p, degrees) * pooled.hk_se;
  pooled.hk = {pooled.mu - half, pooled.mu + half};
  pooled.predictive_sd = std::sqrt(pooled.tau2_reml + 1 / random.w);
  if (y.size() >= 3) {
    const double reach = StudentQuantile(p, degrees - 1) * pooled.predictive_sd;
    pooled.prediction = Interval{pooled.mu - reach, pooled.mu + reach};
  }
  return pooled;
}

}  // namespace rowproof::reconcile
