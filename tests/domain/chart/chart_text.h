// Charts drawn as text in tests: the top row first, the left-most character the highest stitch.
#ifndef ROWPROOF_TESTS_DOMAIN_CHART_CHART_TEXT_H_
#define ROWPROOF_TESTS_DOMAIN_CHART_CHART_TEXT_H_

#include <string>
#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

// 'x' and 'B' are set cells, everything else is not.
inline Grid FromText(const std::vector<std::string>& lines) {
  const int rows = static_cast<int>(lines.size());
  const int stitches = static_cast<int>(lines.front().size());
  Grid grid(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    const std::string& line = lines[static_cast<size_t>(rows - row)];
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      const char c = line[static_cast<size_t>(stitches - stitch)];
      grid.set(row, stitch, c == 'x' || c == 'B');
    }
  }
  return grid;
}

inline std::vector<std::string> ToText(const Grid& grid) {
  std::vector<std::string> lines;
  for (int row = grid.rows(); row >= 1; --row) {
    std::string line;
    for (int stitch = grid.stitches(); stitch >= 1; --stitch) {
      line += grid.at(row, stitch) ? 'x' : '.';
    }
    lines.push_back(line);
  }
  return lines;
}

// A flat two-face spike chart with cut ends.
inline Design Picture(const std::vector<std::string>& lines) {
  Design design;
  design.cells = FromText(lines);
  return design;
}
inline Design Working(const std::vector<std::string>& lines) {
  Design design = Picture(lines);
  design.convention = Convention::kWorking;
  return design;
}

}  // namespace rowproof::chart

#endif  // ROWPROOF_TESTS_DOMAIN_CHART_CHART_TEXT_H_
