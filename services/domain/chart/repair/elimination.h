// Exact answers to small or narrow covers.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_ELIMINATION_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_ELIMINATION_H_

#include <cstdint>
#include <optional>

#include "services/domain/chart/repair/cover.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

// The nodes of a line of pairs from one end to the other, the end of lower number first; none if
// the cover is no such line, or the work has to stop. Every node must be in a set.
std::optional<std::vector<int32_t>> AsLine(const Cover& cover, const Stop& stop);

// Along such a line; among equals, the one that keeps the first node in which they differ.
CoverAnswer SolveLine(const Cover& cover, std::span<const int32_t> line);

// Variable elimination. Takes what it uses from `steps`; none if they do not suffice, or the work
// has to stop.
std::optional<CoverAnswer> Eliminate(const Cover& cover, int64_t& steps, const Stop& stop);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_ELIMINATION_H_
