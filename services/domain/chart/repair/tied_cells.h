// Cells that have to change together, because a declared symmetry makes them each other's images.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_TIED_CELLS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_TIED_CELLS_H_

#include <cstdint>
#include <map>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/repair/options.h"
#include "services/domain/chart/repair/symmetry.h"
#include "services/domain/stop.h"

namespace rowproof::chart {

// Which cells of one column group are tied, as numbers of variables from 0; the variable of the
// lowest cell has the lowest number.
struct Ties {
  int variables = 0;
  // Index (row - 1) * (stitches of the group) + place of the stitch in the group.
  std::vector<int32_t> of_cell;
  std::vector<bool> without_image;  // by variable: a mark has no image in some size
};

// Stitches that ties join, ascending, and their cells' variables (of the group alone).
struct ColumnGroup {
  std::vector<int> stitches;
  const Ties* ties = nullptr;

  int32_t variable(int row, size_t place) const {
    return ties->of_cell[static_cast<size_t>(row - 1) * stitches.size() + place];
  }
};

// All column groups of a chart; without symmetries each column is one, each cell a variable. If the
// work has to stop, the groups are not whole. Not to be copied.
class TiedCells {
 public:
  TiedCells(const Design& design, const RepairOptions& options, const Stop& stop);
  TiedCells(const TiedCells&) = delete;
  TiedCells& operator=(const TiedCells&) = delete;

  const std::vector<ColumnGroup>& groups() const { return groups_; }

 private:
  // The pairs of a group's stitches in each of the images, as places in the group.
  using Shape = std::vector<std::vector<std::pair<int, int>>>;

  void JoinStitches(int stitches, const RepairOptions& options);
  Ties TiesOf(const Shape& shape, size_t width, const RepairOptions& options,
              const Stop& stop) const;

  int rows_ = 0;
  std::vector<Images> images_;
  std::vector<ColumnGroup> groups_;
  std::map<std::pair<size_t, Shape>, Ties> ties_;  // groups of one shape share theirs
};

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_TIED_CELLS_H_
