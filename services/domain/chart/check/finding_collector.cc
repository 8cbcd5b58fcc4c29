#include "services/domain/chart/check/finding_collector.h"

#include <algorithm>
#include <bit>
#include <tuple>
#include <utility>

namespace rowproof::chart {

void FindingCollector::AddCells(Finding finding, std::span<const uint64_t> mask) {
  int64_t count = 0;
  for (const uint64_t word : mask) count += std::popcount(word);
  Count(finding.code, finding.severity, count);
  if (Full(finding.severity)) return;
  Kind& kind = KindOf(finding.severity);
  for (size_t i = 0; i < mask.size(); ++i) {
    for (uint64_t word = mask[i]; word != 0; word &= word - 1) {
      finding.stitch = static_cast<int>(i * 64) + std::countr_zero(word) + 1;
      finding.last_stitch = finding.stitch;
      kind.of_row.push_back(finding);
    }
  }
}

void FindingCollector::EndRow() {
  const auto before = [](const Finding& one, const Finding& other) {
    return std::tie(one.stitch, one.code, one.last_stitch) <
           std::tie(other.stitch, other.code, other.last_stitch);
  };
  for (Kind& kind : kinds_) {
    if (kind.of_row.empty()) continue;
    // Mostly findings of one rule, in the order of their stitches.
    if (!std::is_sorted(kind.of_row.begin(), kind.of_row.end(), before)) {
      std::sort(kind.of_row.begin(), kind.of_row.end(), before);
    }
    if (kind.kept.empty()) kind.kept.reserve(static_cast<size_t>(kMostFindings));
    const size_t room = static_cast<size_t>(kMostFindings) - kind.kept.size();
    kind.of_row.resize(std::min(kind.of_row.size(), room));
    kind.kept.insert(kind.kept.end(), kind.of_row.begin(), kind.of_row.end());
    kind.of_row.clear();
  }
}

void FindingCollector::AddOfChart(const Finding& finding) {
  Count(finding.code, finding.severity, 1);
  auto& kept = KindOf(finding.severity).kept;
  const auto place =
      std::find_if(kept.begin(), kept.end(), [](const Finding& other) { return other.row != 0; });
  kept.insert(place, finding);
  kept.resize(std::min(kept.size(), static_cast<size_t>(kMostFindings)));
}

CheckResult FindingCollector::Take() && {
  CheckResult result;
  result.error_count = KindOf(Severity::kError).count;
  result.warning_count = KindOf(Severity::kWarning).count;
  result.note_count = KindOf(Severity::kNote).count;
  result.code_counts = code_counts_;
  for (const Severity severity : {Severity::kError, Severity::kWarning, Severity::kNote}) {
    auto& kept = KindOf(severity).kept;
    if (result.findings.empty()) {
      result.findings = std::move(kept);
      continue;
    }
    const size_t room = static_cast<size_t>(kMostFindings) - result.findings.size();
    const auto end = kept.begin() + static_cast<std::ptrdiff_t>(std::min(kept.size(), room));
    result.findings.insert(result.findings.end(), kept.begin(), end);
  }
  return result;
}

}  // namespace rowproof::chart
