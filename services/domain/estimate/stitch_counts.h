// How many stitches of which kind each row colour has in one size, by counting bits of the chart as
// drawn and weighting them by the repeats: exact, and no dearer for more repeats. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_COUNTS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_COUNTS_H_

#include <array>
#include <cstdint>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/estimate/mark_counts.h"

namespace rowproof::estimate {

struct ColourCounts {
  int64_t plain = 0;   // the technique's plain stitches
  int64_t drops = 0;   // its drop stitches
  int64_t chains = 0;  // over skipped stitches: one more than each run has stitches
  int64_t chain_spaces = 0;
  int rows = 0;        // worked rows
  int chart_rows = 0;  // chart rows begun; inset works each twice
  // First and last worked row of the colour; 0 if it has none.
  int first_row = 0;
  int last_row = 0;
  bool operator==(const ColourCounts&) const = default;
};

struct ChartCounts {
  int stitches = 0;                                       // of the chart's rows
  int rows = 0;                                           // worked rows
  std::array<ColourCounts, chart::kMostColours> colours;  // indexed by chart::Colour
  bool operator==(const ChartCounts&) const = default;
};

// Counts the bits once, for all sizes. The design must be valid and outlive the counter.
class StitchCounter {
 public:
  explicit StitchCounter(const chart::Design& design);

  // Worked rows 1..last_row of a size (index into design.sizes), 1 <= last_row <= its worked rows.
  // An off-colour cell in a picture's last row is worked nowhere; it does not count. A stitch is
  // skipped in its row even if the row above was not worked. A stitch that is both a drop and
  // skipped (which cannot be worked) counts as skipped. Time O(chart rows).
  ChartCounts Count(int size, int last_row) const;

 private:
  // Occurrences of one chart row at expanded rows first, first + step, ..., all with the same
  // neighbours and colours.
  struct Run {
    int chart_row = 0;
    int below = 0;  // chart rows beside it; 0: none
    int above = 0;
    int first = 0;
    int step = 0;
    int count = 0;
    chart::Colour colour = chart::Colour::kA;
    chart::Colour colour_below = chart::Colour::kA;
  };

  std::vector<Run> RunsUpTo(int row_repeats, int last_row) const;
  void AddBandRow(int chart_row, int row_repeats, int last_row, std::vector<Run>& runs) const;
  chart::Colour ColourOf(int chart_row, int expanded_row) const;
  // A picture row's cells that the row above covers.
  MarkCounts::Marks OffColour(int chart_row, chart::Colour colour) const;

  const chart::Design& design_;
  const bool skips_;
  const int worked_rows_;  // a chart row
  const MarkCounts marks_;
};

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_STITCH_COUNTS_H_
