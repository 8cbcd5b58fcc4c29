#include <algorithm>
#include <map>

#include "fmt/format.h"
#include "services/usecases/sheets/sheets.h"

namespace rowproof::usecases {
namespace {

std::string Counted(int64_t count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

// "1 to 12, 40"; at most a few, since the sheet is for makers.
std::string RowRanges(const std::vector<faults::RowRange>& ranges, int first_row_number) {
  constexpr size_t kMost = 8;
  std::string words;
  for (size_t i = 0; i < std::min(ranges.size(), kMost); ++i) {
    const int first = ranges[i].first + first_row_number - 1;
    const int last = ranges[i].last + first_row_number - 1;
    words += (words.empty() ? "" : ", ") +
             (first == last ? std::to_string(first) : fmt::format("{} to {}", first, last));
  }
  if (ranges.size() > kMost) {
    words +=
        " and " + Counted(static_cast<int64_t>(ranges.size() - kMost), "more range", "more ranges");
  }
  return words;
}

std::string Finished(const CallEvidence& evidence) {
  std::map<std::string, int> finished;
  for (const auto& seat : evidence.seats) {
    finished[seat.size] += seat.state == testcalls::SeatState::kFinished ? 1 : 0;
  }
  std::string words;
  for (const chart::Size& size : evidence.present().design.sizes) {
    words += fmt::format("{}{} of {}", words.empty() ? "" : ", ", finished[size.name], size.name);
  }
  return words;
}

std::string HandsAndSources(const CallEvidence& evidence) {
  int left = 0;
  int chart_only = 0;
  int text_only = 0;
  for (const auto& row : evidence.reports) {
    left += row.report.hand == chart::Hand::kLeft ? 1 : 0;
    chart_only += row.report.worked_from == testcalls::WorkedFrom::kChart ? 1 : 0;
    text_only += row.report.worked_from == testcalls::WorkedFrom::kText ? 1 : 0;
  }
  const auto all = static_cast<int>(evidence.reports.size());
  return fmt::format(
      "{} worked left-handed. {} followed only the chart, {} only the written rows, {} both.", left,
      chart_only, text_only, all - chart_only - text_only);
}

}  // namespace

std::vector<std::string> TestedLines(const ReleaseBasis& basis) {
  if (!basis.evidence.has_value()) return {"This version was released without a test call."};
  const CallEvidence& evidence = *basis.evidence;
  std::vector<std::string> lines = {
      fmt::format("{} reported. Pieces finished: {}.",
                  Counted(static_cast<int64_t>(evidence.reports.size()), "tester", "testers"),
                  Finished(evidence))};
  if (evidence.reports.empty()) return lines;
  lines.push_back(HandsAndSources(evidence));
  patterns::Readings readings(evidence.contents, evidence.present_version);
  const chart::Design& design = evidence.present().design;
  for (const auto& size : faults::Cover(WorkOfTesters(evidence, readings), PlacesOf(design).rows,
                                        evidence.present_version, SameReadingOf(readings))) {
    const std::string& name = design.sizes[static_cast<size_t>(size.size)].name;
    const auto untested = size.Below(1);
    if (!untested.empty()) {
      lines.push_back(fmt::format("Size {}: nobody has worked these rows as they now read: {}.",
                                  name, RowRanges(untested, design.first_row_number)));
      continue;
    }
    int least = size.rows.empty() ? 0 : size.rows.front().testers;
    for (const auto& row : size.rows) least = std::min(least, row.testers);
    lines.push_back(fmt::format("Size {}: every row, as it now reads, was worked by {} or more.",
                                name, Counted(least, "tester", "testers")));
  }
  return lines;
}

}  // namespace rowproof::usecases
