#include "services/domain/chart/check/edges.h"

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

// From which even columns a chart row's cell differs, bit i for column i: as it is, and with its
// other value.
struct CellDifferences {
  uint16_t as_is = 0;
  uint16_t other = 0;
};

// One column in one order of rows.
class ColumnDifferences {
 public:
  ColumnDifferences(const Design& design, const Marks& marks, const RowOrder& order, int stitch)
      : sizes_(order.sizes),
        looked_at_(FactsOf(design.technique).edges == EdgeRule::kPlain ? 1 : kEvenColumns),
        of_row_(static_cast<size_t>(design.cells.rows())) {
    const size_t above = design.convention == Convention::kPicture ? 1 : 0;
    const auto& rows = order.chart_rows;
    std::array<bool, kMostColours> met{};  // a row of the colour
    for (size_t drop = 0; drop < rows.size(); ++drop) {
      const auto colour = static_cast<size_t>(RowColour(design, rows[drop]));
      // Which even columns have a drop here, as bits.
      const unsigned with_drop = met[colour] ? 2U << colour : 0U;
      met[colour] = true;
      if (drop < above) continue;  // no mark of a picture is worked in its first row
      const int row = rows[drop - above];
      const unsigned here = marks.row(row).at(stitch) ? kAllColumns : 0U;
      CellDifferences& cell = of_row_[static_cast<size_t>(row - 1)];
      cell.as_is |= static_cast<uint16_t>(here ^ with_drop);
      cell.other |= static_cast<uint16_t>(here ^ with_drop ^ kAllColumns);
    }
    for (const CellDifferences& cell : of_row_) {
      for (size_t i = 0; i < kEvenColumns; ++i) count_[i] += cell.as_is >> i & 1;
    }
  }

  SizeSet sizes() const { return sizes_; }
  bool Uneven(size_t index) const { return (of_row_[index].as_is >> Fewest(count_) & 1) != 0; }
  bool UnevenWithOther(size_t index) const {
    const CellDifferences& cell = of_row_[index];
    auto count = count_;
    for (size_t i = 0; i < kEvenColumns; ++i)
      count[i] += (cell.other >> i & 1) - (cell.as_is >> i & 1);
    return (cell.other >> Fewest(count) & 1) != 0;
  }

 private:
  using Counts = std::array<int, kEvenColumns>;
  size_t Fewest(const Counts& count) const {
    return static_cast<size_t>(std::min_element(count.begin(), count.begin() + looked_at_) -
                               count.begin());
  }

  SizeSet sizes_;
  std::ptrdiff_t looked_at_;
  std::vector<CellDifferences> of_row_;
  Counts count_{};
};

void AddFaults(const Design& design, const RowStructure& structure, int stitch,
               std::vector<EdgeFault>& faults) {
  const Marks marks(design);
  if (!AnyMark(marks, design.cells.rows(), stitch)) return;
  std::vector<ColumnDifferences> orders;
  for (const RowOrder& order : structure.orders) {
    orders.emplace_back(design, marks, order, stitch);
  }
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const auto index = static_cast<size_t>(row - 1);
    EdgeFault fault{row, stitch, 0, true};
    for (const auto& order : orders) {
      if (order.Uneven(index)) fault.sizes |= order.sizes();
    }
    if (fault.sizes == 0) continue;
    for (const auto& order : orders) fault.cell_mends &= !order.UnevenWithOther(index);
    faults.push_back(fault);
  }
}

}  // namespace

std::vector<EdgeFault> FindEdgeFaults(const Design& design, const RowStructure& structure) {
  std::vector<EdgeFault> faults;
  if (design.form == Form::kTube) return faults;
  const int last = design.cells.stitches();
  AddFaults(design, structure, 1, faults);
  if (last > 1) AddFaults(design, structure, last, faults);
  std::stable_sort(faults.begin(), faults.end(), [](const EdgeFault& one, const EdgeFault& other) {
    return one.row < other.row;
  });
  return faults;
}

}  // namespace rowproof::chart
