#include "services/rpc/converters/test_call.h"

#include "fmt/format.h"
#include "rowproof/v1/test_call_service.pb.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/pattern.h"
#include "services/rpc/handlers/services.h"
#include "services/rpc/page_token.h"
#include "services/rpc/service.h"
#include "services/rpc/update_mask.h"
#include "services/usecases/calls/seat_changes.h"
#include "services/usecases/calls/seats.h"
#include "services/usecases/calls/take_seat.h"
#include "services/usecases/calls/test_calls.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::RequestContext;

constexpr int kMostSeatsInABatch = 100;

absl::StatusOr<v1::TestCall> Answer(const absl::StatusOr<usecases::ReadTestCall>& call) {
  if (!call.ok()) return call.status();
  return ToProto(*call);
}

absl::StatusOr<v1::Seat> Answer(const absl::StatusOr<testcalls::SeatRecord>& seat) {
  if (!seat.ok()) return seat.status();
  return ToProto(*seat);
}

absl::StatusOr<int> NeededVersion(const PatternId& pattern, const std::string& name) {
  if (name.empty()) return ParseName<VersionName>("version", name).status();
  return VersionOf("version", pattern, name);
}

absl::StatusOr<v1::TestCall> CreateTestCall(Application& application, RequestContext& context,
                                            const v1::CreateTestCallRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<PatternName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto version, NeededVersion(name.pattern, request.version()));
  ASSIGN_OR_RETURN(auto settings, FromProto(request.settings()));
  return Answer(usecases::CreateTestCall(application, context, name.pattern, version, settings));
}

absl::StatusOr<v1::TestCall> GetTestCall(Application& application, RequestContext& context,
                                         const v1::GetTestCallRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("name", request.name()));
  return Answer(usecases::GetTestCall(application, context, name.pattern, name.call));
}

absl::StatusOr<v1::ListTestCallsResponse> ListTestCalls(Application& application,
                                                        RequestContext& context,
                                                        const v1::ListTestCallsRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<PatternName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method + request.parent()));
  ASSIGN_OR_RETURN(auto page, usecases::ListTestCalls(application, context, name.pattern,
                                                      asked.moment(), {asked.id()}, asked.size));
  v1::ListTestCallsResponse response;
  for (const auto& entry : page.calls) *response.add_test_calls() = ToProto(entry);
  if (page.more) {
    const auto& last = page.calls.back().row;
    response.set_next_page_token(NextPageToken(asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::TestCall> UpdateTestCall(Application& application, RequestContext& context,
                                            const v1::UpdateTestCallRequest& request) {
  constexpr std::string_view kChangeable[] = {"settings"};
  const v1::TestCall& sent = request.test_call();
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("test_call.name", sent.name()));
  ASSIGN_OR_RETURN(auto mask, ReadUpdateMask(request.update_mask(), sent, kChangeable));
  auto revision = ReadEtag(sent.etag());
  if (!revision.ok()) return UnderField(revision.status(), "test_call");
  const auto change = [&](const testcalls::CallSettings& present) {
    v1::TestCall changed;
    *changed.mutable_settings() = ToProto(present);
    LayOver(mask, sent, &changed);
    return FromProto(changed.settings());
  };
  auto updated =
      usecases::UpdateTestCall(application, context, name.pattern, name.call, change, *revision);
  if (!updated.ok()) return UnderFieldExcept("request_id", updated.status(), "test_call");
  return ToProto(*updated);
}

absl::StatusOr<v1::DeleteTestCallResponse> DeleteTestCall(
    Application& application, RequestContext& context, const v1::DeleteTestCallRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("name", request.name()));
  auto status = usecases::DeleteTestCall(application, context, name.pattern, name.call);
  if (!status.ok()) return status;
  return v1::DeleteTestCallResponse();
}

absl::StatusOr<v1::TestCall> Step(Application& application, RequestContext& context,
                                  const std::string& request, usecases::CallStep step) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("name", request));
  return Answer(usecases::StepTestCall(application, context, name.pattern, name.call, step));
}

absl::StatusOr<v1::TestCall> OpenTestCall(Application& application, RequestContext& context,
                                          const v1::OpenTestCallRequest& request) {
  return Step(application, context, request.name(), testcalls::OpenCall);
}

absl::StatusOr<v1::TestCall> CloseTestCall(Application& application, RequestContext& context,
                                           const v1::CloseTestCallRequest& request) {
  return Step(application, context, request.name(), testcalls::CloseCall);
}

absl::StatusOr<v1::TestCall> ReopenTestCall(Application& application, RequestContext& context,
                                            const v1::ReopenTestCallRequest& request) {
  return Step(application, context, request.name(), testcalls::ReopenCall);
}

absl::StatusOr<v1::SendVersionResponse> SendVersion(Application& application,
                                                    RequestContext& context,
                                                    const v1::SendVersionRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("name", request.name()));
  ASSIGN_OR_RETURN(auto version, NeededVersion(name.pattern, request.version()));
  ASSIGN_OR_RETURN(auto sent,
                   usecases::SendVersion(application, context, name.pattern, name.call, version));
  return ToProto(sent);
}

v1::Seat Offered(const usecases::NewSeat& made) {
  v1::Seat seat = ToProto(made.seat);
  seat.set_invitation(made.invitation);
  return seat;
}

absl::StatusOr<v1::Seat> CreateSeat(Application& application, RequestContext& context,
                                    const v1::CreateSeatRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto made, usecases::CreateSeats(application, context, name.pattern, name.call,
                                                    {request.size()}, {"size"}));
  return Offered(made.front());
}

absl::StatusOr<v1::BatchCreateSeatsResponse> BatchCreateSeats(
    Application& application, RequestContext& context, const v1::BatchCreateSeatsRequest& batch) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("parent", batch.parent()));
  if (batch.requests().empty() || batch.requests_size() > kMostSeatsInABatch) {
    return InvalidField("requests", fmt::format("{} seats", batch.requests_size()),
                        fmt::format("1 to {} seats", kMostSeatsInABatch));
  }
  std::vector<std::string> sizes;
  std::vector<std::string> fields;
  for (const auto& request : batch.requests()) {
    const std::string field = fmt::format("requests[{}].", sizes.size());
    if (!request.parent().empty() && request.parent() != batch.parent()) {
      return InvalidField(field + "parent", request.parent(), "the batch's parent or empty");
    }
    if (!request.request_id().empty()) {
      return InvalidField(field + "request_id", request.request_id(),
                          "empty: the batch has one for all");
    }
    sizes.push_back(request.size());
    fields.push_back(field + "size");
  }
  ASSIGN_OR_RETURN(auto made, usecases::CreateSeats(application, context, name.pattern, name.call,
                                                    sizes, fields));
  v1::BatchCreateSeatsResponse response;
  for (const auto& seat : made) *response.add_seats() = Offered(seat);
  return response;
}

absl::StatusOr<v1::ListSeatsResponse> ListSeats(Application& application, RequestContext& context,
                                                const v1::ListSeatsRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method + request.parent()));
  ASSIGN_OR_RETURN(auto page, usecases::ListSeats(application, context, name.pattern, name.call,
                                                  asked.moment(), {asked.id()}, asked.size));
  v1::ListSeatsResponse response;
  for (const auto& seat : page.seats) *response.add_seats() = ToProto(seat);
  if (page.more) {
    const auto& last = page.seats.back();
    response.set_next_page_token(NextPageToken(asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::ListMySeatsResponse> ListMySeats(Application& application,
                                                    RequestContext& context,
                                                    const v1::ListMySeatsRequest& request) {
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method));
  ASSIGN_OR_RETURN(auto page, usecases::ListMySeats(application, context, asked.moment(),
                                                    {asked.id()}, asked.size));
  v1::ListMySeatsResponse response;
  for (const auto& seat : page.seats) *response.add_seats() = ToProto(seat);
  if (page.more) {
    const auto& last = page.seats.back();
    response.set_next_page_token(NextPageToken(asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::Seat> GetSeat(Application& application, RequestContext& context,
                                 const v1::GetSeatRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<SeatName>("name", request.name()));
  return Answer(usecases::GetSeat(application, context, name.pattern, name.call, name.seat));
}

absl::StatusOr<v1::TakeSeatResponse> TakeSeat(Application& application, RequestContext& context,
                                              const v1::TakeSeatRequest& request) {
  ASSIGN_OR_RETURN(auto taken, usecases::TakeSeat(application, context, request.invitation(),
                                                  request.display_name(), request.mail_address()));
  v1::TakeSeatResponse response;
  *response.mutable_seat() = ToProto(taken.seat);
  response.set_account(ToString(AccountName{taken.seat.account}));
  response.set_secret(taken.secret);
  return response;
}

absl::StatusOr<v1::Seat> GiveUpSeat(Application& application, RequestContext& context,
                                    const v1::GiveUpSeatRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<SeatName>("name", request.name()));
  return Answer(usecases::GiveUpSeat(application, context, name.pattern, name.call, name.seat));
}

absl::StatusOr<v1::Seat> CancelSeat(Application& application, RequestContext& context,
                                    const v1::CancelSeatRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<SeatName>("name", request.name()));
  return Answer(usecases::CancelSeat(application, context, name.pattern, name.call, name.seat));
}

absl::StatusOr<v1::GetSeatFormResponse> GetSeatForm(Application& application,
                                                    RequestContext& context,
                                                    const v1::GetSeatFormRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<SeatName>("name", request.name()));
  ASSIGN_OR_RETURN(auto form,
                   usecases::GetSeatForm(application, context, name.pattern, name.call, name.seat));
  v1::GetSeatFormResponse response;
  response.set_form_text(form);
  return response;
}

absl::StatusOr<v1::SeatChanges> GetSeatChanges(Application& application, RequestContext& context,
                                               const v1::GetSeatChangesRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<SeatName>("name", request.name()));
  ASSIGN_OR_RETURN(auto changes, usecases::GetSeatChanges(application, context, name.pattern,
                                                          name.call, name.seat));
  return ToProto(changes);
}

}  // namespace

std::unique_ptr<Service> MakeTestCallService(const Dispatcher& dispatcher,
                                             usecases::Application& application) {
  return std::make_unique<Service>(
      dispatcher, "TestCallService",
      std::vector<Method>{MethodOf("CreateTestCall", CreateTestCall, application),
                          MethodOf("GetTestCall", GetTestCall, application),
                          MethodOf("ListTestCalls", ListTestCalls, application),
                          MethodOf("UpdateTestCall", UpdateTestCall, application),
                          MethodOf("DeleteTestCall", DeleteTestCall, application),
                          MethodOf("OpenTestCall", OpenTestCall, application),
                          MethodOf("CloseTestCall", CloseTestCall, application),
                          MethodOf("ReopenTestCall", ReopenTestCall, application),
                          MethodOf("SendVersion", SendVersion, application),
                          MethodOf("CreateSeat", CreateSeat, application),
                          MethodOf("BatchCreateSeats", BatchCreateSeats, application),
                          MethodOf("ListSeats", ListSeats, application),
                          MethodOf("ListMySeats", ListMySeats, application),
                          MethodOf("GetSeat", GetSeat, application),
                          MethodOf("TakeSeat", TakeSeat, application),
                          MethodOf("GiveUpSeat", GiveUpSeat, application),
                          MethodOf("CancelSeat", CancelSeat, application),
                          MethodOf("GetSeatForm", GetSeatForm, application),
                          MethodOf("GetSeatChanges", GetSeatChanges, application)});
}

}  // namespace rowproof::rpc
