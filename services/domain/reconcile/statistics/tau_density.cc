#include "services/domain/reconcile/statistics/tau_density.h"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "services/domain/check.h"
#include "services/domain/reconcile/statistics/moments.h"

namespace rowproof::reconcile {
namespace {

constexpr double kNegligible = 34;  // e^-34 is 2e-15
constexpr double kScanStep = 0.5;   // the log density bends on a scale of 1 in ln tau

// The log density of ln tau as one function, with the mode's neighbourhood known.
class LogDensity {
 public:
  LogDensity(const CentredRatios& ratios, const Prior& prior) : ratios_(ratios), prior_(prior) {}

  double operator()(double log_tau) const { return PointAt(log_tau, ratios_, prior_).log_density; }

  // Beyond this range the density falls like tau to the left and, to the right, like the prior or
  // (flat) like a power that even tau^2 cannot hold up.
  double ScanLow() const {
    double scale = prior_.flat ? 1e300 : prior_.tau_scale;
    for (const double variance : ratios_.variance) scale = std::min(scale, std::sqrt(variance));
    return std::log(scale) - kNegligible - 3;
  }
  double ScanHigh() const {
    if (!prior_.flat) return std::log(9 * prior_.tau_scale);
    double scale = 0;
    for (size_t i = 0; i < ratios_.z.size(); ++i) {
      scale = std::max({scale, std::abs(ratios_.z[i]), std::sqrt(ratios_.variance[i])});
    }
    return std::log(scale) + kNegligible + 3;
  }

 private:
  const CentredRatios& ratios_;
  const Prior& prior_;
};

struct Place {
  double log_tau = 0;
  double value = 0;
};

// The maximum between low and high, to about 1e-3.
Place Climb(const LogDensity& density, double low, double high) {
  constexpr int kBits = 14;  // of a ln tau, which is some tens at most
  const auto [log_tau, value] = boost::math::tools::brent_find_minima(
      [&](double x) { return -density(x); }, low, high, kBits);
  return {log_tau, -value};
}

// Coarse places over the whole range with every local maximum among them made exact, so that no
// narrow peak between two places is missed.
std::vector<Place> Scan(const LogDensity& density) {
  const double low = density.ScanLow();
  const double high = density.ScanHigh();
  const auto count = static_cast<size_t>(std::ceil((high - low) / kScanStep)) + 1;
  std::vector<Place> places;
  places.reserve(count + 4);
  for (size_t i = 0; i < count; ++i) {
    const double log_tau = low + kScanStep * static_cast<double>(i);
    places.push_back({log_tau, density(log_tau)});
  }
  std::vector<Place> peaks;
  for (size_t i = 1; i + 1 < count; ++i) {
    if (places[i].value < places[i - 1].value || places[i].value < places[i + 1].value) continue;
    peaks.push_back(Climb(density, places[i - 1].log_tau, places[i + 1].log_tau));
  }
  places.insert(places.end(), peaks.begin(), peaks.end());
  std::sort(places.begin(), places.end(),
            [](const Place& a, const Place& b) { return a.log_tau < b.log_tau; });
  return places;
}

// Between a negligible place and one that is not: the edge, on the negligible side.
double Edge(const LogDensity& density, const Place& negligible, const Place& counts, double weight,
            double floor) {
  const auto excess = [&](const Place& place) {
    return place.value + weight * place.log_tau - floor;
  };
  const bool rises = negligible.log_tau < counts.log_tau;
  const Place& left = rises ? negligible : counts;
  const Place& right = rises ? counts : negligible;
  std::uintmax_t most_steps = 100;
  const auto edge = boost::math::tools::toms748_solve(
      [&](double log_tau) {
        return excess({log_tau, density(log_tau)});
      },
      left.log_tau, right.log_tau, excess(left), excess(right),
      [](double low, double high) { return high - low <= 0.02; }, most_steps);
  return rises ? edge.first : edge.second;
}

}  // namespace

CentredRatios::CentredRatios(std::span<const LogRatio> ratios) {
  z.reserve(ratios.size());
  variance.reserve(ratios.size());
  std::vector<double> values;
  values.reserve(ratios.size());
  for (const LogRatio& ratio : ratios) values.push_back(ratio.y);
  if (!ratios.empty()) centre = Median(values);
  for (const LogRatio& ratio : ratios) {
    ROWPROOF_CHECK(std::isfinite(ratio.y) && std::isfinite(ratio.s) && ratio.s >= 0);
    const double s = std::max(ratio.s, kLeastUncertainty);
    z.push_back(ratio.y - centre);
    variance.push_back(s * s);
  }
}

TauSums SumsAt(double tau, const CentredRatios& ratios) {
  const double tau2 = tau * tau;
  const double* const z = ratios.z.data();
  const double* const variance = ratios.variance.data();
  const size_t count = ratios.z.size();
  TauSums sums;
  size_t i = 0;
  // One logarithm and one division for four ratios: the product of four totals stays in range.
  for (; i + 4 <= count; i += 4) {
    const double a = variance[i] + tau2;
    const double b = variance[i + 1] + tau2;
    const double c = variance[i + 2] + tau2;
    const double d = variance[i + 3] + tau2;
    const double ab = a * b;
    const double cd = c * d;
    const double all = 1 / (ab * cd);
    const double wa = all * cd * b;
    const double wb = all * cd * a;
    const double wc = all * ab * d;
    const double wd = all * ab * c;
    sums.log_w += std::log(all);
    sums.w += (wa + wb) + (wc + wd);
    const double za = wa * z[i];
    const double zb = wb * z[i + 1];
    const double zc = wc * z[i + 2];
    const double zd = wd * z[i + 3];
    sums.wz += (za + zb) + (zc + zd);
    sums.wzz += (za * z[i] + zb * z[i + 1]) + (zc * z[i + 2] + zd * z[i + 3]);
  }
  for (; i < count; ++i) {
    const double w = 1 / (variance[i] + tau2);
    sums.log_w += std::log(w);
    sums.w += w;
    sums.wz += w * z[i];
    sums.wzz += w * z[i] * z[i];
  }
  return sums;
}

TauPoint PointAt(double log_tau, const TauSums& sums, double centre, const Prior& prior) {
  // The prior of mu is one more ratio of 0 with the weight 1 / mu_sd^2; a flat one has no weight.
  const double prior_w = prior.flat ? 0.0 : 1 / (prior.mu_sd * prior.mu_sd);
  const double precision = sums.w + prior_w;
  const double shifted = (sums.wz - prior_w * centre) / precision;
  const double squares = sums.wzz + prior_w * centre * centre - precision * shifted * shifted;
  TauPoint point;
  point.mu_mean = centre + shifted;
  point.mu_variance = 1 / precision;
  point.log_density = log_tau + 0.5 * (sums.log_w - std::log(precision) - squares);
  if (!prior.flat) {
    const double relative = std::exp(log_tau) / prior.tau_scale;
    point.log_density -= 0.5 * relative * relative;
  }
  return point;
}

TauPoint PointAt(double log_tau, const CentredRatios& ratios, const Prior& prior) {
  return PointAt(log_tau, SumsAt(std::exp(log_tau), ratios), ratios.centre, prior);
}

LogTauRange RangeOf(const CentredRatios& ratios, const Prior& prior) {
  const LogDensity density(ratios, prior);
  const std::vector<Place> places = Scan(density);
  LogTauRange range{places.back().log_tau, places.front().log_tau};
  for (const double weight : {0.0, 2.0}) {
    const auto weighed = [weight](const Place& place) {
      return place.value + weight * place.log_tau;
    };
    double floor = weighed(places[0]);
    for (const Place& place : places) floor = std::max(floor, weighed(place));
    floor -= kNegligible;
    size_t first = 0;
    while (weighed(places[first]) <= floor) ++first;
    size_t last = places.size() - 1;
    while (weighed(places[last]) <= floor) --last;
    const double low = first == 0 ? places[0].log_tau
                                  : Edge(density, places[first - 1], places[first], weight, floor);
    const double high = last + 1 == places.size()
                            ? places[last].log_tau
                            : Edge(density, places[last + 1], places[last], weight, floor);
    range.low = std::min(range.low, low);
    range.high = std::max(range.high, high);
  }
  return range;
}

}  // namespace rowproof::reconcile
