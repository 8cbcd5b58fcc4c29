// Exact answers to small or narrow covers.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_ELIMINATION_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_ELIMINATION_H_

#include <cstdint>
#include <optional>

#include "services/domain/chart/repair/cover.h"

namespace rowproof::chart {

// The nodes of a line of pairs from one end to the other, the end of lower number first; none if
// the cover is no such line. Every node must be in a set.
std::optional<std::vector<int32_t>> AsLine(const Cover& cover);

// Along such a line; among equals, the one that keeps the first node in which they differ.
CoverAnswer SolveLine(const Cover& cover, std::span<const int32_t> line);

// Variable elimination. Takes what it uses from `steps`; none if they do not suffice.
std::optional<CoverAnswer> Eliminate(const Cover& cover, int64_t& steps);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_ELIMINATION_H_
