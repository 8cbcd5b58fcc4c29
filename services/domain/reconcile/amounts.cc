#include "services/domain/reconcile/amounts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "services/domain/check.h"
#include "services/domain/errors.h"
#include "services/domain/reconcile/gauge.h"
#include "services/domain/reconcile/statistics/distributions.h"
#include "services/domain/reconcile/statistics/moments.h"
#include "services/domain/status_macros.h"
#include "services/quantities/units.h"

namespace rowproof::reconcile {
namespace {

constexpr double kStep = 5;
constexpr double kMostLength = 1e12;

// A length that is a whole step but for the rounding of binary numbers stays at that step.
int64_t StepsUp(double length) {
  const double steps = length / kStep;
  const double nearest = std::round(steps);
  const double whole = std::abs(steps - nearest) <= 1e-9 * nearest ? nearest : std::ceil(steps);
  return static_cast<int64_t>(whole * kStep);
}

absl::Status CheckShare(const char* field, double share, double least, double most) {
  if (share >= least && share <= most) return absl::OkStatus();
  return InvalidField(field, fmt::format("{}", share),
                      fmt::format("between {} and {}", least, most));
}

absl::Status CheckSettings(const AmountSettings& settings) {
  RETURN_IF_ERROR(CheckShare("settings.assurance", settings.assurance, 0.5, 0.999));
  if (absl::Status status =
          CheckShare("settings.strict_confidence", settings.strict_confidence, 0.5, 0.999);
      !status.ok()) {
    return status;
  }
  return CheckShare("settings.loose_share", settings.loose_share, 0.01, 0.5);
}

absl::StatusOr<double> Predict(const PredictedAtGauge& predicted, double gauge, double factor) {
  const double length_m = predicted(gauge);
  if (length_m >= 0 && length_m * std::max(1.0, factor) <= kMostLength) return length_m;
  return InvalidField("predicted", fmt::format("{} m at {} stitches in 100 mm", length_m, gauge),
                      "a finite length of 0 or more, at most 1e12 m with the makers' factor");
}

// Upper tolerance limit of the used log ratios as if they came from one normal distribution.
std::optional<StrictAmount> Strict(const Agreement& agreement, double predicted_m,
                                   const AmountSettings& settings) {
  if (!agreement.classical) return std::nullopt;
  std::vector<double> y;
  double least = INFINITY;
  double most = 0;
  for (const MakerRatio& maker : agreement.makers) {
    if (maker.set_aside) continue;
    y.push_back(maker.y);
    const double variance = maker.s * maker.s + agreement.classical->tau2_reml;
    least = std::min(least, variance);
    most = std::max(most, variance);
  }
  const Moments moments = MomentsOf(y);
  const double k = ToleranceFactor(moments.count, settings.assurance, settings.strict_confidence);
  const double length_m = predicted_m * std::exp(moments.mean + k * moments.sd);
  // Two reports far apart give a limit that no ball of yarn reaches: then there is nothing to
  // offer.
  if (!(length_m <= kMostLength)) return std::nullopt;
  return StrictAmount{k, RoundUp(length_m), most <= kMostVarianceRatio * least};
}

}  // namespace

PrintedLength RoundUp(double length_m) {
  ROWPROOF_CHECK(length_m >= 0 && length_m <= kMostLength);
  return {length_m, StepsUp(length_m), StepsUp(length_m / quantities::kMetresPerYard)};
}

absl::StatusOr<Amounts> AmountsToPrint(const Agreement& agreement, double design_gauge,
                                       const PredictedAtGauge& predicted,
                                       std::span<const double> tester_gauges,
                                       const AmountSettings& settings) {
  RETURN_IF_ERROR(CheckSettings(settings));
  const std::string gauges = "a number of stitches in 100 mm above 1, at most 1000";
  if (!IsGauge(design_gauge)) {
    return InvalidField("design_gauge", fmt::format("{}", design_gauge), gauges);
  }
  for (size_t i = 0; i < tester_gauges.size(); ++i) {
    if (IsGauge(tester_gauges[i])) continue;
    return InvalidField(fmt::format("tester_gauges[{}]", i), fmt::format("{}", tester_gauges[i]),
                        gauges);
  }
  Amounts amounts;
  amounts.design_gauge = design_gauge;
  amounts.factor = agreement.NewMakerFactor(settings.assurance);
  const absl::StatusOr<double> at_design = Predict(predicted, design_gauge, amounts.factor);
  if (!at_design.ok()) return at_design.status();
  amounts.predicted_m = *at_design;
  amounts.suffices = RoundUp(*at_design * amounts.factor);
  // A whole stitch less, but the gauge stays above 0.
  const double looser = std::min(1.0, design_gauge / 2);
  const absl::StatusOr<double> at_looser =
      Predict(predicted, design_gauge - looser, amounts.factor);
  if (!at_looser.ok()) return at_looser.status();
  amounts.more_per_looser_stitch_m = (*at_looser - *at_design) / looser * amounts.factor;
  if (!tester_gauges.empty()) {
    const double loose =
        OrderQuantile({tester_gauges.begin(), tester_gauges.end()}, settings.loose_share);
    const absl::StatusOr<double> at_loose = Predict(predicted, loose, amounts.factor);
    if (!at_loose.ok()) return at_loose.status();
    amounts.loose_gauge = loose;
    amounts.loose = RoundUp(*at_loose * amounts.factor);
  }
  amounts.strict = Strict(agreement, *at_design, settings);
  return amounts;
}

double ToleranceFactor(int n, double coverage, double confidence) {
  ROWPROOF_CHECK(n >= 2 && n <= 1000000);
  ROWPROOF_CHECK(coverage > 0 && coverage < 1 && confidence > 0 && confidence < 1);
  const double root = std::sqrt(static_cast<double>(n));
  return NoncentralStudentQuantile(confidence, n - 1, NormalQuantile(coverage) * root) / root;
}

}  // namespace rowproof::reconcile
