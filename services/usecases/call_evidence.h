// What a test call has brought in, loaded once: what reconciliations and gates are made from.
#ifndef ROWPROOF_SERVICES_USECASES_CALL_EVIDENCE_H_
#define ROWPROOF_SERVICES_USECASES_CALL_EVIDENCE_H_

#include <map>
#include <vector>

#include "services/domain/faults/clusters.h"
#include "services/domain/faults/coverage.h"
#include "services/domain/faults/erratum.h"
#include "services/domain/patterns/readings.h"
#include "services/domain/patterns/version_content.h"
#include "services/domain/reconcile/reconciliation.h"
#include "services/domain/testcalls/report.h"
#include "services/domain/testcalls/test_call.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

struct CallEvidence {
  int present_version = 0;  // everything is in its rows
  // The present version and every version that a report was worked from.
  std::map<int, patterns::VersionContent> contents;
  std::vector<testcalls::SeatRecord> seats;      // in the order of offering
  std::vector<testcalls::ReportRecord> reports;  // the newest of each seat, by seat
  std::map<SeatId, std::vector<patterns::WorkStep>> steps;
  std::vector<faults::ErratumRecord> errata;  // none that was withdrawn
  std::vector<reconcile::SetAside> set_aside;

  const patterns::VersionContent& present() const { return contents.at(present_version); }
};

// Inside a transaction. The call and the version exist.
CallEvidence LoadEvidence(Application& application, storage::Transaction& transaction,
                          const PatternId& pattern, const CallId& call, int present_version);

// What each tester worked, in the present version's rows; testers without a report are left out.
std::vector<faults::TesterWork> WorkOfTesters(const CallEvidence& evidence,
                                              patterns::Readings& readings);
faults::SameReading SameReadingOf(patterns::Readings& readings);

// Rows and stitches of the present version's sizes in its chart.
faults::ChartPlaces PlacesOf(const chart::Design& design);

// The newest reports as a reconciliation names them, by seat.
std::vector<reconcile::UsedReport> UsedReports(const CallEvidence& evidence);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CALL_EVIDENCE_H_
