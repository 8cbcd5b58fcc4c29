// Which measurements are far from the others, and why. Pure; thread-safe. An outlier is flagged and
// kept: only the designer sets a report aside.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_OUTLIERS_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_OUTLIERS_H_

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/reconcile/statistics/agreement.h"
#include "services/domain/stop.h"

namespace rowproof::reconcile {

inline constexpr int kFewestForModifiedZ = 5;

struct OutlierSettings {
  double most_modified_z = 3.5;  // Iglewicz and Hoaglin 1993
  // A report is flagged if its predictive probability is under this divided by the number of
  // reports (Bonferroni), so that about one set of sound reports in twenty shows a flag.
  // Assumption.
  double least_probability = 0.05;
};

struct OutlierView {
  std::string id;
  double ratio = 1;  // measured / predicted
  // 0.6745 (y - median) / MAD over the used reports; none below five of them or if more than
  // half of them agree exactly (MAD of 0).
  std::optional<double> modified_z;
  // Two-sided probability of a measurement at least as far off, under the posterior predictive of
  // the other used reports and this one's measuring uncertainty.
  double predictive_probability = 1;
  bool set_aside = false;
  bool far_by_modified_z = false;
  bool far_by_prediction = false;
  bool flagged() const { return far_by_modified_z || far_by_prediction; }
  std::string reason;  // one or two sentences if flagged, else empty
};

// One view for each measurement, in their order. Errors as Agree, and INVALID_ARGUMENT for settings
// out of range; a flat prior needs one measurement more. Time O(n * nodes) for many
// measurements, O(n^2 * nodes) for up to 40. The stop's status if the work has to stop.
absl::StatusOr<std::vector<OutlierView>> FindOutliers(std::span<const Measurement> measurements,
                                                      const Prior& prior,
                                                      const OutlierSettings& settings = {},
                                                      const Stop& stop = {});

// Modified z-scores (Iglewicz and Hoaglin 1993) of at least one value; empty if the MAD is 0.
std::vector<double> ModifiedZ(std::span<const double> values);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_OUTLIERS_H_
