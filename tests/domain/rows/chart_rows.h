// Charts drawn as text, and the lines that are written of them.
#ifndef ROWPROOF_TESTS_DOMAIN_ROWS_CHART_ROWS_H_
#define ROWPROOF_TESTS_DOMAIN_ROWS_CHART_ROWS_H_

#include <string>
#include <vector>

#include "gtest/gtest.h"
#include "services/domain/chart/design.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {

// Rows top first as a designer sees them, stitch 1 at the right; 'x' is a set cell.
inline chart::Grid Cells(const std::vector<std::string>& top_first) {
  chart::Grid grid(static_cast<int>(top_first.size()), static_cast<int>(top_first[0].size()));
  for (int row = 1; row <= grid.rows(); ++row) {
    const std::string& line = top_first[static_cast<size_t>(grid.rows() - row)];
    for (int stitch = 1; stitch <= grid.stitches(); ++stitch) {
      grid.set(row, stitch, line[static_cast<size_t>(grid.stitches() - stitch)] == 'x');
    }
  }
  return grid;
}

inline chart::Design Working(const std::vector<std::string>& top_first) {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.cells = Cells(top_first);
  return design;
}

// Headings and lines.
inline std::vector<std::string> Texts(const chart::Design& design,
                                      const WriterSettings& settings = {}) {
  const auto pattern = WriteRows(design, settings);
  EXPECT_TRUE(pattern.ok()) << pattern.status();
  std::vector<std::string> texts;
  if (!pattern.ok()) return texts;
  for (const WrittenRow& row : pattern->rows) {
    if (!row.heading.empty()) texts.push_back(row.heading);
    texts.push_back(row.text);
  }
  return texts;
}

}  // namespace rowproof::rows

#endif  // ROWPROOF_TESTS_DOMAIN_ROWS_CHART_ROWS_H_
