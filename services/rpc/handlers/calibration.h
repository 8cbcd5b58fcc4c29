// Handlers of CalibrationService.
#ifndef ROWPROOF_SERVICES_RPC_HANDLERS_CALIBRATION_H_
#define ROWPROOF_SERVICES_RPC_HANDLERS_CALIBRATION_H_

#include "rowproof/v1/calibration_service.grpc.pb.h"
#include "services/rpc/desk.h"

namespace rowproof::rpc {

// Thread-safe.
class CalibrationHandlers final : public v1::CalibrationService::Service {
 public:
  explicit CalibrationHandlers(const Desk& desk) : desk_(desk) {}

  grpc::Status CreateCalibration(grpc::ServerContext* context,
                                 const v1::CreateCalibrationRequest* request,
                                 v1::Calibration* response) override;
  grpc::Status GetCalibration(grpc::ServerContext* context,
                              const v1::GetCalibrationRequest* request,
                              v1::Calibration* response) override;
  grpc::Status ListCalibrations(grpc::ServerContext* context,
                                const v1::ListCalibrationsRequest* request,
                                v1::ListCalibrationsResponse* response) override;
  grpc::Status UpdateCalibration(grpc::ServerContext* context,
                                 const v1::UpdateCalibrationRequest* request,
                                 v1::Calibration* response) override;
  grpc::Status DeleteCalibration(grpc::ServerContext* context,
                                 const v1::DeleteCalibrationRequest* request,
                                 v1::DeleteCalibrationResponse* response) override;
  grpc::Status CreateCalibrationRevision(grpc::ServerContext* context,
                                         const v1::CreateCalibrationRevisionRequest* request,
                                         v1::CalibrationRevision* response) override;
  grpc::Status GetCalibrationRevision(grpc::ServerContext* context,
                                      const v1::GetCalibrationRevisionRequest* request,
                                      v1::CalibrationRevision* response) override;
  grpc::Status ListCalibrationRevisions(grpc::ServerContext* context,
                                        const v1::ListCalibrationRevisionsRequest* request,
                                        v1::ListCalibrationRevisionsResponse* response) override;

 private:
  const Desk& desk_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_HANDLERS_CALIBRATION_H_
