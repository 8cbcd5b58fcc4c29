// A tester's report, sent as values or as a filled-in form. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_REPORTS_CREATE_REPORT_H_
#define ROWPROOF_SERVICES_USECASES_REPORTS_CREATE_REPORT_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/report.h"
#include "services/usecases/application.h"
#include "services/usecases/reports/read_reports.h"

namespace rowproof::usecases {

// Errors of a form that an answer names.
inline constexpr size_t kMostFormErrors = 50;

struct ReportSubmission {
  PatternId pattern;
  CallId call;
  SeatId seat;
  testcalls::Report report;  // version 0: the call's present one; size empty: the seat's
  std::string field;         // prefix of the report's field paths: "content"
  bool validate_only = false;
};

// Appends a revision, with questions about likely slips.
absl::StatusOr<ReadReport> CreateReport(Application& application, RequestContext& context,
                                        ReportSubmission submission);

struct ReportFromForm {
  ReadReport report;
  std::vector<testcalls::FormFinding> notes;  // what was ignored
};
absl::StatusOr<ReportFromForm> CreateReportFromForm(
    Application& application, RequestContext& context, const PatternId& pattern, const CallId& id,
    const SeatId& seat, const std::string& form_text, bool validate_only);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_REPORTS_CREATE_REPORT_H_
