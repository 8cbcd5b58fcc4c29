#include "services/domain/chart/row_windows.h"

#include <algorithm>

#include "services/domain/chart/expand.h"
#include "services/domain/chart/unfold.h"

namespace rowproof::chart {

std::vector<std::vector<int>> LinesOfStitches(const Design& design, int length) {
  std::vector<std::vector<int>> lines;
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    if (ExpandedStitches(design, static_cast<int>(i)) < length) continue;
    int repeats = design.sizes[i].stitch_repeats;
    if (design.stitch_band.has_value()) {
      // So many that a stretch meets one end of the band at most, and one band more.
      repeats = std::min(repeats, length / design.stitch_band->length() + 2);
    }
    std::vector<int> line = Unfold(design.cells.stitches(), design.stitch_band, repeats);
    if (design.form == Form::kTube) {
      for (int k = 0; k + 1 < length; ++k) line.push_back(line[static_cast<size_t>(k)]);
    }
    if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
  }
  return lines;
}

}  // namespace rowproof::chart
