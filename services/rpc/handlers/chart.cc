// Methods of ChartService about written rows and estimates; the rest stand in
// chart_design_handlers.cc, chart_file_handlers.cc and chart_text_handlers.cc.
#include "services/rpc/handlers/chart.h"

#include "services/domain/errors.h"
#include "services/rpc/chart_making.h"
#include "services/rpc/converters/calibration.h"
#include "services/rpc/converters/design.h"
#include "services/rpc/converters/drawing.h"
#include "services/rpc/converters/estimate.h"
#include "services/usecases/draw_estimate.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::WrittenRows> Write(const v1::WriteRowsRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto settings = FromProto(request.settings());
  if (!settings.ok()) return settings.status();
  auto written = rows::WriteRows(read->design, *settings);
  if (!written.ok()) return written.status();
  return ToProto(*written);
}

// What every question about an estimate is asked of.
struct Estimated {
  usecases::ReadDesign read;
  estimate::Making making;
  int size = 0;
};

template <typename Request>
absl::StatusOr<Estimated> EstimatedFrom(const Desk& desk, usecases::Call& call,
                                        const Request& request, const std::string& size) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto making = MakingFrom(desk, call, "making", request.making(), read->design);
  if (!making.ok()) return making.status();
  auto index = SizeIndex(read->design, size);
  if (!index.ok()) return index.status();
  return Estimated{std::move(*read), std::move(*making), *index};
}

absl::StatusOr<estimate::SizeEstimate> EstimateOf(const Estimated& asked) {
  auto size = estimate::EstimateSize(asked.read.design, asked.size, asked.making);
  if (!size.ok()) return UnderField(size.status(), "making");
  return size;
}

absl::StatusOr<v1::SizeEstimate> Estimate(const Desk& desk, usecases::Call& call,
                                          const v1::EstimateChartRequest& request) {
  auto asked = EstimatedFrom(desk, call, request, request.size());
  if (!asked.ok()) return asked.status();
  auto size = EstimateOf(*asked);
  if (!size.ok()) return size.status();
  return ToProto(*size);
}

absl::StatusOr<v1::EndsComparison> CompareWays(const Desk& desk, usecases::Call& call,
                                               const v1::CompareEndsRequest& request) {
  auto asked = EstimatedFrom(desk, call, request, request.size());
  if (!asked.ok()) return asked.status();
  const double minutes_per_end =
      request.has_minutes_per_end() ? request.minutes_per_end() : estimate::kMinutesPerEnd;
  auto ways =
      estimate::CompareEndsMethods(asked->read.design, asked->size, asked->making, minutes_per_end);
  if (!ways.ok()) return ways.status();
  return ToProto(asked->read.design.sizes[static_cast<size_t>(asked->size)].name, *ways,
                 minutes_per_end);
}

absl::StatusOr<v1::SizeChoice> ChooseSizes(const Desk& desk, usecases::Call& call,
                                           const v1::ChooseSizeRequest& request) {
  auto asked = EstimatedFrom(desk, call, request, "");
  if (!asked.ok()) return asked.status();
  estimate::SizeTarget target;
  if (request.has_width_mm()) target.width_mm = request.width_mm();
  if (request.has_height_mm()) target.height_mm = request.height_mm();
  target.after_blocking = request.after_blocking();
  auto choice = estimate::ChooseSize(asked->read.design, asked->making, target);
  if (!choice.ok()) return choice.status();
  return ToProto(*choice);
}

absl::StatusOr<v1::DrawEstimateResponse> DrawBreakdown(const Desk& desk, usecases::Call& call,
                                                       const v1::DrawEstimateRequest& request) {
  auto asked = EstimatedFrom(desk, call, request, request.size());
  if (!asked.ok()) return asked.status();
  auto format = FormatFrom(request.format());
  if (!format.ok()) return format.status();
  auto size = EstimateOf(*asked);
  if (!size.ok()) return size.status();
  auto content = usecases::DrawEstimate(*size, *format);
  if (!content.ok()) return content.status();
  v1::DrawEstimateResponse response;
  response.set_content(std::move(*content));
  return response;
}

}  // namespace

grpc::Status ChartHandlers::WriteRows(grpc::ServerContext* context,
                                      const v1::WriteRowsRequest* request,
                                      v1::WrittenRows* response) {
  return desk_.Serve(*context, "ChartService.WriteRows", *request, response,
                     [&](usecases::Call&) { return Write(*request); });
}

grpc::Status ChartHandlers::EstimateChart(grpc::ServerContext* context,
                                          const v1::EstimateChartRequest* request,
                                          v1::SizeEstimate* response) {
  return desk_.Serve(*context, "ChartService.EstimateChart", *request, response,
                     [&](usecases::Call& call) { return Estimate(desk_, call, *request); });
}

grpc::Status ChartHandlers::CalibrateYarn(grpc::ServerContext* context,
                                          const v1::CalibrateYarnRequest* request,
                                          v1::YarnCalibration* response) {
  return desk_.Serve(*context, "ChartService.CalibrateYarn", *request, response,
                     [&](usecases::Call&) { return Calibrate(*request); });
}

grpc::Status ChartHandlers::CompareEnds(grpc::ServerContext* context,
                                        const v1::CompareEndsRequest* request,
                                        v1::EndsComparison* response) {
  return desk_.Serve(*context, "ChartService.CompareEnds", *request, response,
                     [&](usecases::Call& call) { return CompareWays(desk_, call, *request); });
}

grpc::Status ChartHandlers::ChooseSize(grpc::ServerContext* context,
                                       const v1::ChooseSizeRequest* request,
                                       v1::SizeChoice* response) {
  return desk_.Serve(*context, "ChartService.ChooseSize", *request, response,
                     [&](usecases::Call& call) { return ChooseSizes(desk_, call, *request); });
}

grpc::Status ChartHandlers::DrawEstimate(grpc::ServerContext* context,
                                         const v1::DrawEstimateRequest* request,
                                         v1::DrawEstimateResponse* response) {
  return desk_.Serve(*context, "ChartService.DrawEstimate", *request, response,
                     [&](usecases::Call& call) { return DrawBreakdown(desk_, call, *request); });
}

}  // namespace rowproof::rpc
