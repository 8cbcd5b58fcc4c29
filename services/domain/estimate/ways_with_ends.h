// What the ways with the ends cost against each other: yarn, ends to weave in, time. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_WAYS_WITH_ENDS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_WAYS_WITH_ENDS_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/estimate/estimate.h"

namespace rowproof::estimate {

inline constexpr double kMinutesPerEnd = 1.5;  // to weave in; assumption

struct YarnOfWay {
  YarnColour colour = YarnColour::kA;
  double length_mm = 0;
  bool operator==(const YarnOfWay&) const = default;
};

struct WayWithEnds {
  chart::Ends ends = chart::Ends::kCut;
  bool fits = false;
  // Why it does not fit, or what to mind where it fits with a note; one clause, no full stop.
  std::string remark;
  // The rest only where it fits.
  std::vector<YarnOfWay> yarns;  // as listed
  double length_mm = 0;          // of all yarns
  int ends_to_weave_in = 0;
  double minutes = 0;          // of work, as an estimate says
  double weaving_minutes = 0;  // beyond that
  bool operator==(const WayWithEnds&) const = default;
};

// Cut, carried and waiting, for one size (index into design.sizes) made as `making` says but for
// its ends. Errors: as EstimateSize, and "minutes_per_end" (0 to 60).
absl::StatusOr<std::vector<WayWithEnds>> CompareWaysWithEnds(
    const chart::Design& design, int size, const Making& making,
    double minutes_per_end = kMinutesPerEnd);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_WAYS_WITH_ENDS_H_
