// Set cells of a chart's rows, counted once over the chart as drawn so that every size follows by
// arithmetic: counts, runs of neighbouring cells, and cells set in two rows that follow each other.
// A stitch band repeated n times adds the same to each of them n - 1 times. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ESTIMATE_MARK_COUNTS_H_
#define ROWPROOF_SERVICES_DOMAIN_ESTIMATE_MARK_COUNTS_H_

#include <cstdint>
#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::estimate {

// What a row has as drawn, and what each further repetition of the stitch band adds.
struct RepeatedCount {
  int drawn = 0;
  int added = 0;
  int64_t Times(int repeats) const { return drawn + int64_t{repeats - 1} * added; }
};

class MarkCounts {
 public:
  // Runs and overlaps are counted only if `with_runs` says so; asking for them is a bug
  // otherwise. The design must be valid and outlive the counts. O(cells / 64).
  MarkCounts(const chart::Design& design, bool with_runs);

  // A row's marks are its set cells or, inverted, the others. `stitches` are those of the size.
  struct Marks {
    int row = 0;  // of the chart, from 1
    bool inverted = false;
  };
  int64_t Count(Marks marks, int stitch_repeats, int64_t stitches) const;
  // Runs of marks that nothing lengthens: where two repetitions meet, a run that crosses is one.
  int64_t Runs(Marks marks, int stitch_repeats) const;
  // Stitches that are marks of both rows; `upper` is the chart row after `lower`, or the row band's
  // first after its last.
  int64_t Both(Marks lower, Marks upper, int stitch_repeats, int64_t stitches) const;

 private:
  struct Row {
    RepeatedCount set;
    RepeatedCount runs;
    RepeatedCount set_here_and_above;
    bool first_set = false;
    bool last_set = false;
  };
  const Row& At(int row) const { return rows_[static_cast<size_t>(row - 1)]; }
  void AddRuns(const chart::Design& design);

  std::vector<Row> rows_;
  RepeatedCount set_at_seam_;  // in the row band's last and first row
  int band_first_ = 0;
  int band_last_ = 0;
  bool with_runs_ = false;
};

}  // namespace rowproof::estimate

#endif  // ROWPROOF_SERVICES_DOMAIN_ESTIMATE_MARK_COUNTS_H_
