#include "services/domain/rows/comparing/merge.h"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <utility>

namespace rowproof::rows {
namespace {

// What the whole text has in common: one finding, whatever the lines.
bool IsOfWholeText(ComparisonCode code) {
  switch (code) {
    case ComparisonCode::kWrongEdge:
    case ComparisonCode::kMixedTerms:
    case ComparisonCode::kColoursExchanged:
    case ComparisonCode::kNoStatedCount:
    case ComparisonCode::kOtherChains:
      return true;
    default:
      return false;
  }
}

// Whether the line that names the row has the fault; else the one whose steps it works.
bool IsOfLine(ComparisonCode code) {
  return !IsStitchFault(code) || code == ComparisonCode::kReadsAsOtherRow;
}

// Faults of one size with equal keys are one finding.
using RowKey = std::tuple<ComparisonCode, int, int, int, int, int, std::string, std::string>;

RowKey KeyOf(ComparisonCode code, int by) { return {code, by, 0, 0, 0, 0, "", ""}; }

// What neighbouring rows have in common: one finding a run of rows.
bool IsOfRun(ComparisonCode code) {
  return code == ComparisonCode::kMissingRow || code == ComparisonCode::kSideLeftOut ||
         code == ComparisonCode::kColourLeftOut;
}

RowKey KeyOf(const RowFault& fault, int run) {
  if (IsOfRun(fault.code)) return KeyOf(fault.code, run);
  switch (fault.code) {
    case ComparisonCode::kRowTooMany:
    case ComparisonCode::kDoubledRow:
    case ComparisonCode::kMisplacedRow:
      return KeyOf(fault.code, fault.line);
    case ComparisonCode::kRowsShifted:
      return KeyOf(fault.code, fault.source);
    default:
      if (IsOfWholeText(fault.code)) return KeyOf(fault.code, 0);
  }
  // By the other row's distance: of a block that is repeated the numbers differ, the fault does
  // not.
  const int other = fault.other_row > 0 ? fault.other_row - fault.number : 0;
  return {fault.code,
          IsOfLine(fault.code) ? fault.line : fault.source,
          fault.stitch,
          fault.last_stitch,
          fault.off_by,
          other,
          other == 0 ? fault.text_says : "",
          other == 0 ? fault.chart_says : ""};
}

ComparisonFinding FindingOf(const RowFault& fault, const ChartRows& chart) {
  ComparisonFinding finding;
  finding.code = fault.code;
  finding.severity = fault.severity;
  finding.sizes = {chart.size()};
  finding.row = fault.number;
  finding.chart_row = fault.worked > 0 ? chart.chart_row(fault.worked) : 0;
  finding.stitch = fault.stitch;
  finding.last_stitch = fault.last_stitch;
  finding.off_by = {fault.off_by};
  finding.other_row = fault.other_row;
  finding.line = fault.line;
  finding.at = fault.at;
  finding.text_says = fault.text_says;
  finding.chart_says = fault.chart_says;
  return finding;
}

auto OrderOf(const ComparisonFinding& finding) {
  return std::make_tuple(-static_cast<int>(finding.severity), finding.row, finding.stitch,
                         static_cast<int>(finding.code), finding.at.line, finding.at.column);
}

}  // namespace

void FaultMerger::AddSize(const ChartRows& chart, const std::vector<RowFault>& faults) {
  std::map<RowKey, size_t> by_key;                      // index of here
  std::vector<std::pair<ComparisonFinding, int>> here;  // with the line of the steps
  std::map<ComparisonCode, std::pair<int, int>> runs;   // first row of the present run, last row
  for (const RowFault& fault : faults) {
    int run = 0;
    if (IsOfRun(fault.code)) {
      auto& [first, last] = runs[fault.code];
      if (fault.worked != last + 1) first = fault.worked;
      last = fault.worked;
      run = first;
    }
    const auto [found, added] = by_key.try_emplace(KeyOf(fault, run), here.size());
    if (added) here.emplace_back(FindingOf(fault, chart), fault.source);
    here[found->second].first.rows.push_back(fault.number);
  }
  std::map<Key, int> met;
  for (auto& [finding, source] : here) {
    std::sort(finding.rows.begin(), finding.rows.end());
    finding.rows.erase(std::unique(finding.rows.begin(), finding.rows.end()), finding.rows.end());
    // What the whole text has in common has no stitch.
    if (finding.rows.size() > 1 && IsOfWholeText(finding.code)) {
      finding.stitch = 0;
      finding.last_stitch = 0;
    }
    Add(std::move(finding), source, met);
  }
}

// The same code at the same line and stitch is the same finding in another size; what it says, and
// by how much it is off, may differ.
void FaultMerger::Add(ComparisonFinding finding, int source, std::map<Key, int>& met) {
  Key key{finding.code,   finding.line,        source, finding.chart_row,
          finding.stitch, finding.last_stitch, 0};
  std::get<6>(key) = met[key]++;
  const auto [found, added] = by_key_.try_emplace(key, findings_.size());
  if (added) {
    findings_.push_back(std::move(finding));
    return;
  }
  ComparisonFinding& known = findings_[found->second];
  known.sizes.push_back(finding.sizes.back());
  known.off_by.push_back(finding.off_by.back());
}

std::vector<ComparisonFinding> FaultMerger::Take() {
  std::stable_sort(findings_.begin(), findings_.end(),
                   [](const ComparisonFinding& a, const ComparisonFinding& b) {
                     return OrderOf(a) < OrderOf(b);
                   });
  by_key_.clear();
  return std::move(findings_);
}

}  // namespace rowproof::rows
