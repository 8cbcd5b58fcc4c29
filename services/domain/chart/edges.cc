#include "services/domain/chart/edges.h"

#include <algorithm>
#include <array>

#include "services/domain/chart/marks.h"
#include "services/domain/chart/technique.h"

namespace rowproof::chart {
namespace {

bool AnyMark(const Marks& marks, int rows, int stitch) {
  for (int row = 1; row <= rows; ++row) {
    if (marks.row(row).at(stitch)) return true;
  }
  return false;
}

// The columns that are even: no drop, A's drops, B's drops and so on.
constexpr size_t kEvenColumns = 1 + kMostColours;
constexpr unsigned kAllColumns = (1U << kEvenColumns) - 1;

// In which chart rows a column differs from each even column, and in how many.
struct Differences {
  std::vector<uint16_t> of_row;  // bit i: even column i
  std::array<int, kEvenColumns> count{};
};

Differences DifferencesOf(const Design& design, const Marks& marks, const RowOrder& order,
                          int stitch) {
  Differences differences;
  differences.of_row.assign(static_cast<size_t>(design.cells.rows()), 0);
  const size_t above = design.convention == Convention::kPicture ? 1 : 0;
  const auto& rows = order.chart_rows;
  uint16_t* const of_row = differences.of_row.data();
  std::array<bool, kMostColours> met{};  // a row of the colour
  for (size_t drop = 0; drop < rows.size(); ++drop) {
    const auto colour = static_cast<size_t>(RowColour(design, rows[drop]));
    // Which even columns have a drop here, as bits.
    const unsigned with_drop = met[colour] ? 2U << colour : 0U;
    met[colour] = true;
    if (drop < above) continue;  // no mark of a picture is worked in its first row
    const int row = rows[drop - above];
    const unsigned here = marks.row(row).at(stitch) ? kAllColumns : 0U;
    of_row[row - 1] |= static_cast<uint16_t>(here ^ with_drop);
  }
  for (const unsigned columns : differences.of_row) {
    for (size_t i = 0; i < kEvenColumns; ++i) differences.count[i] += columns >> i & 1;
  }
  return differences;
}

// By chart row, the sizes in which the cell makes the column uneven; empty where nothing does.
std::vector<SizeSet> UnevenRows(const Design& design, const RowStructure& structure, int stitch) {
  const Marks marks(design);
  if (!AnyMark(marks, design.cells.rows(), stitch)) return {};
  const bool column_allowed = FactsOf(design.technique).edges == EdgeRule::kPlainOrColumn;
  std::vector<SizeSet> uneven(static_cast<size_t>(design.cells.rows()), 0);
  for (const RowOrder& order : structure.orders) {
    const Differences differences = DifferencesOf(design, marks, order, stitch);
    const auto& count = differences.count;
    const auto fewest = std::min_element(count.begin(), count.end()) - count.begin();
    const unsigned column = column_allowed ? 1U << fewest : 1U;
    for (size_t i = 0; i < uneven.size(); ++i) {
      if ((differences.of_row[i] & column) != 0) uneven[i] |= order.sizes;
    }
  }
  return uneven;
}

}  // namespace

std::vector<EdgeFault> FindEdgeFaults(const Design& design, const RowStructure& structure) {
  std::vector<EdgeFault> faults;
  if (design.form == Form::kTube) return faults;
  const int last = design.cells.stitches();
  const auto at_first = UnevenRows(design, structure, 1);
  const auto at_last = last > 1 ? UnevenRows(design, structure, last) : std::vector<SizeSet>();
  if (at_first.empty() && at_last.empty()) return faults;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const auto index = static_cast<size_t>(row - 1);
    if (!at_first.empty() && at_first[index] != 0) faults.push_back({row, 1, at_first[index]});
    if (!at_last.empty() && at_last[index] != 0) faults.push_back({row, last, at_last[index]});
  }
  return faults;
}

}  // namespace rowproof::chart
