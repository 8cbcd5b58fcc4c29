// The order in which the rows, or the stitches, of a chart follow each other in a size.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_UNFOLD_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_UNFOLD_H_

#include <optional>
#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

// Chart numbers (from 1) in working order: 1 to `length`, the band `repeats` times in a line.
std::vector<int> Unfold(int length, const std::optional<Band>& band, int repeats);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_UNFOLD_H_
