// edge-drop and edge-skip: the first and last stitch of a flat chart.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_EDGES_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_EDGES_H_

#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/row_order.h"

namespace rowproof::chart {

// A cell of an edge column that makes the column uneven, in the sizes named.
struct EdgeFault {
  int row = 0;
  int stitch = 0;
  SizeSet sizes = 0;
  // The other value of this cell alone ends the fault at this cell, in every size.
  bool cell_mends = false;
};

// By row, then stitch; none for a tube. An edge column holds no drop, or a drop in every row of one
// colour from that colour's second row on and none in the others'. The faults are the cells in
// which it differs from the one of these columns that it differs from in the fewest chart rows
// (with equals: no drop before A's column before B's and so on). If no drops are allowed, every
// drop.
std::vector<EdgeFault> FindEdgeFaults(const Design& design, const RowStructure& structure);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_EDGES_H_
