#include "services/rpc/handlers/report.h"

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/rpc/converters/report.h"
#include "services/rpc/page_token.h"
#include "services/usecases/reports.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::Call;

absl::StatusOr<v1::Report> Answer(const absl::StatusOr<usecases::ReadReport>& report) {
  if (!report.ok()) return report.status();
  return ToProto(*report);
}

absl::StatusOr<v1::Erratum> Answer(const absl::StatusOr<storage::ErratumRow>& erratum) {
  if (!erratum.ok()) return erratum.status();
  return ToProto(*erratum);
}

absl::StatusOr<v1::Report> Submit(Application& application, Call& call,
                                  const v1::SubmitReportRequest& request) {
  auto name = ParseName<SeatName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto report = FromProto(request.content());
  if (!report.ok()) return report.status();
  return Answer(usecases::SubmitReport(application, call,
                                       {name->pattern, name->call, name->seat, std::move(*report),
                                        "content", request.validate_only()}));
}

absl::StatusOr<v1::SubmitFormResponse> Submit(Application& application, Call& call,
                                              const v1::SubmitFormRequest& request) {
  auto name = ParseName<SeatName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto submitted = usecases::SubmitForm(application, call, name->pattern, name->call, name->seat,
                                        request.form_text(), request.validate_only());
  if (!submitted.ok()) return submitted.status();
  v1::SubmitFormResponse response;
  *response.mutable_report() = ToProto(submitted->report);
  for (const auto& note : submitted->notes) {
    auto* added = response.add_notes();
    added->set_line(note.line);
    added->set_column(note.column);
    added->set_sentence(note.sentence);
  }
  return response;
}

absl::StatusOr<v1::Report> Get(Application& application, Call& call,
                               const v1::GetReportRequest& request) {
  auto name = ParseName<ReportName>("name", request.name());
  if (!name.ok()) return name.status();
  return Answer(
      usecases::GetReport(application, call, name->pattern, name->call, name->seat, name->report));
}

absl::StatusOr<usecases::ReportPage> ListOfSeat(Application& application, Call& call,
                                                const SeatName& name, const Page& asked) {
  return usecases::ListSeatReports(application, call, name.pattern, name.call, name.seat,
                                   asked.number(0), asked.size);
}

absl::StatusOr<v1::ListReportsResponse> List(Application& application, Call& call,
                                             const v1::ListReportsRequest& request) {
  const auto seat = ParseName<SeatName>("parent", request.parent());
  const bool of_seat = seat.ok();
  auto call_name = of_seat ? TestCallName{seat->pattern, seat->call}
                           : ParseName<TestCallName>("parent", request.parent());
  if (!call_name.ok()) return call_name.status();
  auto asked = ReadPage(request, call.method + request.parent());
  if (!asked.ok()) return asked.status();
  auto page = of_seat ? ListOfSeat(application, call, *seat, *asked)
                      : usecases::ListNewestReports(application, call, call_name->pattern,
                                                    call_name->call, {asked->id()}, asked->size);
  if (!page.ok()) return page.status();
  v1::ListReportsResponse response;
  for (const auto& report : page->reports) *response.add_reports() = ToProto(report);
  if (page->more) {
    const auto& last = page->reports.back();
    response.set_next_page_token(
        NextPageToken(*asked, of_seat ? PageKey{last.number, ""} : PageKey{0, last.seat.value}));
  }
  return response;
}

absl::StatusOr<storage::ErrataFilter> FilterFrom(const v1::ListErrataRequest& request) {
  storage::ErrataFilter filter;
  filter.withdrawn_too = request.show_withdrawn();
  if (request.state() == v1::ERRATUM_STATE_UNSPECIFIED) return filter;
  if (!v1::ErratumState_IsValid(request.state())) {
    return InvalidField("state", std::to_string(static_cast<int>(request.state())),
                        "a value of its enum");
  }
  filter.state = static_cast<faults::ErratumState>(request.state());
  return filter;
}

absl::StatusOr<v1::ListErrataResponse> List(Application& application, Call& call,
                                            const v1::ListErrataRequest& request) {
  auto name = ParseName<TestCallName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto filter = FilterFrom(request);
  if (!filter.ok()) return filter.status();
  const std::string binding = call.method + request.parent() + " " +
                              std::to_string(static_cast<int>(request.state())) +
                              (request.show_withdrawn() ? " withdrawn" : "");
  auto asked = ReadPage(request, binding);
  if (!asked.ok()) return asked.status();
  auto page = usecases::ListErrata(application, call, name->pattern, name->call, *filter,
                                   asked->number(-1), {asked->id()}, asked->size);
  if (!page.ok()) return page.status();
  v1::ListErrataResponse response;
  for (const auto& erratum : page->errata) *response.add_errata() = ToProto(erratum);
  if (page->more) {
    const auto& last = page->errata.back();
    response.set_next_page_token(NextPageToken(*asked, {last.chart_row, last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::Erratum> Decide(Application& application, Call& call,
                                   const v1::DecideErratumRequest& request) {
  auto name = ParseName<ErratumName>("name", request.name());
  if (!name.ok()) return name.status();
  if (request.state() == v1::ERRATUM_STATE_UNSPECIFIED ||
      !v1::ErratumState_IsValid(request.state())) {
    return InvalidField("state", std::to_string(static_cast<int>(request.state())),
                        "accepted, declined or open");
  }
  return Answer(usecases::DecideErratum(application, call, name->pattern, name->call, name->erratum,
                                        static_cast<faults::ErratumState>(request.state()),
                                        request.note()));
}

absl::StatusOr<v1::Erratum> Confirm(Application& application, Call& call,
                                    const v1::ConfirmErratumRequest& request) {
  auto name = ParseName<ErratumName>("name", request.name());
  if (!name.ok()) return name.status();
  if (request.confirmation() == v1::CONFIRMATION_UNSPECIFIED ||
      !v1::Confirmation_IsValid(request.confirmation())) {
    return InvalidField("confirmation", std::to_string(static_cast<int>(request.confirmation())),
                        "\"met it too\" or \"worked it right\"");
  }
  return Answer(
      usecases::ConfirmErratum(application, call, name->pattern, name->call, name->erratum,
                               static_cast<faults::Confirmation>(request.confirmation())));
}

}  // namespace

grpc::Status ReportHandlers::SubmitReport(grpc::ServerContext* context,
                                          const v1::SubmitReportRequest* request,
                                          v1::Report* response) {
  return desk_.Serve(*context, "ReportService.SubmitReport", *request, response,
                     [&](Call& call) { return Submit(desk_.application(), call, *request); });
}

grpc::Status ReportHandlers::SubmitForm(grpc::ServerContext* context,
                                        const v1::SubmitFormRequest* request,
                                        v1::SubmitFormResponse* response) {
  return desk_.Serve(*context, "ReportService.SubmitForm", *request, response,
                     [&](Call& call) { return Submit(desk_.application(), call, *request); });
}

grpc::Status ReportHandlers::GetReport(grpc::ServerContext* context,
                                       const v1::GetReportRequest* request, v1::Report* response) {
  return desk_.Serve(*context, "ReportService.GetReport", *request, response,
                     [&](Call& call) { return Get(desk_.application(), call, *request); });
}

grpc::Status ReportHandlers::ListReports(grpc::ServerContext* context,
                                         const v1::ListReportsRequest* request,
                                         v1::ListReportsResponse* response) {
  return desk_.Serve(*context, "ReportService.ListReports", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

grpc::Status ReportHandlers::ListErrata(grpc::ServerContext* context,
                                        const v1::ListErrataRequest* request,
                                        v1::ListErrataResponse* response) {
  return desk_.Serve(*context, "ReportService.ListErrata", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

grpc::Status ReportHandlers::DecideErratum(grpc::ServerContext* context,
                                           const v1::DecideErratumRequest* request,
                                           v1::Erratum* response) {
  return desk_.Serve(*context, "ReportService.DecideErratum", *request, response,
                     [&](Call& call) { return Decide(desk_.application(), call, *request); });
}

grpc::Status ReportHandlers::ConfirmErratum(grpc::ServerContext* context,
                                            const v1::ConfirmErratumRequest* request,
                                            v1::Erratum* response) {
  return desk_.Serve(*context, "ReportService.ConfirmErratum", *request, response,
                     [&](Call& call) { return Confirm(desk_.application(), call, *request); });
}

}  // namespace rowproof::rpc
