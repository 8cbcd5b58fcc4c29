// Rule 7: runs of drops in one row, across the seams of a repeated stitch band.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_RUNS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_RUNS_H_

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
  bool at_seam = false;  // not a run of the drawn chart that is long enough
  SizeSet sizes = 0;
};

// Finds runs of more than `longest` marks. Holds what the stitch band and the sizes decide.
class RunFinder {
 public:
  RunFinder(const Design& design, int longest);

  // False only where Find would return nothing; a few word operations.
  bool MayFind(const MarkRow& row) const;
  // Exact for every number of repeats: a run that fills the band grows with them, any other run
  // meets at most one seam.
  std::vector<Run> Find(const MarkRow& row) const;

 private:
  bool HasLongDrawnRun(const MarkRow& row) const;
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
