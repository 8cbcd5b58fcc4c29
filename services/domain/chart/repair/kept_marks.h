// The exact choice of the marks that stay when a chart is mended; see repair.h for the proof.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_KEPT_MARKS_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_KEPT_MARKS_H_

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/chart/marks.h"
#include "services/domain/chart/repair/mark_limits.h"

namespace rowproof::chart {

// Walks up the rows of a chart and gives, row by row, the marks to take away. The design must
// outlive it and hold no foreign colours (mark_limits.h). Bit-parallel over 64 columns.
class MarkRemover {
 public:
  explicit MarkRemover(const Design& design);

  int64_t Count() const;
  // Calls `visit(row, removed)` for every row from 1 with the words of the marks to take away.
  template <typename Visitor>
  void Visit(Visitor visit) const {
    Walk walk;
    for (int row = 1; row <= design_.cells.rows(); ++row) {
      Step(row, drop_first_, drop_last_, walk);
      visit(row, std::span<const uint64_t>(walk.removed.data(), words_));
    }
  }

 private:
  using Words = std::array<uint64_t, kMostWords>;
  struct Walk {
    Words kept{};
    Words removed{};
  };

  // One row up: `drop_first` and `drop_last` are removed in the band's first and last row.
  void Step(int row, const Words& drop_first, const Words& drop_last, Walk& walk) const;
  bool TakesAll(int row) const { return limits_.RowIsBarred(row); }
  // Decides, for the columns whose band's first and last rows clash, which of the two goes.
  void DecideSeam();

  const Design& design_;
  const Marks marks_;
  const MarkLimits limits_;
  size_t words_ = 0;
  Words edges_{};  // the stitches where no mark is allowed
  Words drop_first_{};
  Words drop_last_{};
};

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_KEPT_MARKS_H_
