// Joining errata, and what is counted over testers and rows, ends when it is told to.
#include <gtest/gtest.h>

#include <numeric>
#include <string>

#include "services/domain/faults/clusters.h"
#include "services/domain/faults/coverage.h"
#include "services/domain/faults/undiscovered.h"
#include "tests/support/expect_stops.h"

namespace rowproof::faults {
namespace {

std::vector<int> UpTo(int last) {
  std::vector<int> numbers(static_cast<size_t>(last));
  std::iota(numbers.begin(), numbers.end(), 1);
  return numbers;
}

std::vector<TesterWork> Testers(int count, int last_row) {
  std::vector<TesterWork> all;
  for (int i = 0; i < count; ++i) {
    TesterWork work;
    work.tester = "seat" + std::to_string(i);
    work.last_row = last_row;
    work.version = 1;
    work.from_chart = true;
    all.push_back(work);
  }
  return all;
}

bool NeverTheSame(Source, int, int, int, int) { return false; }

TEST(Stopping, EndsTheJoiningOfErrata) {
  const ChartPlaces places{{UpTo(500)}, {UpTo(400)}};
  std::vector<ReportedErratum> reports;
  for (int i = 0; i < 200; ++i) {
    ReportedErratum report;
    report.id = std::to_string(i);
    report.tester = "seat0";
    report.version = 2;
    report.row = 1 + 2 * i;
    report.first_stitch = 1;
    report.last_stitch = 300;
    report.seen_in = SeenIn::kChart;
    reports.push_back(report);
  }
  const auto work = Testers(20, 500);
  ExpectStops(20, [&](const Stop& stop) {
    ClusterErrata(reports, {}, work, places, NeverTheSame, stop);
    return stop.status();
  });
}

TEST(Stopping, EndsWhatIsCountedOverTestersAndRows) {
  const ChartRows rows = {UpTo(2000)};
  const auto work = Testers(20, 2000);
  ExpectStops(4, [&](const Stop& stop) {
    Cover(work, rows, 2, NeverTheSame, stop);
    return stop.status();
  });
  ExpectStops(4, [&](const Stop& stop) {
    EstimateUndiscovered({}, work, rows, kLeftCoverage, stop);
    return stop.status();
  });
}

}  // namespace
}  // namespace rowproof::faults
