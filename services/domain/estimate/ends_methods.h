// Cutting, carrying or waiting: what each costs in yarn, ends to weave in and time. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ENDS_METHODS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ENDS_METHODS_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/estimate/estimate.h"

namespace rowproof::estimate {

inline constexpr double kMinutesPerEnd = 1.5;  // to weave in; assumption

struct EndsMethodYarn {
  YarnColour colour = YarnColour::kA;
  double length_mm = 0;
  bool operator==(const EndsMethodYarn&) const = default;
};

struct EndsMethod {
  chart::Ends ends = chart::Ends::kCut;
  bool fits = false;
  // Why it does not fit, or a caution if it does; one clause, no full stop.
  std::string remark;
  // The rest only if it fits.
  std::vector<EndsMethodYarn> yarns;  // as listed
  double length_mm = 0;               // of all yarns
  int ends_to_weave_in = 0;
  double minutes = 0;          // of work, as an estimate says
  double weaving_minutes = 0;  // beyond that
  bool operator==(const EndsMethod&) const = default;
};

// Cut, carried and waiting, for one size (index into design.sizes) made as `materials` says but for
// its ends. Errors: as EstimateSize, and "minutes_per_end" (0 to 60).
absl::StatusOr<std::vector<EndsMethod>> CompareEndsMethods(const chart::Design& design, int size,
                                                           const Materials& materials,
                                                           double minutes_per_end = kMinutesPerEnd);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ENDS_METHODS_H_
