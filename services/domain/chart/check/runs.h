// Rules 7 and 8: runs of drops in one row, across the seams of a repeated stitch band and the join
// of a tube.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_RUNS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_RUNS_H_

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/design.h"
#include "services/domain/chart/marks.h"
#include "services/domain/chart/row_order.h"

namespace rowproof::chart {

// A longest unbroken run in chart stitches; `last` is before `first` if it continues from the
// band's last stitch to its first, or from the round's last stitch to its first.
struct Run {
  int first = 0;
  int last = 0;
  Seam seam = Seam::kNone;  // if it is too long only because stitches are neighbours there
  SizeSet sizes = 0;
};

// Finds runs of more than `longest` marks. Holds what the stitch band, the form and the sizes
// decide.
class RunFinder {
 public:
  RunFinder(const Design& design, int longest);

  // Replaces what `runs` holds. Exact for every number of repeats: a run that fills the band grows
  // with them, any other run meets at most one seam.
  void Find(const MarkRow& row, std::vector<Run>& runs) const;

  // How many runs Find would find, if all are inside the drawn chart; none if seams or a join have
  // to be examined.
  std::optional<int64_t> CountDrawn(const MarkRow& row) const;

  // A marked stitch of the run (one that Find found in this row) without which no run that is too
  // long covers any of its stitches, in any of `sizes`: the middle one, or else the nearest to the
  // run's start; 0 if there is none.
  int StitchThatBreaks(const MarkRow& row, const Run& run, SizeSet sizes) const;

 private:
  // Bit s-1 is set where more than `longest` marks in a line start at stitch s of the drawn chart.
  // The word after the row's last is zero.
  using Starts = std::array<uint64_t, kMostWords + 1>;
  // Returns whether there is any.
  bool FindStarts(const MarkRow& row, Starts& starts) const;
  void AddDrawnRuns(const MarkRow& row, std::vector<Run>& runs) const;
  void AddDrawnRunAt(const MarkRow& row, int stitch, std::vector<Run>& runs) const;
  void AddSeamRun(const MarkRow& row, std::vector<Run>& runs) const;
  void AddFilledBandRun(const MarkRow& row, std::vector<Run>& runs) const;
  bool Joined(const MarkRow& row) const;
  void JoinEnds(const MarkRow& row, std::vector<Run>& runs) const;
  Run JoinedRun(const MarkRow& row) const;
  bool Breaks(const MarkRow& without, const Run& run, int stitch, SizeSet sizes) const;
  // Whether the two share a stitch.
  bool Overlap(const Run& one, const Run& other) const;
  // Sizes in which a run of so many drawn stitches, the band among them or not, is too long.
  SizeSet TooLongIn(int drawn, bool with_band) const;
  // Marks in an unbroken row from `stitch` on, upwards to `end` or downwards to `end`.
  static int CountUp(const MarkRow& row, int stitch, int end);
  static int CountDown(const MarkRow& row, int stitch, int end);

  int stitches_ = 0;
  int longest_ = 0;
  bool tube_ = false;
  Band band_;  // meant only if seam_sizes_ is not empty
  SizeSet all_sizes_ = 0;
  SizeSet seam_sizes_ = 0;
  std::vector<int> repeats_;  // by size
};

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_RUNS_H_
