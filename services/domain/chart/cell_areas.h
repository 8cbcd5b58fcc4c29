// Rectangles of a chart's cells, as one set of cells.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CELL_AREAS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CELL_AREAS_H_

#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/grid.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

struct CellArea {
  Band rows;
  Band stitches;
};

// The cells that are in any of the areas, which lie within the chart. Time O(areas log areas +
// cells), however much the areas overlap; anything if the work has to stop.
Grid CellsOf(const std::vector<CellArea>& areas, int rows, int stitches, const Stop& stop);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CELL_AREAS_H_
