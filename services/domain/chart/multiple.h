// "Multiple of P plus M": the counts that a design's repeated band allows.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_MULTIPLE_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_MULTIPLE_H_

#include <optional>
#include <string>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

// Counts rest + n * repeat, n from 1. `rest` may be larger than `repeat`: what is worked once is
// not split up ("8 plus 10").
struct Multiple {
  int repeat = 0;
  int rest = 0;
  bool operator==(const Multiple&) const = default;
};

// Stitches; none without a repeated band. The design must be valid.
std::optional<Multiple> StitchMultiple(const Design& design);

// Worked rows (inset: two a chart row); none without a repeated band. The design must be valid.
std::optional<Multiple> RowMultiple(const Design& design);

// "multiple of 8 plus 10"; "multiple of 8" if nothing is worked once.
std::string Words(const Multiple& multiple);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_MULTIPLE_H_
