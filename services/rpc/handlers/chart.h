// Handlers of ChartService: stateless, and without storage but for a kept calibration, so that the
// client can host them as well.
#ifndef ROWPROOF_SERVICES_RPC_HANDLERS_CHART_H_
#define ROWPROOF_SERVICES_RPC_HANDLERS_CHART_H_

#include "rowproof/v1/chart_service.grpc.pb.h"
#include "services/rpc/desk.h"

namespace rowproof::rpc {

// Thread-safe.
class ChartHandlers final : public v1::ChartService::Service {
 public:
  explicit ChartHandlers(const Desk& desk) : desk_(desk) {}

  grpc::Status CheckChart(grpc::ServerContext* context, const v1::CheckChartRequest* request,
                          v1::CheckResult* response) override;
  grpc::Status RepairChart(grpc::ServerContext* context, const v1::RepairChartRequest* request,
                           v1::RepairResult* response) override;
  grpc::Status ConvertChart(grpc::ServerContext* context, const v1::ConvertChartRequest* request,
                            v1::ConvertedChart* response) override;
  grpc::Status FindRepeats(grpc::ServerContext* context, const v1::FindRepeatsRequest* request,
                           v1::Repeats* response) override;
  grpc::Status ImportChart(grpc::ServerContext* context, const v1::ImportChartRequest* request,
                           v1::ImportedChart* response) override;
  grpc::Status ExportChart(grpc::ServerContext* context, const v1::ExportChartRequest* request,
                           v1::ExportChartResponse* response) override;
  grpc::Status WriteRows(grpc::ServerContext* context, const v1::WriteRowsRequest* request,
                         v1::WrittenRows* response) override;
  grpc::Status ReadRows(grpc::ServerContext* context, const v1::ReadRowsRequest* request,
                        v1::TextRows* response) override;
  grpc::Status CompareRows(grpc::ServerContext* context, const v1::CompareRowsRequest* request,
                           v1::TextComparison* response) override;
  grpc::Status EstimateChart(grpc::ServerContext* context, const v1::EstimateChartRequest* request,
                             v1::SizeEstimate* response) override;
  grpc::Status CalibrateYarn(grpc::ServerContext* context, const v1::CalibrateYarnRequest* request,
                             v1::YarnCalibration* response) override;
  grpc::Status CompareEnds(grpc::ServerContext* context, const v1::CompareEndsRequest* request,
                           v1::EndsComparison* response) override;
  grpc::Status ChooseSize(grpc::ServerContext* context, const v1::ChooseSizeRequest* request,
                          v1::SizeChoice* response) override;
  grpc::Status DrawEstimate(grpc::ServerContext* context, const v1::DrawEstimateRequest* request,
                            v1::DrawEstimateResponse* response) override;
  grpc::Status DrawChart(grpc::ServerContext* context, const v1::DrawChartRequest* request,
                         v1::DrawChartResponse* response) override;

 private:
  const Desk& desk_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_HANDLERS_CHART_H_
