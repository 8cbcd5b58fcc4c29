#include "services/images/line_runs.h"

#include <algorithm>
#include <map>
#include <utility>

namespace rowproof::images {
namespace {

constexpr size_t kMostShared = 8;

void Lengthen(Span run, Span* longest) {
  if (run.length() > longest->length()) *longest = run;
}

}  // namespace

LongestRuns FindLongestRuns(const Picture& picture, const Region& region,
                            const std::vector<uint8_t>& is_line) {
  const int width = region.x.length();
  const int height = region.y.length();
  LongestRuns longest;
  longest.of_columns.resize(static_cast<size_t>(width));
  longest.of_lines.resize(static_cast<size_t>(height));
  std::vector<int> begins(static_cast<size_t>(width), 0);  // of each column's run up to here
  std::vector<uint16_t> line(static_cast<size_t>(width));
  for (int y = 0; y < height; ++y) {
    if (picture.StopAfter(width)) return longest;
    picture.CopyLine(region.y.begin + y, region.x, line.data());
    Span& of_line = longest.of_lines[static_cast<size_t>(y)];
    int begin = 0;
    for (int x = 0; x < width; ++x) {
      const auto i = static_cast<size_t>(x);
      if (is_line[line[i]] != 0) continue;
      Lengthen({begin, x}, &of_line);
      Lengthen({begins[i], y}, &longest.of_columns[i]);
      begin = x + 1;
      begins[i] = y + 1;
    }
    Lengthen({begin, width}, &of_line);
  }
  for (size_t i = 0; i < begins.size(); ++i) {
    Lengthen({begins[i], height}, &longest.of_columns[i]);
  }
  return longest;
}

std::vector<Span> SharedRuns(const std::vector<Span>& runs) {
  int most = 0;
  for (const Span run : runs) most = std::max(most, run.length());
  std::map<std::pair<int, int>, int> counts;
  for (const Span run : runs) {
    if (run.length() > 0 && 3 * run.length() >= most) ++counts[{run.begin, run.end}];
  }
  std::vector<std::pair<int64_t, Span>> sorted;
  for (const auto& [run, count] : counts) {
    sorted.push_back({int64_t{count} * (run.second - run.first), {run.first, run.second}});
  }
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const auto& one, const auto& other) { return one.first > other.first; });
  std::vector<Span> shared;
  for (size_t i = 0; i < std::min(sorted.size(), kMostShared); ++i) {
    shared.push_back(sorted[i].second);
  }
  return shared;
}

std::vector<uint8_t> Covering(const std::vector<Span>& runs, Span whole) {
  std::vector<uint8_t> covering;
  covering.reserve(runs.size());
  for (const Span run : runs) {
    covering.push_back(run.begin <= whole.begin && run.end >= whole.end ? 1 : 0);
  }
  return covering;
}

}  // namespace rowproof::images
