// Rule 7: runs of drops in one row, across the seams of a repeated stitch band.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_RUNS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_RUNS_H_

#include <array>
#include <cstdint>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/marks.h"
#include "services/domain/chart/row_order.h"

namespace rowproof::chart {

// A longest unbroken run in chart stitches; `last` lies before `first` where it runs on from the
// band's last stitch to its first.
struct Run {
  int first = 0;
  int last = 0;
  bool at_seam = false;  // too long only because a repetition follows another
  SizeSet sizes = 0;
};

// Finds runs of more than `longest` marks. Holds what the stitch band and the sizes decide.
class RunFinder {
 public:
  RunFinder(const Design& design, int longest);

  // Replaces what `runs` holds. Exact for every number of repeats: a run that fills the band grows
  // with them, any other run meets at most one seam.
  void Find(const MarkRow& row, std::vector<Run>& runs) const;

 private:
  // Bit s-1 is set where more than `longest` marks in a line start at stitch s of the drawn chart.
  // The word after the row's last is zero.
  using Starts = std::array<uint64_t, kMostWords + 1>;
  // Returns whether there is any.
  bool FindStarts(const MarkRow& row, Starts& starts) const;
  void AddDrawnRuns(const MarkRow& row, std::vector<Run>& runs) const;
  void AddSeamRun(const MarkRow& row, std::vector<Run>& runs) const;
  // Marks in an unbroken row from `stitch` on, upwards to `end` or downwards to `end`.
  static int CountUp(const MarkRow& row, int stitch, int end);
  static int CountDown(const MarkRow& row, int stitch, int end);

  int stitches_ = 0;
  int longest_ = 0;
  Band band_;  // meant only where seam_sizes_ is not empty
  SizeSet all_sizes_ = 0;
  SizeSet seam_sizes_ = 0;
  std::vector<int> repeats_;  // by size
};

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_RUNS_H_
