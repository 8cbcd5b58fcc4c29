// What materials may say, and whether they go with a design. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_MATERIALS_VALIDATION_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_MATERIALS_VALIDATION_H_

#include <string>

#include "absl/status/status.h"
#include "services/domain/chart/design.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::estimate {

// INVALID_ARGUMENT with the field's path relative to Materials ("gauge.stitches_per_decimetre",
// "yarns[A].wraps_per_inch", "added_fringe[0].strand_count") for a value that is not finite, out of
// range, missing, or a text with control characters.
absl::Status Validate(const Materials& materials);
// The same, and that every colour of the design's rows has its yarn.
absl::Status ValidateFor(const chart::Design& design, const Materials& materials);
absl::Status ValidateYarn(const Yarn& yarn, const std::string& field);

// Makes the foundation of worked stitches one fact: declared by either of the two, it holds for
// both; a worked one without a colour has row 1's. The design is valid. `chain_declared`: the
// materials asks for a chain in so many words. INVALID_ARGUMENT, "foundation" or
// "foundation_colour" (relative to Materials): it contradicts the design.
absl::Status SettleFoundation(bool chain_declared, chart::Design& design, Materials& materials);

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_MATERIALS_VALIDATION_H_
