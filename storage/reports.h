// Rows of reports. Every function throws libpqxx's exceptions, which end in Database, and runs
// inside a transaction.
#ifndef ROWPROOF_STORAGE_REPORTS_H_
#define ROWPROOF_STORAGE_REPORTS_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/testcalls/report.h"
#include "services/domain/testcalls/states.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

// One reported erratum of a new revision, with its place.
struct PlacedErratum {
  ErratumId id;
  bool is_new = false;  // else an earlier revision reported it under this id
  int chart_row = 0;
  faults::StitchRange stitches;
};
// Errata of the seat that the revision no longer holds, and those that it holds again.
struct ErrataChanges {
  std::vector<ErratumId> withdrawn;
  std::vector<ErratumId> returned;
  bool empty() const { return withdrawn.empty() && returned.empty(); }
};
// The seat's states before and after, in a call of this state.
struct StateChange {
  testcalls::SeatState from = testcalls::SeatState::kTaken;
  testcalls::SeatState to = testcalls::SeatState::kTaken;
  testcalls::CallState call = testcalls::CallState::kOpen;
};
// Appends the revision, as a write of one statement (RunWhole): the report with its errata
// (`placed` has one entry for each), the errata that are new, the changes to earlier ones, the
// seat's state and count, and the claim with the report's number as its result. Overtaken if the
// seat has another state or count, or the call another state.
void InsertReport(Transaction& transaction, const testcalls::ReportRecord& report,
                  const std::vector<PlacedErratum>& placed, const ErrataChanges& changes,
                  const StateChange& change);

std::optional<testcalls::ReportRecord> LoadReport(Transaction& transaction,
                                                  const PatternId& pattern, const CallId& call,
                                                  const SeatId& seat, int number);
// Of a seat, newest first, below `before_number` if that is not 0.
std::vector<testcalls::ReportRecord> ListSeatReports(Transaction& transaction,
                                                     const PatternId& pattern, const CallId& call,
                                                     const SeatId& seat, int before_number,
                                                     int limit);
// The newest revision of each seat of a call, by seat, after `after` if that is not empty.
std::vector<testcalls::ReportRecord> ListNewestReports(Transaction& transaction,
                                                       const PatternId& pattern, const CallId& call,
                                                       const SeatId& after, int limit);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_REPORTS_H_
