// Reports of a seat, and the errata in them.
#ifndef ROWPROOF_SERVICES_USECASES_REPORTS_H_
#define ROWPROOF_SERVICES_USECASES_REPORTS_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/faults/erratum.h"
#include "services/domain/names/names.h"
#include "services/domain/patterns/version_content.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/report.h"
#include "services/domain/testcalls/slips/slips.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

// Errors of a form that an answer names.
inline constexpr size_t kMostFormErrors = 50;

// A report with its questions; lists leave those out.
struct ReadReport {
  testcalls::ReportRecord row;  // number 0: not stored
  std::vector<testcalls::Slip> slips;
};

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

absl::StatusOr<faults::ErratumRecord> GetErratum(Application& application, RequestContext& context,
                                                 const ErratumName& name);
struct ErrataPage {
  std::vector<faults::ErratumRecord> errata;
  bool more = false;
};
absl::StatusOr<ErrataPage> ListErrata(Application& application, RequestContext& context,
                                      const PatternId& pattern, const CallId& id,
                                      const faults::ErrataFilter& filter, int after_row,
                                      const ErratumId& after_id, int limit);
// `state`: accepted, declined, or open to reopen it.
absl::StatusOr<faults::ErratumRecord> DecideErratum(
    Application& application, RequestContext& context, const PatternId& pattern, const CallId& id,
    const ErratumId& erratum, faults::ErratumState state, const std::string& note);
absl::StatusOr<faults::ErratumRecord> ConfirmErratum(Application& application,
                                                     RequestContext& context,
                                                     const PatternId& pattern, const CallId& id,
                                                     const ErratumId& erratum,
                                                     faults::Confirmation confirmation);

// What the version's estimate expects of this report, which must be valid. If the technique has
// no estimate, only gauge, hook and rows are known.
testcalls::Expected ExpectedOf(const testcalls::Report& report,
                               const patterns::VersionContent& content);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_REPORTS_H_
