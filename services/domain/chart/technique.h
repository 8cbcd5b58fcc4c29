// What one technique has of its own: the one place to extend when a technique is added.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUE_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUE_H_

#include <cstdint>

#include "absl/status/status.h"
#include "services/domain/chart/design.h"

namespace rowproof::chart {

// What the first and last stitch of a flat chart may hold (rule 6).
enum class EdgeRule : uint8_t {
  kPlainOrColumn,  // no drop, or a drop in every row of one colour; a warning otherwise
  kPlain,          // no drop; an error otherwise
};

struct TechniqueFacts {
  bool has_rules = false;  // Check and FindRepair know its rules
  EdgeRule edges = EdgeRule::kPlainOrColumn;
  bool drops_hold_strand = false;  // rule 7: a carried strand lies inside the drops
};

const TechniqueFacts& FactsOf(Technique technique);

// UNIMPLEMENTED with field `technique` where Check and FindRepair do not know the rules yet.
absl::Status RequireRules(const Design& design);

// Why the ends cannot be treated so with this technique, facing and form: one clause without a full
// stop; nullptr where they go together.
const char* WhyEndsDoNotFit(const Design& design);

// Rows after which the sides of the work (RS, WS) come round again: 1, 2 or 4.
int FacingPeriod(const Design& design);

// Rule 9: the two colours have to alternate strictly (an error otherwise, not a warning).
bool NeedsAlternation(const Design& design);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_TECHNIQUE_H_
