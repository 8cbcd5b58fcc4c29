#include "services/usecases/reports/create_report.h"

#include <algorithm>
#include <optional>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/domain/testcalls/forms/reader.h"
#include "services/domain/testcalls/report_validation.h"
#include "services/usecases/calls/seat_changes.h"
#include "services/usecases/calls/seats.h"
#include "services/usecases/reports/expected_report.h"
#include "services/usecases/reports/read_reports.h"
#include "services/usecases/transactions.h"
#include "storage/report_basis.h"
#include "storage/reports.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

// The place of each erratum in the chart.
std::vector<storage::PlacedErratum> Place(const testcalls::Report& report,
                                          const chart::Design& design) {
  const int size = testcalls::SizeIndex(design, report.size);
  std::vector<int> chart_rows;
  std::vector<storage::PlacedErratum> placed;
  for (const auto& erratum : report.errata) {
    storage::PlacedErratum place;
    if (erratum.row > 0) {
      if (chart_rows.empty()) chart_rows = chart::ChartRowsAsWorked(design, size);
      place.chart_row = chart_rows[static_cast<size_t>(erratum.row - 1)];
      place.stitches = faults::ChartStitches(design, size, erratum, report.hand);
    }
    placed.push_back(place);
  }
  return placed;
}

bool SameErratum(const storage::KnownErratum& known, const faults::Erratum& erratum,
                 const storage::PlacedErratum& place) {
  return known.row == erratum.row && known.stitches == place.stitches &&
         known.kind == erratum.kind && known.was == erratum.was &&
         known.should_be == erratum.should_be;
}

// An erratum that an earlier revision reported keeps its identifier; each is given once.
storage::ErrataChanges Identify(Application& application, std::vector<storage::KnownErratum> known,
                                const std::vector<faults::Erratum>& errata,
                                std::vector<storage::PlacedErratum>* placed) {
  storage::ErrataChanges changes;
  for (size_t i = 0; i < errata.size(); ++i) {
    storage::PlacedErratum& place = (*placed)[i];
    const auto found = std::find_if(known.begin(), known.end(), [&](const auto& entry) {
      return SameErratum(entry, errata[i], place);
    });
    place.is_new = found == known.end();
    if (place.is_new) {
      place.id.value = application.identifiers.NewIdentifier();
    } else {
      place.id = found->id;
      if (found->withdrawn) changes.returned.push_back(found->id);
      known.erase(found);
    }
  }
  for (const auto& left : known) {
    if (!left.withdrawn) changes.withdrawn.push_back(left.id);
  }
  return changes;
}

struct Judged {
  storage::StateChange state;
  std::vector<storage::PlacedErratum> placed;
  storage::ErrataChanges changes;
};

// Completes the report's row, finds its slips and places its errata, or refuses it.
absl::StatusOr<Judged> Judge(Application& application, storage::Transaction& transaction,
                             const storage::Admission& who, const ReportSubmission& submission,
                             const Target& target, ReadReport* read) {
  const int version =
      submission.report.version == 0 ? who.call->version_number : submission.report.version;
  if (!who.basis.has_value()) return NotFound(target.type, target.name);
  const storage::ReportBasis& basis = *who.basis;
  Judged judged;
  judged.state.call = who.call->state;
  judged.state.from = basis.seat_state;
  ASSIGN_OR_RETURN(auto state, testcalls::ReportOnSeat(judged.state.call, judged.state.from,
                                                       submission.report.finished, target.name));
  judged.state.to = state;
  if (!basis.version_was_sent) {
    return InvalidField(submission.field + ".version", std::to_string(version),
                        "a version that was sent to the call's testers");
  }
  const KeptVersion kept = LoadContent(application, transaction, submission.pattern, version);
  const patterns::VersionContent& content = *kept;
  testcalls::ReportRecord& row = read->row;
  row = {submission.pattern,     submission.call,      submission.seat,
         basis.report_count + 1, who.standing.account, who.standing.seat != submission.seat,
         transaction.now(),      submission.report,    {}};
  row.report.version = version;
  if (row.report.size.empty()) row.report.size = basis.size;
  if (row.report.size != basis.size) {
    return InvalidField(submission.field + ".size", row.report.size,
                        fmt::format("\"{}\", the seat's size", basis.size));
  }
  if (auto status = testcalls::Validate(row.report, content.design, content.materials);
      !status.ok()) {
    return UnderField(status, submission.field);
  }
  judged.placed = Place(row.report, content.design);
  judged.changes = Identify(application, basis.errata, row.report.errata, &judged.placed);
  read->slips = testcalls::FindSlips(row.report, ExpectedOf(row.report, content));
  return judged;
}

ReadReport Reread(Application& application, storage::Transaction& transaction,
                  const ReportSubmission& submission, int number) {
  // The claim names it.
  auto row = storage::NamedRecord(
      storage::LoadReport(transaction, submission.pattern, submission.call, submission.seat,
                          number),
      "report", SeatTarget(submission.pattern, submission.call, submission.seat).name);
  const auto content =
      LoadContent(application, transaction, submission.pattern, row.report.version);
  ReadReport read{std::move(row), {}};
  read.slips = testcalls::FindSlips(read.row.report, ExpectedOf(read.row.report, *content));
  return read;
}

// Fields of the report are named by the questions of the form.
absl::Status InForm(const absl::Status& status, const testcalls::FormReading& reading) {
  constexpr std::string_view kReport = "form_text.";
  std::vector<FieldViolation> fields = DetailOf(status).fields;
  bool named = false;
  for (FieldViolation& violation : fields) {
    if (!violation.field.starts_with(kReport)) continue;
    violation.field.erase(0, kReport.size());
    violation = {"form_text", testcalls::Sentence(violation, reading)};
    named = true;
  }
  return named ? InvalidFields(std::move(fields)) : status;
}

}  // namespace

absl::StatusOr<ReadReport> CreateReport(Application& application, RequestContext& context,
                                        ReportSubmission submission) {
  // Before anything long is read.
  RETURN_IF_ERROR(RequireToken(context));
  if (submission.report.version < 0) {
    return InvalidField(submission.field + ".version", std::to_string(submission.report.version),
                        "a version's number, or 0 for the call's current one");
  }
  Target target = SeatTarget(submission.pattern, submission.call, submission.seat,
                             storage::RootLock::kByStatement);
  target.report = storage::TransactionScope::Report{submission.seat, submission.report.version};
  ReadReport read;
  const auto body = [&](storage::Transaction& transaction,
                        const storage::Admission& who) -> absl::Status {
    RETURN_IF_ERROR(MayKnowSeat(who.standing, submission.seat, target.name));
    if (who.earlier_result.has_value()) {
      read = Reread(application, transaction, submission, who.earlier_number());
      return absl::OkStatus();
    }
    ASSIGN_OR_RETURN(auto judged, Judge(application, transaction, who, submission, target, &read));
    if (submission.validate_only) {
      read.row.number = 0;
      return absl::OkStatus();
    }
    for (const auto& place : judged.placed) read.row.errata.push_back(place.id);
    storage::InsertReport(transaction, read.row, judged.placed, judged.changes, judged.state);
    return absl::OkStatus();
  };
  const auto status = submission.validate_only ? InSnapshot(application, context, target, body)
                                               : InTransaction(application, context, target, body);
  if (!status.ok()) return status;
  return read;
}

absl::StatusOr<ReportFromForm> CreateReportFromForm(
    Application& application, RequestContext& context, const PatternId& pattern, const CallId& id,
    const SeatId& seat, const std::string& form_text, bool validate_only) {
  RETURN_IF_ERROR(RequireToken(context));
  ASSIGN_OR_RETURN(auto reading, testcalls::ReadForm(form_text));
  std::vector<FieldViolation> errors;
  ReportFromForm submitted;
  for (auto& finding : reading.findings) {
    if (!finding.error) {
      submitted.notes.push_back(std::move(finding));
    } else if (errors.size() < kMostFormErrors) {
      errors.push_back({"form_text", testcalls::Sentence(finding)});
    }
  }
  if (!reading.complete()) return InvalidFields(std::move(errors));
  const std::string name = SeatTarget(pattern, id, seat).name;
  if (reading.heading.seat != name) {
    return InvalidField("form_text", reading.heading.seat, "the form of seat " + name);
  }
  ReportSubmission submission{pattern,     id,           seat, std::move(reading.report),
                              "form_text", validate_only};
  submission.report.version = reading.heading.version;
  submission.report.size = reading.heading.size;
  auto report = CreateReport(application, context, std::move(submission));
  if (!report.ok()) return InForm(report.status(), reading);
  submitted.report = *std::move(report);
  return submitted;
}

}  // namespace rowproof::usecases
