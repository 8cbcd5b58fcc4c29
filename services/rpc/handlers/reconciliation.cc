#include "services/rpc/handlers/reconciliation.h"

#include "services/domain/names/names.h"
#include "services/rpc/converters/reconciliation.h"
#include "services/rpc/page_token.h"
#include "services/usecases/reconciliations.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::Call;

absl::StatusOr<v1::Reconciliation> Answer(const absl::StatusOr<storage::ReconciliationRow>& row) {
  if (!row.ok()) return row.status();
  return ToProto(*row);
}

absl::StatusOr<v1::ListReconciliationsResponse> List(
    Application& application, Call& call, const v1::ListReconciliationsRequest& request) {
  auto name = ParseName<TestCallName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto asked = ReadPage(request, call.method + request.parent());
  if (!asked.ok()) return asked.status();
  auto page = usecases::ListReconciliations(application, call, name->pattern, name->call,
                                            asked->number(0), asked->size);
  if (!page.ok()) return page.status();
  v1::ListReconciliationsResponse response;
  for (const auto& row : page->reconciliations) {
    *response.add_reconciliations() = ToListedProto(row);
  }
  if (page->more) {
    response.set_next_page_token(NextPageToken(*asked, {page->reconciliations.back().number, ""}));
  }
  return response;
}

absl::StatusOr<v1::SetAsideMeasurement> Set(Application& application, Call& call,
                                            const v1::SetAsideRequest& request) {
  auto name = ParseName<SeatName>("name", request.name());
  if (!name.ok()) return name.status();
  auto quantity = FromProto("quantity", request.quantity());
  if (!quantity.ok()) return quantity.status();
  auto row = usecases::SetAside(application, call, name->pattern, name->call, name->seat, *quantity,
                                request.note());
  if (!row.ok()) return row.status();
  return ToProto(name->pattern, name->call, *row);
}

absl::StatusOr<v1::TakeBackResponse> Take(Application& application, Call& call,
                                          const v1::TakeBackRequest& request) {
  auto name = ParseName<SeatName>("name", request.name());
  if (!name.ok()) return name.status();
  auto quantity = FromProto("quantity", request.quantity());
  if (!quantity.ok()) return quantity.status();
  auto status =
      usecases::TakeBack(application, call, name->pattern, name->call, name->seat, *quantity);
  if (!status.ok()) return status;
  return v1::TakeBackResponse();
}

}  // namespace

grpc::Status ReconciliationHandlers::Reconcile(grpc::ServerContext* context,
                                               const v1::ReconcileRequest* request,
                                               v1::Reconciliation* response) {
  return desk_.Serve(
      *context, "ReconciliationService.Reconcile", *request, response,
      [&](Call& call) -> absl::StatusOr<v1::Reconciliation> {
        auto name = ParseName<TestCallName>("parent", request->parent());
        if (!name.ok()) return name.status();
        return Answer(usecases::Reconcile(desk_.application(), call, name->pattern, name->call));
      });
}

grpc::Status ReconciliationHandlers::GetReconciliation(grpc::ServerContext* context,
                                                       const v1::GetReconciliationRequest* request,
                                                       v1::Reconciliation* response) {
  return desk_.Serve(
      *context, "ReconciliationService.GetReconciliation", *request, response,
      [&](Call& call) -> absl::StatusOr<v1::Reconciliation> {
        auto name = ParseName<ReconciliationName>("name", request->name());
        if (!name.ok()) return name.status();
        return Answer(usecases::GetReconciliation(desk_.application(), call, name->pattern,
                                                  name->call, name->reconciliation));
      });
}

grpc::Status ReconciliationHandlers::ListReconciliations(
    grpc::ServerContext* context, const v1::ListReconciliationsRequest* request,
    v1::ListReconciliationsResponse* response) {
  return desk_.Serve(*context, "ReconciliationService.ListReconciliations", *request, response,
                     [&](Call& call) { return List(desk_.application(), call, *request); });
}

grpc::Status ReconciliationHandlers::SetAside(grpc::ServerContext* context,
                                              const v1::SetAsideRequest* request,
                                              v1::SetAsideMeasurement* response) {
  return desk_.Serve(*context, "ReconciliationService.SetAside", *request, response,
                     [&](Call& call) { return Set(desk_.application(), call, *request); });
}

grpc::Status ReconciliationHandlers::TakeBack(grpc::ServerContext* context,
                                              const v1::TakeBackRequest* request,
                                              v1::TakeBackResponse* response) {
  return desk_.Serve(*context, "ReconciliationService.TakeBack", *request, response,
                     [&](Call& call) { return Take(desk_.application(), call, *request); });
}

}  // namespace rowproof::rpc
