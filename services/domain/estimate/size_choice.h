// Which repeats of a design come nearest to a width and height. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_SIZE_CHOICE_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_SIZE_CHOICE_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/estimate/estimate.h"

namespace rowproof::estimate {

// Border and fringe included. One of the two at least; 1 to 100,000 mm.
struct SizeTarget {
  std::optional<double> width_mm;
  std::optional<double> height_mm;
  bool after_blocking = false;
  bool operator==(const SizeTarget&) const = default;
};

struct SizeCandidate {
  int stitch_repeats = 1;
  int row_repeats = 1;
  int stitches = 0;
  int rows = 0;      // worked rows
  std::string size;  // the design's own of these repeats; empty: it has none
  Extent extent;
  // Larger than wanted above zero; 0 for a direction without a wish.
  double width_off_mm = 0;
  double height_off_mm = 0;
  bool operator==(const SizeCandidate&) const = default;
};

struct SizeChoice {
  // The repeats next below and above the wish in each direction, the nearest first (sum of squares
  // of the relative differences). With one wish only, the other direction is as in the first size.
  std::vector<SizeCandidate> candidates;
  std::vector<SizeCandidate> of_design;  // the design's own sizes, the nearest first
  bool operator==(const SizeChoice&) const = default;
};

// INVALID_ARGUMENT as EstimateSizes, and with "width_mm", "height_mm" (not finite,
// out of range, or both absent) or "materials.gauge_after_blocking" if the size after blocking
// is wanted and no gauge is known. A row band that the colour order forbids to repeat is worked
// once.
absl::StatusOr<SizeChoice> ChooseSize(const chart::Design& design, const Materials& materials,
                                      const SizeTarget& target);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_SIZE_CHOICE_H_
