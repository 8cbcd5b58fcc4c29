#include "services/rpc/handlers/test_call.h"

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/rpc/converters/test_call.h"
#include "services/rpc/page_token.h"
#include "services/usecases/test_calls.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::Call;

absl::StatusOr<v1::TestCall> Answer(const absl::StatusOr<usecases::ReadTestCall>& call) {
  if (!call.ok()) return call.status();
  return ToProto(*call);
}

absl::StatusOr<v1::Seat> Answer(const absl::StatusOr<storage::SeatRow>& seat) {
  if (!seat.ok()) return seat.status();
  return ToProto(*seat);
}

// A version's number, where the version is one of this pattern.
absl::StatusOr<int> VersionOf(const PatternId& pattern, const std::string& name) {
  auto version = ParseName<VersionName>("version", name);
  if (!version.ok()) return version.status();
  if (version->pattern != pattern) {
    return InvalidField("version", name, "a version of the same pattern");
  }
  return version->version;
}

absl::StatusOr<v1::TestCall> Create(Application& application, Call& call,
                                    const v1::CreateTestCallRequest& request) {
  auto name = ParseName<PatternName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto version = VersionOf(name->pattern, request.version());
  if (!version.ok()) return version.status();
  auto settings = FromProto(request.settings());
  if (!settings.ok()) return settings.status();
  return Answer(usecases::CreateTestCall(application, call, name->pattern, *version, *settings));
}

absl::StatusOr<v1::TestCall> Get(Application& application, Call& call,
                                 const v1::GetTestCallRequest& request) {
  auto name = ParseName<TestCallName>("name", request.name());
  if (!name.ok()) return name.status();
  return Answer(usecases::GetTestCall(application, call, name->pattern, name->call));
}

absl::StatusOr<v1::ListTestCallsResponse> List(Application& application, Call& call,
                                               const v1::ListTestCallsRequest& request) {
  auto name = ParseName<PatternName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto asked = ReadPage(request, call.method + request.parent());
  if (!asked.ok()) return asked.status();
  auto page = usecases::ListTestCalls(application, call, name->pattern, asked->moment(),
                                      {asked->id()}, asked->size);
  if (!page.ok()) return page.status();
  v1::ListTestCallsResponse response;
  for (const auto& entry : page->calls) *response.add_test_calls() = ToProto(entry);
  if (page->more) {
    const auto& last = page->calls.back().row;
    response.set_next_page_token(NextPageToken(*asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::TestCall> Update(Application& application, Call& call,
                                    const v1::UpdateTestCallRequest& request) {
  auto name = ParseName<TestCallName>("name", request.name());
  if (!name.ok()) return name.status();
  auto settings = FromProto(request.settings());
  if (!settings.ok()) return settings.status();
  auto revision = ReadEtag(request.etag());
  if (!revision.ok()) return revision.status();
  return Answer(
      usecases::UpdateTestCall(application, call, name->pattern, name->call, *settings,
                               *revision < 0 ? std::nullopt : std::optional<int>(*revision)));
}

absl::StatusOr<v1::TestCall> Step(Application& application, Call& call, const std::string& request,
                                  usecases::CallStep step) {
  auto name = ParseName<TestCallName>("name", request);
  if (!name.ok()) return name.status();
  return Answer(usecases::StepTestCall(application, call, name->pattern, name->call, step));
}

absl::StatusOr<v1::TestCall> Open(Application& application, Call& call,
                                  const v1::OpenTestCallRequest& request) {
  return Step(application, call, request.name(), testcalls::OpenCall);
}

absl::StatusOr<v1::TestCall> Close(Application& application, Call& call,
                                   const v1::CloseTestCallRequest& request) {
  return Step(application, call, request.name(), testcalls::CloseCall);
}

absl::StatusOr<v1::TestCall> Reopen(Application& application, Call& call,
                                    const v1::ReopenTestCallRequest& request) {
  return Step(application, call, request.name(), testcalls::ReopenCall);
}

absl::StatusOr<v1::SendVersionResponse> Send(Application& application, Call& call,
                                             const v1::SendVersionRequest& request) {
  auto name = ParseName<TestCallName>("name", request.name());
  if (!name.ok()) return name.status();
  auto version = VersionOf(name->pattern, request.version());
  if (!version.ok()) return version.status();
  auto sent = usecases::SendVersion(application, call, name->pattern, name->call, *version);
  if (!sent.ok()) return sent.status();
  return ToProto(*sent);
}

absl::StatusOr<v1::Seat> Create(Application& application, Call& call,
                                const v1::CreateSeatRequest& request) {
  auto name = ParseName<TestCallName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto made = usecases::CreateSeat(application, call, name->pattern, name->call, request.size());
  if (!made.ok()) return made.status();
  v1::Seat seat = ToProto(made->seat);
  seat.set_invitation(made->invitation);
  return seat;
}

absl::StatusOr<v1::ListSeatsResponse> List(Application& application, Call& call,
                                           const v1::ListSeatsRequest& request) {
  auto name = ParseName<TestCallName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto asked = ReadPage(request, call.method + request.parent());
  if (!asked.ok()) return asked.status();
  auto page = usecases::ListSeats(application, call, name->pattern, name->call, asked->moment(),
                                  {asked->id()}, asked->size);
  if (!page.ok()) return page.status();
  v1::ListSeatsResponse response;
  for (const auto& seat : page->seats) *response.add_seats() = ToProto(seat);
  if (page->more) {
    const auto& last = page->seats.back();
    response.set_next_page_token(NextPageToken(*asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::Seat> Get(Application& application, Call& call,
                             const v1::GetSeatRequest& request) {
  auto name = ParseName<SeatName>("name", request.name());
  if (!name.ok()) return name.status();
  return Answer(usecases::GetSeat(application, call, name->pattern, name->call, name->seat));
}

absl::StatusOr<v1::TakeSeatResponse> Take(Application& application, Call& call,
                                          const v1::TakeSeatRequest& request) {
  auto taken = usecases::TakeSeat(application, call, request.invitation(), request.display_name(),
                                  request.mail_address());
  if (!taken.ok()) return taken.status();
  v1::TakeSeatResponse response;
  *response.mutable_seat() = ToProto(taken->seat);
  response.set_account(ToString(AccountName{taken->seat.account}));
  response.set_secret(taken->secret);
  return response;
}

absl::StatusOr<v1::Seat> GiveUp(Application& application, Call& call,
                                const v1::GiveUpSeatRequest& request) {
  auto name = ParseName<SeatName>("name", request.name());
  if (!name.ok()) return name.status();
  return Answer(usecases::GiveUpSeat(application, call, name->pattern, name->call, name->seat));
}

absl::StatusOr<v1::Seat> Cancel(Application& application, Call& call,
                                const v1::CancelSeatRequest& request) {
  auto name = ParseName<SeatName>("name", request.name());
  if (!name.ok()) return name.status();
  return Answer(usecases::CancelSeat(application, call, name->pattern, name->call, name->seat));
}

absl::StatusOr<v1::GetSeatFormResponse> GetForm(Application& application, Call& call,
                                                const v1::GetSeatFormRequest& request) {
  auto name = ParseName<SeatName>("name", request.name());
  if (!name.ok()) return name.status();
  auto form = usecases::GetSeatForm(application, call, name->pattern, name->call, name->seat);
  if (!form.ok()) return form.status();
  v1::GetSeatFormResponse response;
  response.set_form_text(*form);
  return response;
}

absl::StatusOr<v1::SeatChanges> GetChanges(Application& application, Call& call,
                                           const v1::GetSeatChangesRequest& request) {
  auto name = ParseName<SeatName>("name", request.name());
  if (!name.ok()) return name.status();
  auto changes = usecases::GetSeatChanges(application, call, name->pattern, name->call, name->seat);
  if (!changes.ok()) return changes.status();
  return ToProto(*changes);
}

}  // namespace

grpc::Status TestCallHandlers::CreateTestCall(grpc::ServerContext* context,
                                              const v1::CreateTestCallRequest* request,
                                              v1::TestCall* response) {
  return desk_.Serve(*context, "TestCallService.CreateTestCall", *request, response,
                     [&](Call& call) { return Create(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::GetTestCall(grpc::ServerContext* context,
                                           const v1::GetTestCallRequest* request,
                                           v1::TestCall* response) {
  return desk_.Serve(*context, "TestCallService.GetTestCall", *request, response,
                     [&](Call& call) { return Get(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::ListTestCalls(grpc::ServerContext* context,
                                             const v1::ListTestCallsRequest* request,
                                             v1::ListTestCallsResponse* response) {
  return desk_.Serve(*context, "TestCallService.ListTestCalls", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::UpdateTestCall(grpc::ServerContext* context,
                                              const v1::UpdateTestCallRequest* request,
                                              v1::TestCall* response) {
  return desk_.Serve(*context, "TestCallService.UpdateTestCall", *request, response,
                     [&](Call& call) { return Update(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::OpenTestCall(grpc::ServerContext* context,
                                            const v1::OpenTestCallRequest* request,
                                            v1::TestCall* response) {
  return desk_.Serve(*context, "TestCallService.OpenTestCall", *request, response,
                     [&](Call& call) { return Open(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::CloseTestCall(grpc::ServerContext* context,
                                             const v1::CloseTestCallRequest* request,
                                             v1::TestCall* response) {
  return desk_.Serve(*context, "TestCallService.CloseTestCall", *request, response,
                     [&](Call& call) { return Close(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::ReopenTestCall(grpc::ServerContext* context,
                                              const v1::ReopenTestCallRequest* request,
                                              v1::TestCall* response) {
  return desk_.Serve(*context, "TestCallService.ReopenTestCall", *request, response,
                     [&](Call& call) { return Reopen(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::SendVersion(grpc::ServerContext* context,
                                           const v1::SendVersionRequest* request,
                                           v1::SendVersionResponse* response) {
  return desk_.Serve(*context, "TestCallService.SendVersion", *request, response,
                     [&](Call& call) { return Send(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::CreateSeat(grpc::ServerContext* context,
                                          const v1::CreateSeatRequest* request,
                                          v1::Seat* response) {
  return desk_.Serve(*context, "TestCallService.CreateSeat", *request, response,
                     [&](Call& call) { return Create(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::ListSeats(grpc::ServerContext* context,
                                         const v1::ListSeatsRequest* request,
                                         v1::ListSeatsResponse* response) {
  return desk_.Serve(*context, "TestCallService.ListSeats", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::GetSeat(grpc::ServerContext* context,
                                       const v1::GetSeatRequest* request, v1::Seat* response) {
  return desk_.Serve(*context, "TestCallService.GetSeat", *request, response,
                     [&](Call& call) { return Get(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::TakeSeat(grpc::ServerContext* context,
                                        const v1::TakeSeatRequest* request,
                                        v1::TakeSeatResponse* response) {
  return desk_.Serve(*context, "TestCallService.TakeSeat", *request, response,
                     [&](Call& call) { return Take(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::GiveUpSeat(grpc::ServerContext* context,
                                          const v1::GiveUpSeatRequest* request,
                                          v1::Seat* response) {
  return desk_.Serve(*context, "TestCallService.GiveUpSeat", *request, response,
                     [&](Call& call) { return GiveUp(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::CancelSeat(grpc::ServerContext* context,
                                          const v1::CancelSeatRequest* request,
                                          v1::Seat* response) {
  return desk_.Serve(*context, "TestCallService.CancelSeat", *request, response,
                     [&](Call& call) { return Cancel(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::GetSeatForm(grpc::ServerContext* context,
                                           const v1::GetSeatFormRequest* request,
                                           v1::GetSeatFormResponse* response) {
  return desk_.Serve(*context, "TestCallService.GetSeatForm", *request, response,
                     [&](Call& call) { return GetForm(desk_.application(), call, *request); });
}

grpc::Status TestCallHandlers::GetSeatChanges(grpc::ServerContext* context,
                                              const v1::GetSeatChangesRequest* request,
                                              v1::SeatChanges* response) {
  return desk_.Serve(*context, "TestCallService.GetSeatChanges", *request, response,
                     [&](Call& call) { return GetChanges(desk_.application(), call, *request); });
}

}  // namespace rowproof::rpc
