#include "services/rpc/converters/report.h"

#include "rowproof/v1/report_service.pb.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/handlers/services.h"
#include "services/rpc/page_token.h"
#include "services/rpc/service.h"
#include "services/usecases/reports/create_report.h"
#include "services/usecases/reports/errata.h"
#include "services/usecases/reports/read_reports.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::RequestContext;

absl::StatusOr<v1::Report> Answer(const absl::StatusOr<usecases::ReadReport>& report) {
  if (!report.ok()) return report.status();
  return ToProto(*report);
}

absl::StatusOr<v1::Erratum> Answer(const absl::StatusOr<faults::ErratumRecord>& erratum) {
  if (!erratum.ok()) return erratum.status();
  return ToProto(*erratum);
}

absl::StatusOr<v1::Report> CreateReport(Application& application, RequestContext& context,
                                        const v1::CreateReportRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<SeatName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto report, FromProto(name.pattern, request.content()));
  return Answer(usecases::CreateReport(
      application, context,
      {name.pattern, name.call, name.seat, std::move(report), "content", request.validate_only()}));
}

absl::StatusOr<v1::CreateReportFromFormResponse> CreateReportFromForm(
    Application& application, RequestContext& context,
    const v1::CreateReportFromFormRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<SeatName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto submitted, usecases::CreateReportFromForm(
                                       application, context, name.pattern, name.call, name.seat,
                                       request.form_text(), request.validate_only()));
  v1::CreateReportFromFormResponse response;
  *response.mutable_report() = ToProto(submitted.report);
  for (const auto& note : submitted.notes) {
    auto* added = response.add_notes();
    added->set_line(note.line);
    added->set_column(note.column);
    added->set_sentence(note.sentence);
  }
  return response;
}

absl::StatusOr<v1::Report> GetReport(Application& application, RequestContext& context,
                                     const v1::GetReportRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<ReportName>("name", request.name()));
  return Answer(
      usecases::GetReport(application, context, name.pattern, name.call, name.seat, name.report));
}

absl::StatusOr<usecases::ReportPage> ListOfSeat(Application& application, RequestContext& context,
                                                const SeatName& name, const Page& asked) {
  return usecases::ListSeatReports(application, context, name.pattern, name.call, name.seat,
                                   asked.number(0), asked.size);
}

absl::StatusOr<v1::ListReportsResponse> ListReports(Application& application,
                                                    RequestContext& context,
                                                    const v1::ListReportsRequest& request) {
  const auto seat = ParseName<SeatName>("parent", request.parent());
  const bool of_seat = seat.ok();
  ASSIGN_OR_RETURN(auto call_name, of_seat ? TestCallName{seat->pattern, seat->call}
                                           : ParseName<TestCallName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method + request.parent()));
  ASSIGN_OR_RETURN(auto page,
                   of_seat ? ListOfSeat(application, context, *seat, asked)
                           : usecases::ListNewestReports(application, context, call_name.pattern,
                                                         call_name.call, {asked.id()}, asked.size));
  v1::ListReportsResponse response;
  for (const auto& report : page.reports) *response.add_reports() = ToProto(report);
  if (page.more) {
    const auto& last = page.reports.back();
    response.set_next_page_token(
        NextPageToken(asked, of_seat ? PageKey{last.number, ""} : PageKey{0, last.seat.value}));
  }
  return response;
}

absl::StatusOr<v1::Erratum> GetErratum(Application& application, RequestContext& context,
                                       const v1::GetErratumRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<ErratumName>("name", request.name()));
  return Answer(usecases::GetErratum(application, context, name));
}

absl::StatusOr<faults::ErrataFilter> FilterFrom(const v1::ListErrataRequest& request) {
  faults::ErrataFilter filter;
  filter.withdrawn_too = request.show_withdrawn();
  if (request.state() == v1::ERRATUM_STATE_UNSPECIFIED) return filter;
  if (!v1::ErratumState_IsValid(request.state())) {
    return InvalidField("state", std::to_string(static_cast<int>(request.state())),
                        "a value that the API declares");
  }
  filter.state = static_cast<faults::ErratumState>(request.state());
  return filter;
}

absl::StatusOr<v1::ListErrataResponse> ListErrata(Application& application, RequestContext& context,
                                                  const v1::ListErrataRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto filter, FilterFrom(request));
  const std::string binding = context.method + request.parent() + " " +
                              std::to_string(static_cast<int>(request.state())) +
                              (request.show_withdrawn() ? " withdrawn" : "");
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, binding));
  ASSIGN_OR_RETURN(auto page,
                   usecases::ListErrata(application, context, name.pattern, name.call, filter,
                                        asked.number(-1), {asked.id()}, asked.size));
  v1::ListErrataResponse response;
  for (const auto& erratum : page.errata) *response.add_errata() = ToProto(erratum);
  if (page.more) {
    const auto& last = page.errata.back();
    response.set_next_page_token(NextPageToken(asked, {last.chart_row, last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::Erratum> DecideErratum(Application& application, RequestContext& context,
                                          const v1::DecideErratumRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<ErratumName>("name", request.name()));
  if (request.state() == v1::ERRATUM_STATE_UNSPECIFIED ||
      !v1::ErratumState_IsValid(request.state())) {
    return InvalidField("state", std::to_string(static_cast<int>(request.state())),
                        "accepted, declined or open");
  }
  return Answer(usecases::DecideErratum(application, context, name.pattern, name.call, name.erratum,
                                        static_cast<faults::ErratumState>(request.state()),
                                        request.note()));
}

absl::StatusOr<v1::Erratum> ConfirmErratum(Application& application, RequestContext& context,
                                           const v1::ConfirmErratumRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<ErratumName>("name", request.name()));
  if (request.confirmation() == v1::CONFIRMATION_UNSPECIFIED ||
      !v1::Confirmation_IsValid(request.confirmation())) {
    return InvalidField("confirmation", std::to_string(static_cast<int>(request.confirmation())),
                        "\"met it too\" or \"worked it right\"");
  }
  return Answer(
      usecases::ConfirmErratum(application, context, name.pattern, name.call, name.erratum,
                               static_cast<faults::Confirmation>(request.confirmation())));
}

}  // namespace

std::unique_ptr<Service> MakeReportService(const Dispatcher& dispatcher,
                                           usecases::Application& application) {
  return std::make_unique<Service>(
      dispatcher, "ReportService",
      std::vector<Method>{MethodOf("CreateReport", CreateReport, application),
                          MethodOf("CreateReportFromForm", CreateReportFromForm, application),
                          MethodOf("GetReport", GetReport, application),
                          MethodOf("ListReports", ListReports, application),
                          MethodOf("GetErratum", GetErratum, application),
                          MethodOf("ListErrata", ListErrata, application),
                          MethodOf("DecideErratum", DecideErratum, application),
                          MethodOf("ConfirmErratum", ConfirmErratum, application)});
}

}  // namespace rowproof::rpc
