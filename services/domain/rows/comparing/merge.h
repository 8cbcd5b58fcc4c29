// One finding for the same fault in several rows and sizes. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_MERGE_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_MERGE_H_

#include <map>
#include <tuple>
#include <vector>

#include "services/domain/rows/comparing/size.h"

namespace rowproof::rows {

class FaultMerger {
 public:
  // The faults of one size, sizes ascending. `chart` is that size's.
  void AddSize(const ChartRows& chart, const std::vector<RowFault>& faults);

  // Errors first, then by row, stitch and code; all of them, without corrected rows.
  std::vector<ComparisonFinding> Take();

 private:
  // Code, line, line of the steps, chart row, stitch, last stitch, and which of those alike.
  using Key = std::tuple<ComparisonCode, int, int, int, int, int, int>;

  void Add(ComparisonFinding finding, int source, std::map<Key, int>& met);

  std::vector<ComparisonFinding> findings_;
  std::map<Key, size_t> by_key_;  // index of findings_
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_MERGE_H_
