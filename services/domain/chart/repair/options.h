// What a repair has to keep to, besides the workability rules.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_OPTIONS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_OPTIONS_H_

#include <cstdint>

#include "services/domain/chart/grid.h"

namespace rowproof::chart {

// Work that a repair with a limit on runs may cost, in entries of its tables: a second or
// a few.
inline constexpr int64_t kRepairSteps = 100'000'000;
inline constexpr int64_t kMostRepairSteps = 1'000'000'000;

// Symmetries are of the picture: each cell shows the colour that its image shows, in every size
// with its bands repeated. In each convention an off-colour cell (drop) has its image in an
// off-colour cell (drop) of the same colour: the image of row r is row R+1-r in a picture of R
// rows, and row R+3-r in a working chart, since a drop shows in the row below it. Two of the three
// make the third.
struct RepairOptions {
  bool left_right = false;     // mirrored: stitch s is as stitch S+1-s
  bool top_to_bottom = false;  // mirrored: each row is as the one as far from the other end
  bool half_turn = false;      // turned by 180 degrees: both at once
  // Set cells keep the value they have; of the chart's rows and stitches, or empty: none.
  Grid locked = Grid();
  // Longest run of marks in a row of any size, as a hard limit for loose-strand, long-skip and
  // loose-flap (the first and last stitch of a tube are neighbours); 0: no limit.
  int longest_run = 0;
  int64_t most_steps = kRepairSteps;  // at least 0; looked at with longest_run only

  bool symmetric() const { return left_right || top_to_bottom || half_turn; }
  bool any() const { return symmetric() || !locked.empty() || longest_run > 0; }
};

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_OPTIONS_H_
