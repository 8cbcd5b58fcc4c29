// How many stitches of which kind each row colour has in one size, by counting bits of the chart as
// drawn and weighting them by the repeats: exact, and no dearer for more repeats. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_COUNTS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_COUNTS_H_

#include <array>
#include <cstdint>
#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::estimate {

struct ColourCounts {
  int64_t plain = 0;
  int64_t drops = 0;
  int rows = 0;
  // First and last expanded row of the colour; 0 where it has none.
  int first_row = 0;
  int last_row = 0;
  bool operator==(const ColourCounts&) const = default;
};

struct ChartCounts {
  int stitches = 0;
  int rows = 0;
  std::array<ColourCounts, 2> colours;  // indexed by chart::Colour
  bool operator==(const ChartCounts&) const = default;
};

// Counts the bits once, for all sizes. The design must be valid and outlive the counter.
class StitchCounter {
 public:
  explicit StitchCounter(const chart::Design& design);

  // Rows 1..last_row of a size (index into design.sizes), 1 <= last_row <= its rows. An off-colour
  // cell in a picture's last row is worked nowhere; it does not count. Time O(chart rows).
  ChartCounts Count(int size, int last_row) const;

 private:
  // Occurrences of one chart row at expanded rows first, first + step, ...; all of one colour.
  struct Run {
    int chart_row = 0;
    int first = 0;
    int step = 0;
    int count = 0;
    chart::Colour colour = chart::Colour::kA;
  };
  struct SetCells {
    int in_row = 0;
    int in_band = 0;
  };

  std::vector<Run> RunsUpTo(int row_repeats, int last_row) const;
  int64_t SetCellsOf(int chart_row, int stitch_repeats) const;
  void AddPictureDrops(int size, int last_row, ChartCounts& counts) const;

  const chart::Design& design_;
  std::vector<SetCells> set_cells_;  // one a chart row
};

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_COUNTS_H_
