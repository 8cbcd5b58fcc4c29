#include "services/domain/reconcile/statistics/leave_one_out.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "services/domain/reconcile/statistics/distributions.h"
#include "services/domain/reconcile/statistics/tau_posterior.h"

namespace rowproof::reconcile {
namespace {

std::vector<LogRatio> Without(std::span<const LogRatio> ratios, size_t left_out) {
  std::vector<LogRatio> others(ratios.begin(), ratios.end());
  others.erase(others.begin() + static_cast<std::ptrdiff_t>(left_out));
  return others;
}

double DirectProbability(std::span<const LogRatio> ratios, size_t i, const Prior& prior) {
  return TwoSidedProbability(PredictNewMaker(Without(ratios, i), prior), ratios[i]);
}

// Sums of all ratios at equally spaced ln tau.
struct Grid {
  double first = 0;
  double step = 0;
  std::vector<double> tau2;
  std::vector<TauSums> sums;
  double LogTau(size_t k) const { return first + step * static_cast<double>(k); }
};

// The posterior moves most when the most extreme ratio is left out; a grid over that posterior and
// the one of all ratios, with the finer step of the two, holds the others too (and each one is
// checked for it).
Grid MakeGrid(std::span<const LogRatio> ratios, const CentredRatios& centred, const Prior& prior) {
  const TauPosterior all = IntegrateTau(centred, prior);
  const double tau = all.Mean();
  size_t farthest = 0;
  double distance = -1;
  for (size_t i = 0; i < ratios.size(); ++i) {
    const double here = centred.z[i] * centred.z[i] / (centred.variance[i] + tau * tau);
    if (here <= distance) continue;
    distance = here;
    farthest = i;
  }
  const TauPosterior rest = IntegrateTau(CentredRatios(Without(ratios, farthest)), prior);
  Grid grid;
  grid.first = std::min(all.first_log_tau, rest.first_log_tau);
  grid.step = std::min(all.step, rest.step);
  const double last = std::max(all.last_log_tau(), rest.last_log_tau());
  const auto count = static_cast<size_t>(std::ceil((last - grid.first) / grid.step)) + 1;
  for (size_t k = 0; k < count; ++k) {
    const double tau_here = std::exp(grid.LogTau(k));
    grid.tau2.push_back(tau_here * tau_here);
    grid.sums.push_back(SumsAt(tau_here, centred));
  }
  return grid;
}

// The probability of ratio i under the others; none if the grid does not hold their posterior.
std::optional<double> GridProbability(const Grid& grid, const CentredRatios& centred, size_t i,
                                      const LogRatio& ratio, const Prior& prior) {
  const size_t count = grid.sums.size();
  std::vector<TauPoint> points(count);
  double peak = -std::numeric_limits<double>::infinity();
  for (size_t k = 0; k < count; ++k) {
    const double w = 1 / (centred.variance[i] + grid.tau2[k]);
    TauSums sums = grid.sums[k];
    sums.w -= w;
    sums.wz -= w * centred.z[i];
    sums.wzz -= w * centred.z[i] * centred.z[i];
    sums.log_w -= std::log(w);
    points[k] = PointAt(grid.LogTau(k), sums, centred.centre, prior);
    peak = std::max(peak, points[k].log_density);
  }
  double mass = 0;
  double even_mass = 0;
  double below = 0;
  double above = 0;
  for (size_t k = 0; k < count; ++k) {
    const double density = std::exp(points[k].log_density - peak);
    mass += density;
    if (k % 2 == 0) even_mass += density;
    if (density < 1e-14) continue;
    const double sd = std::sqrt(points[k].mu_variance + grid.tau2[k] + centred.variance[i]);
    const double z = (ratio.y - points[k].mu_mean) / sd;
    const double tail = NormalCdf(-std::abs(z));
    below += density * (z > 0 ? 1 - tail : tail);
    above += density * (z > 0 ? tail : 1 - tail);
  }
  const double ends =
      std::exp(points.front().log_density - peak) + std::exp(points.back().log_density - peak);
  if (ends > 1e-10 || std::abs(2 * even_mass - mass) > 1e-7 * mass) return std::nullopt;
  return std::min(1.0, 2 * std::min(below, above) / mass);
}

}  // namespace

double TwoSidedProbability(const NormalMixture& new_maker, const LogRatio& ratio) {
  const NormalMixture measured = new_maker.WithError(std::max(ratio.s, kLeastUncertainty));
  return std::min(1.0, 2 * std::min(measured.Cdf(ratio.y), measured.Survival(ratio.y)));
}

std::vector<double> LeaveOneOutDirectly(std::span<const LogRatio> ratios, const Prior& prior,
                                        const Stop& stop) {
  std::vector<double> probabilities;
  for (size_t i = 0; i < ratios.size() && !stop.After(Stop::kWorkBetweenLooks); ++i) {
    probabilities.push_back(DirectProbability(ratios, i, prior));
  }
  return probabilities;
}

std::vector<double> LeaveOneOutOnOneGrid(std::span<const LogRatio> ratios, const Prior& prior,
                                         const Stop& stop) {
  std::vector<double> probabilities;
  if (ratios.empty()) return probabilities;
  const CentredRatios centred(ratios);
  const Grid grid = MakeGrid(ratios, centred, prior);
  for (size_t i = 0; i < ratios.size() && !stop.After(10 * grid.sums.size()); ++i) {
    const std::optional<double> probability = GridProbability(grid, centred, i, ratios[i], prior);
    probabilities.push_back(probability ? *probability : DirectProbability(ratios, i, prior));
  }
  return probabilities;
}

std::vector<double> LeaveOneOut(std::span<const LogRatio> ratios, const Prior& prior,
                                const Stop& stop) {
  return ratios.size() <= kMostLeftOutDirectly ? LeaveOneOutDirectly(ratios, prior, stop)
                                               : LeaveOneOutOnOneGrid(ratios, prior, stop);
}

}  // namespace rowproof::reconcile
