// Which rows how many testers have worked, in each size, apart for chart and written rows. Pure;
// thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_FAULTS_COVERAGE_H_
#define ROWPROOF_SERVICES_DOMAIN_FAULTS_COVERAGE_H_

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "services/domain/stop.h"

namespace rowproof::faults {

enum class Source : uint8_t { kChart, kText };

// What one tester has worked. Rows are worked rows of the tester's size, in the present numbering.
struct TesterWork {
  std::string tester;  // opaque key, unique
  int size = 0;        // index of the size
  bool from_chart = false;
  bool from_text = false;
  int last_row = 0;  // reached; 0: nothing yet
  // Version that each row was worked from, row r at index r - 1; rows past its end, and all if
  // it is empty, were worked from `version`.
  int version = 0;
  std::vector<int> row_version;

  int VersionOf(int row) const;
};

// The chart row (from 1) of each worked row of each size, chart_rows[size][row - 1]: that of
// chart::ChartRowsAsWorked.
using ChartRows = std::vector<std::vector<int>>;

// True if the worked row (of the size, in the chart or as written) reads the same in both
// versions.
using SameReading = std::function<bool(Source source, int size, int row, int version, int other)>;

struct RowCoverage {
  int chart = 0;    // testers who worked the row from the chart
  int text = 0;     // from the written row
  int testers = 0;  // from either or both
  bool operator==(const RowCoverage&) const = default;
};

struct RowRange {
  int first = 0;
  int last = 0;
  bool operator==(const RowRange&) const = default;
};

struct SizeCoverage {
  int size = 0;
  std::vector<RowCoverage> rows;  // row r at index r - 1

  // Runs of rows that fewer than `least` testers worked from this source; from either source.
  std::vector<RowRange> Below(int least, Source source) const;
  std::vector<RowRange> Below(int least) const;
};

// One entry for each size of `chart_rows`, one row for each worked row. A tester counts for a row
// that was worked in a version in which it read as it does in `present_version`, so that a
// corrected row starts again at zero. Work in a size that does not exist is ignored, and rows past
// a size's end are not counted. The keys of the testers must differ. Not whole if the work has to
// stop, which the caller asks.
std::vector<SizeCoverage> Cover(std::span<const TesterWork> work, const ChartRows& chart_rows,
                                int present_version, const SameReading& same_reading,
                                const Stop& stop = {});

}  // namespace rowproof::faults

#endif  // ROWPROOF_SERVICES_DOMAIN_FAULTS_COVERAGE_H_
