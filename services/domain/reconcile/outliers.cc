#include "services/domain/reconcile/outliers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "services/domain/check.h"
#include "services/domain/errors.h"
#include "services/domain/reconcile/statistics/leave_one_out.h"
#include "services/domain/reconcile/statistics/moments.h"
#include "services/domain/status_macros.h"

namespace rowproof::reconcile {
namespace {

// 0.6745 is the normal distribution's upper quartile, as Iglewicz and Hoaglin round it.
constexpr double kQuartile = 0.6745;

absl::Status CheckSettings(const OutlierSettings& settings) {
  if (!(settings.most_modified_z >= 1 && settings.most_modified_z <= 100)) {
    return InvalidField("settings.most_modified_z", fmt::format("{}", settings.most_modified_z),
                        "between 1 and 100");
  }
  if (!(settings.least_probability > 0 && settings.least_probability <= 0.5)) {
    return InvalidField("settings.least_probability", fmt::format("{}", settings.least_probability),
                        "above 0 and at most 0.5");
  }
  return absl::OkStatus();
}

std::string ReasonFor(const OutlierView& view, double middle_ratio, int others,
                      const OutlierSettings& settings) {
  std::string reason;
  if (view.far_by_modified_z) {
    reason = fmt::format(
        "Measured {:.2f} times the prediction (median of the reports: {:.2f} times): modified "
        "z-score {:.1f}, beyond {:.1f}.",
        view.ratio, middle_ratio, *view.modified_z, settings.most_modified_z);
  }
  if (view.far_by_prediction) {
    if (!reason.empty()) reason += ' ';
    reason += fmt::format(
        "Measured {:.2f} times the prediction; {}, a ratio this far off has a probability of "
        "{:.2g} %.",
        view.ratio,
        others == 0   ? std::string("by the prior assumption")
        : others == 1 ? std::string("by the other report")
                      : fmt::format("by the other {} reports", others),
        100 * view.predictive_probability);
  }
  return reason;
}

// What the used reports are compared by.
struct Reference {
  std::vector<LogRatio> used;
  double median = 0;
  double mad = 0;  // 0: no modified z-scores
};

Reference MakeReference(std::span<const Measurement> measurements) {
  Reference reference;
  reference.used = UsedLogRatios(measurements);
  std::vector<double> y;
  for (const LogRatio& ratio : reference.used) y.push_back(ratio.y);
  if (y.empty()) return reference;
  reference.median = Median(y);
  if (y.size() >= static_cast<size_t>(kFewestForModifiedZ)) {
    reference.mad = MedianDistance(y, reference.median);
  }
  return reference;
}

}  // namespace

std::vector<double> ModifiedZ(std::span<const double> values) {
  ROWPROOF_CHECK(!values.empty());
  const double median = Median({values.begin(), values.end()});
  const double mad = MedianDistance(values, median);
  std::vector<double> scores;
  if (mad <= 0) return scores;
  for (const double value : values) scores.push_back(kQuartile * (value - median) / mad);
  return scores;
}

absl::StatusOr<std::vector<OutlierView>> FindOutliers(std::span<const Measurement> measurements,
                                                      const Prior& prior,
                                                      const OutlierSettings& settings,
                                                      const Stop& stop) {
  RETURN_IF_ERROR(CheckAgreementInput(measurements, prior));
  RETURN_IF_ERROR(CheckSettings(settings));
  const Reference reference = MakeReference(measurements);
  const auto used = static_cast<int>(reference.used.size());
  if (prior.flat && used <= kFewestForFlatPrior) {
    return InvalidField(
        "prior.flat", fmt::format("true with {} measurements", used),
        fmt::format("false unless there are more than {} measurements", kFewestForFlatPrior));
  }
  const std::vector<double> probabilities = LeaveOneOut(reference.used, prior, stop);
  RETURN_IF_ERROR(stop.status());
  const NormalMixture all = PredictNewMaker(reference.used, prior);
  std::vector<OutlierView> views;
  size_t next = 0;
  for (const Measurement& one : measurements) {
    const LogRatio ratio = ToLogRatio(one);
    OutlierView view;
    view.id = one.id;
    view.ratio = one.measured / one.predicted;
    view.set_aside = one.set_aside;
    view.predictive_probability =
        one.set_aside ? TwoSidedProbability(all, ratio) : probabilities[next++];
    if (reference.mad > 0) {
      view.modified_z = kQuartile * (ratio.y - reference.median) / reference.mad;
      view.far_by_modified_z = std::abs(*view.modified_z) > settings.most_modified_z;
    }
    view.far_by_prediction =
        view.predictive_probability < settings.least_probability / std::max(used, 1);
    const int others = one.set_aside ? used : used - 1;
    view.reason = ReasonFor(view, std::exp(reference.median), others, settings);
    views.push_back(std::move(view));
  }
  return views;
}

}  // namespace rowproof::reconcile
