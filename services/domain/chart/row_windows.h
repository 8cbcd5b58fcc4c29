// Which stitches of a chart are side by side in its sizes.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_ROW_WINDOWS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_ROW_WINDOWS_H_

#include <span>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/check.h"

namespace rowproof::chart {

// Lines of chart stitches that contain every run of `length` neighbouring stitches of every size: a
// band is repeated no more often than that takes, and a round continues beyond its end. `length` >=
// 1. Empty if no size has so many stitches.
std::vector<std::vector<int>> LinesOfStitches(const Design& design, int length);

// Calls `visit` with each stretch of `length` stitches of the line for which all `holds(stitch)`;
// it returns whether to continue with the next stitch (true), or after this stretch (false).
template <typename Holds, typename Visitor>
void VisitWindows(const std::vector<int>& line, int length, Holds holds, Visitor visit) {
  int count = 0;
  for (size_t i = 0; i < line.size(); ++i) {
    if (!holds(line[i])) {
      count = 0;
      continue;
    }
    if (++count < length) continue;
    const auto size = static_cast<size_t>(length);
    if (!visit(std::span<const int>(line.data() + i + 1 - size, size))) {
      // The visitor has changed what holds: count again from behind.
      count = 0;
      while (count < length && count <= static_cast<int>(i) &&
             holds(line[i - static_cast<size_t>(count)])) {
        ++count;
      }
      ROWPROOF_CHECK(count < length);
    }
  }
}

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_ROW_WINDOWS_H_
