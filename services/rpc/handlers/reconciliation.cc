#include "services/rpc/converters/reconciliation.h"

#include "rowproof/v1/reconciliation_service.pb.h"
#include "services/domain/names/names.h"
#include "services/rpc/handlers/services.h"
#include "services/rpc/page_token.h"
#include "services/rpc/service.h"
#include "services/usecases/reconciliations.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::RequestContext;

absl::StatusOr<v1::Reconciliation> Answer(const absl::StatusOr<storage::ReconciliationRow>& row) {
  if (!row.ok()) return row.status();
  return ToProto(*row);
}

absl::StatusOr<v1::ListReconciliationsResponse> ListReconciliations(
    Application& application, RequestContext& context,
    const v1::ListReconciliationsRequest& request) {
  auto name = ParseName<TestCallName>("parent", request.parent());
  if (!name.ok()) return name.status();
  auto asked = ReadPage(request, context.method + request.parent());
  if (!asked.ok()) return asked.status();
  auto page = usecases::ListReconciliations(application, context, name->pattern, name->call,
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

absl::StatusOr<v1::SetAsideMeasurement> SetAside(Application& application, RequestContext& context,
                                                 const v1::SetAsideRequest& request) {
  auto name = ParseName<SeatName>("name", request.name());
  if (!name.ok()) return name.status();
  auto quantity = FromProto("quantity", request.quantity());
  if (!quantity.ok()) return quantity.status();
  auto row = usecases::SetAside(application, context, name->pattern, name->call, name->seat,
                                *quantity, request.note());
  if (!row.ok()) return row.status();
  return ToProto(name->pattern, name->call, *row);
}

absl::StatusOr<v1::TakeBackResponse> TakeBack(Application& application, RequestContext& context,
                                              const v1::TakeBackRequest& request) {
  auto name = ParseName<SeatName>("name", request.name());
  if (!name.ok()) return name.status();
  auto quantity = FromProto("quantity", request.quantity());
  if (!quantity.ok()) return quantity.status();
  auto status =
      usecases::TakeBack(application, context, name->pattern, name->call, name->seat, *quantity);
  if (!status.ok()) return status;
  return v1::TakeBackResponse();
}

absl::StatusOr<v1::Reconciliation> Reconcile(Application& application, RequestContext& context,
                                             const v1::ReconcileRequest& request) {
  auto name = ParseName<TestCallName>("parent", request.parent());
  if (!name.ok()) return name.status();
  return Answer(usecases::Reconcile(application, context, name->pattern, name->call));
}

absl::StatusOr<v1::Reconciliation> GetReconciliation(Application& application,
                                                     RequestContext& context,
                                                     const v1::GetReconciliationRequest& request) {
  auto name = ParseName<ReconciliationName>("name", request.name());
  if (!name.ok()) return name.status();
  return Answer(usecases::GetReconciliation(application, context, name->pattern, name->call,
                                            name->reconciliation));
}

}  // namespace

std::unique_ptr<Service> MakeReconciliationService(const Dispatcher& dispatcher,
                                                   usecases::Application& application) {
  return std::make_unique<Service>(
      dispatcher, "ReconciliationService",
      std::vector<Method>{MethodOf("Reconcile", Reconcile, application),
                          MethodOf("GetReconciliation", GetReconciliation, application),
                          MethodOf("ListReconciliations", ListReconciliations, application),
                          MethodOf("SetAside", SetAside, application),
                          MethodOf("TakeBack", TakeBack, application)});
}

}  // namespace rowproof::rpc
