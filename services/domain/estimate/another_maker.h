// The same version made by somebody else: what differs from the designer's materials. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ANOTHER_MAKER_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ANOTHER_MAKER_H_

#include <optional>
#include <utility>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::estimate {

// What is absent stays as the designer's.
struct AnotherMaker {
  std::optional<Gauge> gauge;
  std::optional<Gauge> gauge_after_blocking;
  bool gauge_is_of_another_fabric = false;         // of `gauge`
  std::vector<std::pair<YarnColour, Yarn>> yarns;  // each takes the place of a whole yarn
  std::optional<double> hook_mm;
  std::optional<chart::Ends> ends;
  std::optional<double> tail_mm;
  std::optional<double> stitches_per_minute;
  std::optional<double> minutes_per_row_start;
  std::optional<double> assurance;
  bool operator==(const AnotherMaker&) const = default;
};

// The designer's gauge after blocking says nothing about another maker's fabric: if makers give
// their own gauge, only theirs applies. INVALID_ARGUMENT with "yarns[i].role" for a colour that the
// materials have no yarn of, or that is named twice; the values themselves are checked by
// ValidateFor.
absl::StatusOr<Materials> MadeBy(const AnotherMaker& maker, const Materials& materials);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_ANOTHER_MAKER_H_
