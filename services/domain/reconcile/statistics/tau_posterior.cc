#include "services/domain/reconcile/statistics/tau_posterior.h"

#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "services/domain/check.h"

namespace rowproof::reconcile {
namespace {

constexpr size_t kFirstIntervals = 64;
constexpr size_t kMostIntervals = 16384;

// Mass and the first two moments of tau over some of the nodes, with densities relative to `peak`.
struct Moments3 {
  double mass = 0;
  double first = 0;
  double second = 0;
};
Moments3 Moment(const std::vector<double>& log_tau, const std::vector<TauPoint>& points,
                double peak) {
  Moments3 moments;
  for (size_t i = 0; i < points.size(); ++i) {
    const double density = std::exp(points[i].log_density - peak);
    const double tau = std::exp(log_tau[i]);
    moments.mass += density;
    moments.first += density * tau;
    moments.second += density * tau * tau;
  }
  return moments;
}

double Peak(const std::vector<TauPoint>& points) {
  double peak = points[0].log_density;
  for (const TauPoint& point : points) peak = std::max(peak, point.log_density);
  return peak;
}

bool Settled(double a, double b) { return std::abs(a - b) <= 1e-10 * std::abs(a); }

TauPosterior FromPoints(double first, double step, const std::vector<TauPoint>& points) {
  TauPosterior posterior;
  posterior.first_log_tau = first;
  posterior.step = step;
  const double peak = Peak(points);
  double mass = 0;
  for (size_t i = 0; i < points.size(); ++i) {
    posterior.tau.push_back(std::exp(first + step * static_cast<double>(i)));
    posterior.log_density.push_back(points[i].log_density - peak);
    posterior.probability.push_back(std::exp(points[i].log_density - peak));
    posterior.mu_mean.push_back(points[i].mu_mean);
    posterior.mu_variance.push_back(points[i].mu_variance);
    mass += posterior.probability.back();
  }
  for (double& probability : posterior.probability) probability /= mass;
  return posterior;
}

// Cubic through four neighbouring values at -1, 0, 1 and 2, at x in [0, 1].
double Cubic(const std::array<double, 4>& v, double x) {
  return v[0] * (-x * (x - 1) * (x - 2) / 6) + v[1] * ((x + 1) * (x - 1) * (x - 2) / 2) +
         v[2] * (-(x + 1) * x * (x - 2) / 2) + v[3] * ((x + 1) * x * (x - 1) / 6);
}

// Integral of exp(cubic) from 0 to `end` <= 1.
double CellMass(const std::array<double, 4>& v, double end) {
  return boost::math::quadrature::gauss<double, 7>::integrate(
      [&](double x) { return std::exp(Cubic(v, x)); }, 0.0, end);
}

// The values around cell k (between nodes k and k + 1); the outermost are carried on straight.
std::array<double, 4> Around(const std::vector<double>& values, size_t k) {
  const double left = k > 0 ? values[k - 1] : 2 * values[k] - values[k + 1];
  const double right = k + 2 < values.size() ? values[k + 2] : 2 * values[k + 1] - values[k];
  return {left, values[k], values[k + 1], right};
}

}  // namespace

TauPosterior IntegrateTau(const CentredRatios& ratios, const Prior& prior) {
  ROWPROOF_CHECK(!prior.flat || ratios.z.size() >= static_cast<size_t>(kFewestForFlatPrior));
  const LogTauRange range = RangeOf(ratios, prior);
  const double width = range.high - range.low;
  const auto points_at = [&](double first, double step, size_t count, std::vector<double>* where) {
    std::vector<TauPoint> points;
    points.reserve(count);
    where->clear();
    for (size_t i = 0; i < count; ++i) {
      where->push_back(first + step * static_cast<double>(i));
      points.push_back(PointAt(where->back(), ratios, prior));
    }
    return points;
  };
  size_t intervals = kFirstIntervals;
  std::vector<double> where;
  std::vector<TauPoint> points =
      points_at(range.low, width / static_cast<double>(intervals), intervals + 1, &where);
  while (true) {
    const double step = width / static_cast<double>(intervals);
    std::vector<double> between_where;
    const std::vector<TauPoint> between =
        points_at(range.low + step / 2, step, intervals, &between_where);
    const double peak = std::max(Peak(points), Peak(between));
    const Moments3 rule = Moment(where, points, peak);
    const Moments3 midpoint = Moment(between_where, between, peak);
    std::vector<TauPoint> merged;
    std::vector<double> merged_where;
    for (size_t i = 0; i < points.size(); ++i) {
      merged.push_back(points[i]);
      merged_where.push_back(where[i]);
      if (i == between.size()) break;
      merged.push_back(between[i]);
      merged_where.push_back(between_where[i]);
    }
    points = std::move(merged);
    where = std::move(merged_where);
    intervals *= 2;
    const bool settled = Settled(rule.mass, midpoint.mass) && Settled(rule.first, midpoint.first) &&
                         Settled(rule.second, midpoint.second);
    if (settled || intervals >= kMostIntervals) break;
  }
  return FromPoints(range.low, width / static_cast<double>(intervals), points);
}

double TauPosterior::Mean() const {
  double sum = 0;
  for (size_t i = 0; i < tau.size(); ++i) sum += probability[i] * tau[i];
  return sum;
}

double TauPosterior::Sd() const {
  const double mean = Mean();
  double sum = 0;
  for (size_t i = 0; i < tau.size(); ++i) {
    sum += probability[i] * (tau[i] - mean) * (tau[i] - mean);
  }
  return std::sqrt(sum);
}

std::vector<double> TauPosterior::Quantiles(std::span<const double> ascending) const {
  std::vector<double> mass(tau.size() - 1);
  double total = 0;
  for (size_t k = 0; k < mass.size(); ++k) {
    mass[k] = CellMass(Around(log_density, k), 1);
    total += mass[k];
  }
  std::vector<double> quantiles;
  double below = 0;
  size_t k = 0;
  for (const double p : ascending) {
    ROWPROOF_CHECK(p > 0 && p < 1);
    while (k + 1 < mass.size() && below + mass[k] < p * total) below += mass[k++];
    const std::array<double, 4> around = Around(log_density, k);
    // Within the cell; the last cell may end below by rounding.
    const double at_start = below - p * total;
    const double at_end = below + mass[k] - p * total;
    double within = 1;
    if (at_start < 0 && at_end > 0) {
      std::uintmax_t most_steps = 100;
      within = boost::math::tools::toms748_solve(
                   [&](double end) { return at_start + CellMass(around, end); }, 0.0, 1.0, at_start,
                   at_end, [](double a, double b) { return b - a <= 1e-13; }, most_steps)
                   .second;
    }
    quantiles.push_back(std::exp(first_log_tau + step * (static_cast<double>(k) + within)));
  }
  return quantiles;
}

NormalMixture TauPosterior::Mu() const {
  NormalMixture mixture;
  for (size_t i = 0; i < tau.size(); ++i) {
    mixture.weight.push_back(probability[i]);
    mixture.mean.push_back(mu_mean[i]);
    mixture.sd.push_back(std::sqrt(mu_variance[i]));
  }
  return mixture;
}

NormalMixture TauPosterior::NewMaker() const {
  NormalMixture mixture = Mu();
  for (size_t i = 0; i < tau.size(); ++i) {
    mixture.sd[i] = std::sqrt(mu_variance[i] + tau[i] * tau[i]);
  }
  return mixture;
}

}  // namespace rowproof::reconcile
