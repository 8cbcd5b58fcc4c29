#include "services/domain/faults/coverage.h"

#include <algorithm>
#include <cstddef>

namespace rowproof::faults {
namespace {

// Runs of rows whose count, read by `count_of`, is under `least`.
template <typename CountOf>
std::vector<RowRange> RunsBelow(const std::vector<RowCoverage>& rows, int least, CountOf count_of) {
  std::vector<RowRange> runs;
  for (size_t i = 0; i < rows.size(); ++i) {
    if (count_of(rows[i]) >= least) continue;
    const int row = static_cast<int>(i) + 1;
    if (!runs.empty() && runs.back().last == row - 1) {
      runs.back().last = row;
    } else {
      runs.push_back({row, row});
    }
  }
  return runs;
}

}  // namespace

int TesterWork::VersionOf(int row) const {
  const auto index = static_cast<size_t>(row - 1);
  return row >= 1 && index < row_version.size() ? row_version[index] : version;
}

std::vector<RowRange> SizeCoverage::Below(int least, Source source) const {
  return RunsBelow(rows, least, [source](const RowCoverage& row) {
    return source == Source::kChart ? row.chart : row.text;
  });
}

std::vector<RowRange> SizeCoverage::Below(int least) const {
  return RunsBelow(rows, least, [](const RowCoverage& row) { return row.testers; });
}

std::vector<SizeCoverage> Cover(std::span<const TesterWork> work, const ChartRows& chart_rows,
                                int present_version, const SameReading& same_reading,
                                const Stop& stop) {
  std::vector<SizeCoverage> sizes;
  for (size_t size = 0; size < chart_rows.size(); ++size) {
    sizes.push_back({static_cast<int>(size), std::vector<RowCoverage>(chart_rows[size].size())});
  }
  for (const TesterWork& tester : work) {
    if (tester.size < 0 || static_cast<size_t>(tester.size) >= sizes.size()) continue;
    std::vector<RowCoverage>& rows = sizes[static_cast<size_t>(tester.size)].rows;
    const int last = std::min(tester.last_row, static_cast<int>(rows.size()));
    for (int row = 1; row <= last; ++row) {
      if (stop.After(10)) return sizes;
      const int version = tester.VersionOf(row);
      const auto reads_as_now = [&](Source source) {
        return version == present_version ||
               same_reading(source, tester.size, row, version, present_version);
      };
      const bool chart = tester.from_chart && reads_as_now(Source::kChart);
      const bool text = tester.from_text && reads_as_now(Source::kText);
      RowCoverage& here = rows[static_cast<size_t>(row - 1)];
      here.chart += chart ? 1 : 0;
      here.text += text ? 1 : 0;
      here.testers += chart || text ? 1 : 0;
    }
  }
  return sizes;
}

}  // namespace rowproof::faults
