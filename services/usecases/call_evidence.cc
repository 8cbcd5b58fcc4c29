#include "services/usecases/call_evidence.h"

#include <set>

#include "services/domain/chart/expand.h"
#include "services/usecases/calls/seat_changes.h"
#include "services/usecases/calls/seats.h"
#include "services/usecases/calls/test_calls.h"
#include "services/usecases/transactions.h"
#include "storage/errata.h"
#include "storage/reconciliations.h"
#include "storage/reports.h"
#include "storage/seats.h"

namespace rowproof::usecases {
namespace {

constexpr int kErrataAtOnce = 1000;

std::vector<faults::ErratumRecord> LoadErrata(storage::Transaction& transaction,
                                              const PatternId& pattern, const CallId& call) {
  std::vector<faults::ErratumRecord> errata;
  while (true) {
    const int after_row = errata.empty() ? -1 : errata.back().chart_row;
    const ErratumId after_id = errata.empty() ? ErratumId{} : errata.back().id;
    auto page =
        storage::ListErrata(transaction, pattern, call, {}, after_row, after_id, kErrataAtOnce);
    const bool last = page.size() < static_cast<size_t>(kErrataAtOnce);
    std::move(page.begin(), page.end(), std::back_inserter(errata));
    if (last) return errata;
  }
}

}  // namespace

CallEvidence LoadEvidence(Application& application, storage::Transaction& transaction,
                          const PatternId& pattern, const CallId& call, int present_version) {
  CallEvidence evidence;
  evidence.present_version = present_version;
  evidence.seats =
      storage::ListSeats(transaction, pattern, call, std::nullopt, {}, kMostSeatsOfACall);
  evidence.reports = storage::ListNewestReports(transaction, pattern, call, {}, kMostSeatsOfACall);
  evidence.steps = storage::LoadWorkSteps(transaction, pattern, call);
  evidence.errata = LoadErrata(transaction, pattern, call);
  for (auto& row :
       storage::ListSetAsides(transaction, pattern, call, {}, 0, kMostSetAsidesOfACall)) {
    evidence.set_aside.push_back(std::move(row.set_aside));
  }
  std::set<int> versions = {present_version};
  for (const auto& [seat, steps] : evidence.steps) {
    for (const auto& step : steps) versions.insert(step.version);
  }
  for (const int version : versions) {
    evidence.contents.emplace(version, *LoadContent(application, transaction, pattern, version));
  }
  return evidence;
}

std::vector<faults::TesterWork> WorkOfTesters(const CallEvidence& evidence,
                                              patterns::Readings& readings) {
  std::vector<faults::TesterWork> all;
  for (const testcalls::ReportRecord& row : evidence.reports) {
    auto work = readings.WorkOf(row.seat.value, row.report.size, evidence.steps.at(row.seat));
    work.from_chart = row.report.worked_from != testcalls::WorkedFrom::kText;
    work.from_text = row.report.worked_from != testcalls::WorkedFrom::kChart;
    all.push_back(std::move(work));
  }
  return all;
}

faults::SameReading SameReadingOf(patterns::Readings& readings) {
  return [&readings](faults::Source source, int size, int row, int version, int other) {
    return readings.Same(source, size, row, version, other);
  };
}

faults::ChartPlaces PlacesOf(const chart::Design& design) {
  faults::ChartPlaces places;
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    places.rows.push_back(chart::ChartRowsAsWorked(design, static_cast<int>(i)));
    places.stitches.push_back(chart::ChartStitchesAsWorked(design, static_cast<int>(i)));
  }
  return places;
}

std::vector<reconcile::UsedReport> UsedReports(const CallEvidence& evidence) {
  std::vector<reconcile::UsedReport> used;
  for (const testcalls::ReportRecord& row : evidence.reports) {
    used.push_back(
        {row.seat.value, row.number, row.report.version, row.report.size, row.report.last_row});
  }
  return used;
}

}  // namespace rowproof::usecases
