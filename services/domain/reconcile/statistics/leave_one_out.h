// How probable each measurement is under what the others say. Pure; thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_LEAVE_ONE_OUT_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_LEAVE_ONE_OUT_H_

#include <span>
#include <vector>

#include "services/domain/reconcile/statistics/agreement.h"
#include "services/domain/stop.h"

namespace rowproof::reconcile {

// Up to this many ratios, the posterior of the others is integrated again for each; above it, one
// grid of tau serves all, and a ratio's terms are subtracted from its sums.
inline constexpr size_t kMostLeftOutDirectly = 40;

// Twice the smaller tail beyond the ratio's y, with its measuring uncertainty added.
double TwoSidedProbability(const NormalMixture& new_maker, const LogRatio& ratio);

// For each ratio, that probability under the posterior predictive of the others. The numbers must
// be valid, and a flat prior needs more than kFewestForFlatPrior ratios (CHECK).
// Not all if the work has to stop, which the caller asks.
std::vector<double> LeaveOneOut(std::span<const LogRatio> ratios, const Prior& prior,
                                const Stop& stop = {});

// The two ways, for any number of ratios; equal to about 1e-6 of the probability.
std::vector<double> LeaveOneOutDirectly(std::span<const LogRatio> ratios, const Prior& prior,
                                        const Stop& stop = {});
std::vector<double> LeaveOneOutOnOneGrid(std::span<const LogRatio> ratios, const Prior& prior,
                                         const Stop& stop = {});

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_STATISTICS_LEAVE_ONE_OUT_H_
