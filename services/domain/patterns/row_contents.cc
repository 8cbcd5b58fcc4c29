#include "services/domain/patterns/row_contents.h"

#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/domain/patterns/row_alignment.h"

namespace rowproof::patterns {
namespace {

RowContents AsChartRows(const chart::Design& design, chart::ExpandedSize expanded) {
  RowContents contents;
  const int rows = expanded.drops.rows();
  const bool skips = chart::FactsOf(design.technique).skips;
  contents.rows.reserve(static_cast<size_t>(rows));
  for (int row = 1; row <= rows; ++row) {
    contents.rows.push_back({row, skips && row < rows ? row + 1 : 0,
                             expanded.row_colours[static_cast<size_t>(row - 1)],
                             chart::SideOfRow(design, row)});
  }
  contents.stitches = std::move(expanded.drops);
  return contents;
}

}  // namespace

RowContents ChartRows(const chart::Design& design) {
  chart::Design drawn = design;
  drawn.sizes = {chart::Size{"as drawn", 1, 1}};
  return AsChartRows(drawn, chart::Expand(drawn, 0));
}

RowContents WorkedRows(const chart::Design& design, int size) {
  RowContents contents = AsChartRows(design, chart::Expand(design, size));
  if (design.technique != chart::Technique::kInset) return contents;
  std::vector<RowContents::Row> worked;
  worked.reserve(contents.rows.size() * 2);
  for (const RowContents::Row& row : contents.rows) {
    worked.push_back(row);
    worked.push_back({0, row.skips_row, row.colour, chart::Side::kWrongSide});
  }
  contents.rows = std::move(worked);
  return contents;
}

}  // namespace rowproof::patterns
