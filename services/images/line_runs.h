// Runs of a colour along the columns and lines of a picture.
#ifndef ROWPROOF_SERVICES_IMAGES_LINE_RUNS_H_
#define ROWPROOF_SERVICES_IMAGES_LINE_RUNS_H_

#include <cstdint>
#include <vector>

#include "services/images/picture.h"

namespace rowproof::images {

// The longest run of pixels for which `is_line` (by number in the palette) is not 0: of each column
// and of each line of the region, counted from its top left corner.
struct LongestRuns {
  std::vector<Span> of_columns;
  std::vector<Span> of_lines;
};
LongestRuns FindLongestRuns(const Picture& picture, const Region& region,
                            const std::vector<uint8_t>& is_line);

// The runs that most places share, of those at least a third as long as the longest: most pixels
// first, at most eight.
std::vector<Span> SharedRuns(const std::vector<Span>& runs);

// For each place 1 if its run covers `whole`.
std::vector<uint8_t> Covering(const std::vector<Span>& runs, Span whole);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_LINE_RUNS_H_
