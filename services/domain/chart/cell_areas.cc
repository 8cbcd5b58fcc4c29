#include "services/domain/chart/cell_areas.h"

#include <algorithm>
#include <cstddef>

namespace rowproof::chart {
namespace {

// Where an area begins, or has ended.
struct Change {
  int row = 0;
  int stitch = 0;
  int areas = 0;  // more from here on, towards the left edge
};

std::vector<Change> ChangesOf(const std::vector<CellArea>& areas) {
  std::vector<Change> changes;
  changes.reserve(4 * areas.size());
  for (const CellArea& area : areas) {
    const int after = area.rows.last + 1;
    changes.push_back({area.rows.first, area.stitches.first, 1});
    changes.push_back({area.rows.first, area.stitches.last + 1, -1});
    changes.push_back({after, area.stitches.first, -1});
    changes.push_back({after, area.stitches.last + 1, 1});
  }
  std::sort(changes.begin(), changes.end(),
            [](const Change& a, const Change& b) { return a.row < b.row; });
  return changes;
}

}  // namespace

Grid CellsOf(const std::vector<CellArea>& areas, int rows, int stitches, const Stop& stop) {
  Grid cells(rows, stitches);
  std::vector<int> changed(static_cast<size_t>(stitches) + 2);  // by stitch, in the present row
  const std::vector<Change> changes = ChangesOf(areas);
  auto change = changes.begin();
  for (int row = 1; row <= rows && !stop.After(stitches); ++row) {
    for (; change != changes.end() && change->row == row; ++change) {
      changed[static_cast<size_t>(change->stitch)] += change->areas;
    }
    int covering = 0;
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      covering += changed[static_cast<size_t>(stitch)];
      if (covering > 0) cells.set(row, stitch, true);
    }
  }
  return cells;
}

}  // namespace rowproof::chart
