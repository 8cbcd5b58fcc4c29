#include "services/rpc/converters/reconciliation.h"

#include "rowproof/v1/reconciliation_service.pb.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/handlers/services.h"
#include "services/rpc/page_token.h"
#include "services/rpc/service.h"
#include "services/usecases/reconciliations.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::RequestContext;

absl::StatusOr<v1::Reconciliation> Answer(
    const absl::StatusOr<reconcile::ReconciliationRecord>& row) {
  if (!row.ok()) return row.status();
  return ToProto(*row);
}

absl::StatusOr<v1::SetAside> CreateSetAside(Application& application, RequestContext& context,
                                            const v1::CreateSetAsideRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("parent", request.parent()));
  auto seat = ParseName<SeatName>("seat", request.seat());
  if (!seat.ok()) return seat.status();
  if (seat->pattern != name.pattern || seat->call != name.call) {
    return InvalidField("seat", request.seat(), "a seat of the call that \"parent\" names");
  }
  ASSIGN_OR_RETURN(auto quantity, FromProto("quantity", request.quantity()));
  ASSIGN_OR_RETURN(auto row,
                   usecases::CreateSetAside(application, context, name.pattern, name.call,
                                            {seat->seat.value, quantity, request.note()}));
  return ToProto(name.pattern, name.call, row);
}

absl::StatusOr<v1::SetAside> GetSetAside(Application& application, RequestContext& context,
                                         const v1::GetSetAsideRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<SetAsideName>("name", request.name()));
  ASSIGN_OR_RETURN(auto row, usecases::GetSetAside(application, context, name));
  return ToProto(name.pattern, name.call, row);
}

absl::StatusOr<v1::ListSetAsidesResponse> ListSetAsides(Application& application,
                                                        RequestContext& context,
                                                        const v1::ListSetAsidesRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method + request.parent()));
  ASSIGN_OR_RETURN(auto page, usecases::ListSetAsides(application, context, name.pattern, name.call,
                                                      {asked.id()}, asked.number(0), asked.size));
  v1::ListSetAsidesResponse response;
  for (const auto& row : page.set_asides) {
    *response.add_set_asides() = ToProto(name.pattern, name.call, row);
  }
  if (page.more) {
    const auto& last = page.set_asides.back().set_aside;
    response.set_next_page_token(
        NextPageToken(asked, {static_cast<int64_t>(last.quantity), last.seat}));
  }
  return response;
}

absl::StatusOr<v1::DeleteSetAsideResponse> DeleteSetAside(
    Application& application, RequestContext& context, const v1::DeleteSetAsideRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<SetAsideName>("name", request.name()));
  auto status = usecases::DeleteSetAside(application, context, name);
  if (!status.ok()) return status;
  return v1::DeleteSetAsideResponse();
}

absl::StatusOr<v1::Reconciliation> CreateReconciliation(
    Application& application, RequestContext& context,
    const v1::CreateReconciliationRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("parent", request.parent()));
  return Answer(usecases::CreateReconciliation(application, context, name.pattern, name.call));
}

absl::StatusOr<v1::Reconciliation> GetReconciliation(Application& application,
                                                     RequestContext& context,
                                                     const v1::GetReconciliationRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<ReconciliationName>("name", request.name()));
  return Answer(usecases::GetReconciliation(application, context, name.pattern, name.call,
                                            name.reconciliation));
}

absl::StatusOr<v1::ListReconciliationsResponse> ListReconciliations(
    Application& application, RequestContext& context,
    const v1::ListReconciliationsRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TestCallName>("parent", request.parent()));
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method + request.parent()));
  ASSIGN_OR_RETURN(auto page,
                   usecases::ListReconciliations(application, context, name.pattern, name.call,
                                                 asked.number(0), asked.size));
  v1::ListReconciliationsResponse response;
  for (const auto& row : page.reconciliations) {
    *response.add_reconciliations() = ToListedProto(row);
  }
  if (page.more) {
    response.set_next_page_token(NextPageToken(asked, {page.reconciliations.back().number, ""}));
  }
  return response;
}

}  // namespace

std::unique_ptr<Service> MakeReconciliationService(const Dispatcher& dispatcher,
                                                   usecases::Application& application) {
  return std::make_unique<Service>(
      dispatcher, "ReconciliationService",
      std::vector<Method>{MethodOf("CreateReconciliation", CreateReconciliation, application),
                          MethodOf("GetReconciliation", GetReconciliation, application),
                          MethodOf("ListReconciliations", ListReconciliations, application),
                          MethodOf("CreateSetAside", CreateSetAside, application),
                          MethodOf("GetSetAside", GetSetAside, application),
                          MethodOf("ListSetAsides", ListSetAsides, application),
                          MethodOf("DeleteSetAside", DeleteSetAside, application)});
}

}  // namespace rowproof::rpc
