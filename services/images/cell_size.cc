#include "services/images/cell_size.h"

#include <algorithm>
#include <numeric>

#include "services/images/axis_fit.h"

namespace rowproof::images {
namespace {

// One axis: what its changes say of the cells' side.
struct Axis {
  int side = 0;
  int common_distance = 0;
  bool has_single_cells = false;
  bool has_many_changes = false;
};

Axis AxisOf(const std::vector<int>& changes, int length) {
  // By chance, all changes are at every other cell in one case in 2^8.
  constexpr size_t kManyChanges = 8;
  Axis axis;
  axis.side = length;
  for (const int change : changes) axis.side = std::gcd(axis.side, change);
  axis.common_distance = CommonDistance(changes);
  axis.has_single_cells = LeastDistance(changes) == axis.side;
  axis.has_many_changes = changes.size() >= kManyChanges;
  return axis;
}

CellSize Square(int side, bool certain) { return {side, side, certain}; }

}  // namespace

int LeastDistance(const std::vector<int>& changes) {
  int least = 0;
  for (size_t i = 1; i < changes.size(); ++i) {
    const int distance = changes[i] - changes[i - 1];
    if (least == 0 || distance < least) least = distance;
  }
  return least;
}

int CommonDistance(const std::vector<int>& changes) {
  int distance = 0;
  for (size_t i = 1; i < changes.size(); ++i) {
    distance = std::gcd(distance, changes[i] - changes[i - 1]);
  }
  return distance;
}

CellSize FindCellSize(const Changes& changes, const Region& region) {
  if (changes.empty()) return Square(1, false);
  const Axis x = AxisOf(changes.columns, region.x.length());
  const Axis y = AxisOf(changes.lines, region.y.length());
  const int common = std::gcd(x.side, y.side);
  const bool from_the_sides = x.common_distance <= x.side || y.common_distance <= y.side;
  const int shorter = std::min(x.side, y.side);
  const int longer = std::max(x.side, y.side);
  if (shorter < kNarrowestFoundCell) return Square(common, from_the_sides);
  if (x.side == y.side) return Square(common, from_the_sides);
  if (longer % shorter == 0 || changes.columns.empty() || changes.lines.empty() ||
      x.common_distance > x.side || y.common_distance > y.side) {
    return Square(common, false);
  }
  const bool certain = 3 * longer <= 4 * shorter && x.has_single_cells && y.has_single_cells &&
                       x.has_many_changes && y.has_many_changes;
  return {x.side, y.side, certain};
}

}  // namespace rowproof::images
