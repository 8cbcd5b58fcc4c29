// Handlers of ReportService.
#ifndef ROWPROOF_SERVICES_RPC_HANDLERS_REPORT_H_
#define ROWPROOF_SERVICES_RPC_HANDLERS_REPORT_H_

#include "rowproof/v1/report_service.grpc.pb.h"
#include "services/rpc/desk.h"

namespace rowproof::rpc {

// Thread-safe.
class ReportHandlers final : public v1::ReportService::Service {
 public:
  explicit ReportHandlers(const Desk& desk) : desk_(desk) {}

  grpc::Status SubmitReport(grpc::ServerContext* context, const v1::SubmitReportRequest* request,
                            v1::Report* response) override;
  grpc::Status SubmitForm(grpc::ServerContext* context, const v1::SubmitFormRequest* request,
                          v1::SubmitFormResponse* response) override;
  grpc::Status GetReport(grpc::ServerContext* context, const v1::GetReportRequest* request,
                         v1::Report* response) override;
  grpc::Status ListReports(grpc::ServerContext* context, const v1::ListReportsRequest* request,
                           v1::ListReportsResponse* response) override;
  grpc::Status ListErrata(grpc::ServerContext* context, const v1::ListErrataRequest* request,
                          v1::ListErrataResponse* response) override;
  grpc::Status DecideErratum(grpc::ServerContext* context, const v1::DecideErratumRequest* request,
                             v1::Erratum* response) override;
  grpc::Status ConfirmErratum(grpc::ServerContext* context,
                              const v1::ConfirmErratumRequest* request,
                              v1::Erratum* response) override;

 private:
  const Desk& desk_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_HANDLERS_REPORT_H_
