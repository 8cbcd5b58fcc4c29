#include "services/domain/chart/edges.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "services/domain/chart/marks.h"
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

bool AnyMark(const Design& design, int stitch) {
  for (int row = 1; row <= design.cells.rows(); ++row) {
    if (MarksOf(design, row).at(stitch)) return true;
  }
  return false;
}

// Chart rows in which the column differs from: no drop, A's column, B's column.
using Differences = std::array<std::vector<int>, 3>;

Differences DifferencesOf(const Design& design, const RowOrder& order, int stitch) {
  Differences differences;
  const size_t above = design.convention == Convention::kPicture ? 1 : 0;
  const auto& rows = order.chart_rows;
  std::array<bool, 2> met = {false, false};  // a row of colour A, B
  for (size_t drop = 0; drop < rows.size(); ++drop) {
    const auto colour = static_cast<size_t>(RowColour(design, rows[drop]));
    const bool later = met[colour];
    met[colour] = true;
    if (drop < above) continue;  // no mark of a picture is worked in its first row
    const int row = rows[drop - above];
    const bool marked = MarksOf(design, row).at(stitch);
    if (marked) differences[0].push_back(row);
    if (marked != (later && colour == 0)) differences[1].push_back(row);
    if (marked != (later && colour == 1)) differences[2].push_back(row);
  }
  for (auto& list : differences) {
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  }
  return differences;
}

}  // namespace

std::vector<EdgeFault> FindEdgeFaults(const Design& design, const RowStructure& structure) {
  std::vector<EdgeFault> faults;
  if (design.form == Form::kTube) return faults;
  const int last = design.cells.stitches();
  const bool column_allowed = FactsOf(design.technique).edges == EdgeRule::kPlainOrColumn;
  for (int stitch = 1; stitch <= last; stitch = stitch < last ? last : last + 1) {
    if (!AnyMark(design, stitch)) continue;
    std::vector<SizeSet> uneven(static_cast<size_t>(design.cells.rows()), 0);
    for (const RowOrder& order : structure.orders) {
      const Differences differences = DifferencesOf(design, order, stitch);
      const auto fewest = std::min_element(
          differences.begin(), differences.end(),
          [](const auto& one, const auto& other) { return one.size() < other.size(); });
      for (const int row : column_allowed ? *fewest : differences[0]) {
        uneven[static_cast<size_t>(row - 1)] |= order.sizes;
      }
    }
    for (int row = 1; row <= design.cells.rows(); ++row) {
      const SizeSet sizes = uneven[static_cast<size_t>(row - 1)];
      if (sizes != 0) faults.push_back({row, stitch, sizes});
    }
  }
  std::sort(faults.begin(), faults.end(), [](const EdgeFault& one, const EdgeFault& other) {
    return std::tie(one.row, one.stitch) < std::tie(other.row, other.stitch);
  });
  return faults;
}

}  // namespace rowproof::chart
