// Rows and stitches that declared symmetries make each other's images.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_SYMMETRY_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_SYMMETRY_H_

#include <utility>
#include <vector>

#include "absl/status/status.h"
#include "services/domain/chart/design.h"
#include "services/domain/chart/repair/options.h"

namespace rowproof::chart {

// What turning one size upside down, or about its middle stitch, does to the rows and stitches of
// the chart as given. A row of a repeated band can have several images.
struct Images {
  // In both directions. 0 means an image outside the chart: a mark there has none.
  std::vector<std::pair<int, int>> rows;
  std::vector<std::pair<int, int>> stitches;  // the smaller first
  bool operator==(const Images&) const = default;
};

// One for each way in which sizes differ. The design must be valid.
std::vector<Images> ImagesOf(const Design& design);

// FAILED_PRECONDITION, type SYMMETRY_CANNOT_HOLD, subject top-to-bottom or half-turn, if a row
// and its image are worked in different colours in some size: neither the first row nor the last
// can show another colour than its own. In the two-colour alternation that is so with an even
// number of rows.
absl::Status RequireRowSymmetry(const Design& design, const RepairOptions& options);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_SYMMETRY_H_
