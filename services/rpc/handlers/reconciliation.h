// Handlers of ReconciliationService.
#ifndef ROWPROOF_SERVICES_RPC_HANDLERS_RECONCILIATION_H_
#define ROWPROOF_SERVICES_RPC_HANDLERS_RECONCILIATION_H_

#include "rowproof/v1/reconciliation_service.grpc.pb.h"
#include "services/rpc/desk.h"

namespace rowproof::rpc {

// Thread-safe.
class ReconciliationHandlers final : public v1::ReconciliationService::Service {
 public:
  explicit ReconciliationHandlers(const Desk& desk) : desk_(desk) {}

  grpc::Status Reconcile(grpc::ServerContext* context, const v1::ReconcileRequest* request,
                         v1::Reconciliation* response) override;
  grpc::Status GetReconciliation(grpc::ServerContext* context,
                                 const v1::GetReconciliationRequest* request,
                                 v1::Reconciliation* response) override;
  grpc::Status ListReconciliations(grpc::ServerContext* context,
                                   const v1::ListReconciliationsRequest* request,
                                   v1::ListReconciliationsResponse* response) override;
  grpc::Status SetAside(grpc::ServerContext* context, const v1::SetAsideRequest* request,
                        v1::SetAsideMeasurement* response) override;
  grpc::Status TakeBack(grpc::ServerContext* context, const v1::TakeBackRequest* request,
                        v1::TakeBackResponse* response) override;

 private:
  const Desk& desk_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_HANDLERS_RECONCILIATION_H_
