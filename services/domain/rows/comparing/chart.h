// The chart's rows of one size, as written rows are compared with them.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_CHART_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_CHART_H_

#include <cstdint>
#include <span>
#include <vector>

#include "absl/container/flat_hash_map.h"
#include "services/domain/chart/expand.h"
#include "services/domain/rows/index.h"
#include "services/domain/rows/text_expansion.h"
#include "services/domain/rows/writing/row_sequence.h"
#include "services/domain/stop.h"

namespace rowproof::rows {

// What a comparison may still cost: steps read and stitches looked at. Counted, not timed, so that
// the same text has the same outcome everywhere.
struct ComparisonWork {
  int64_t left = 0;
  const Stop* stop = nullptr;  // outlives it; none: never
  // Also if the work has to stop, which whoever passed the stop asks it.
  bool ran_out() const { return left < 0; }
  void Take(int64_t units) {
    left -= units;
    if (stop != nullptr && stop->After(units)) left = -1;
  }
};

// Worked rows count from 1. Runs are worked out when asked for and not kept. Not thread-safe.
class ChartRows {
 public:
  // All outlive it; `sequences` are the design's for this hand.
  ChartRows(const chart::Design& design, const RowSequences& sequences, int size, chart::Hand hand,
            ComparisonWork& work);

  int count() const { return static_cast<int>(sequences_.rows[Index(size_)].size()); }
  int stitches() const { return expanded_.drops.stitches(); }
  int size() const { return size_; }
  chart::Hand hand() const { return hand_; }
  const chart::Design& design() const { return design_; }
  int number(int worked) const { return worked + design_.first_row_number - 1; }
  int worked(int number) const { return number - design_.first_row_number + 1; }
  bool has(int worked) const { return worked >= 1 && worked <= count(); }
  int chart_row(int worked) const { return sequences_.chart_rows[Index(size_)][Index(worked - 1)]; }
  const RowKind& kind(int worked) const {
    return sequences_.kinds[Index(sequences_.rows[Index(size_)][Index(worked - 1)])];
  }
  // Rows of one content have the same stitches in working order; -1: the foundation's.
  int content(int worked) const { return worked < 1 ? -1 : kind(worked).content; }
  bool ascending(int worked) const {
    return chart::WorkedRowStartsAtStitchOne(design_, worked, hand_);
  }
  // Whether the row below is worked from its other end.
  bool turned(int worked) const { return worked > 1 && ascending(worked) != ascending(worked - 1); }

  // The row's stitches in working order as runs of kPlain, kDrop and chain spaces; and those of the
  // row below as the row meets them (row 1: none, a foundation is only stitches).
  std::vector<WorkedRun> runs(int worked);
  std::vector<WorkedRun> below(int worked);

  // The worked row nearest to this one, and not it, that has these stitches; 0: none.
  int NearestWith(std::span<const WorkedRun> runs, int worked);

  // The chart's stitch of a stitch in working order (both from 1; past the end: the last).
  int stitch(int worked, int place) const;

 private:
  const chart::Design& design_;
  const RowSequences& sequences_;
  int size_;
  chart::Hand hand_;
  ComparisonWork& work_;
  chart::ExpandedSize expanded_;
  // Worked rows, ascending, by a digest of their runs; made when first needed.
  absl::flat_hash_map<uint64_t, std::vector<int>> with_digest_;
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_CHART_H_
