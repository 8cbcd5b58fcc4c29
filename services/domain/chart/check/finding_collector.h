// Gathers findings row by row: counts all of them, keeps the first kMostFindings of each severity.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FINDING_COLLECTOR_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FINDING_COLLECTOR_H_

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "services/domain/chart/check/findings.h"

namespace rowproof::chart {

// Rows come in ascending order; within a row the order does not matter.
class FindingCollector {
 public:
  void Add(const Finding& finding) {
    Count(finding.code, finding.severity, 1);
    if (!Full(finding.severity)) KindOf(finding.severity).of_row.push_back(finding);
  }
  // One finding for each set bit of `mask`, a row's words; `finding` has all but the stitch.
  void AddCells(Finding finding, std::span<const uint64_t> mask);
  // Findings that need not be kept: no more of this severity are.
  void Count(FindingCode code, Severity severity, int64_t count) {
    KindOf(severity).count += count;
    code_counts_[static_cast<size_t>(code)] += count;
  }
  bool Full(Severity severity) const {
    return KindOf(severity).kept.size() >= static_cast<size_t>(kMostFindings);
  }
  // Call after each row.
  void EndRow();
  // After all rows: one of the chart as a whole (row 0), with the greatest code of these.
  void AddOfChart(const Finding& finding);
  // The result; leaves nothing behind.
  CheckResult Take() &&;

 private:
  struct Kind {
    int64_t count = 0;
    std::vector<Finding> kept;
    std::vector<Finding> of_row;
  };
  Kind& KindOf(Severity severity) { return kinds_[static_cast<size_t>(severity)]; }
  const Kind& KindOf(Severity severity) const { return kinds_[static_cast<size_t>(severity)]; }

  std::array<Kind, 3> kinds_;
  std::array<int64_t, kFindingCodes> code_counts_{};
};

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_FINDING_COLLECTOR_H_
