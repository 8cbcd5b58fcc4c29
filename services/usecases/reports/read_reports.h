// Reports of a seat and of a call. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_REPORTS_READ_REPORTS_H_
#define ROWPROOF_SERVICES_USECASES_REPORTS_READ_REPORTS_H_

#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/testcalls/report.h"
#include "services/domain/testcalls/slips/slips.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

// A report with its questions; lists leave those out.
struct ReadReport {
  testcalls::ReportRecord row;  // number 0: not stored
  std::vector<testcalls::Slip> slips;
};

absl::StatusOr<ReadReport> GetReport(Application& application, RequestContext& context,
                                     const PatternId& pattern, const CallId& id, const SeatId& seat,
                                     int number);

struct ReportPage {
  std::vector<testcalls::ReportRecord> reports;
  bool more = false;
};
// Revisions of a seat, newest first, below `before_number` if that is not 0.
absl::StatusOr<ReportPage> ListSeatReports(Application& application, RequestContext& context,
                                           const PatternId& pattern, const CallId& id,
                                           const SeatId& seat, int before_number, int limit);
// The newest of each seat that the caller may know, by seat, after `after`.
absl::StatusOr<ReportPage> ListNewestReports(Application& application, RequestContext& context,
                                             const PatternId& pattern, const CallId& id,
                                             const SeatId& after, int limit);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_REPORTS_READ_REPORTS_H_
