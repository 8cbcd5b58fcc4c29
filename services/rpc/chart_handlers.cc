#include "services/rpc/chart_handlers.h"

#include <algorithm>

#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/rpc/convert_design.h"
#include "services/rpc/convert_estimate.h"
#include "services/usecases/draw_chart.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<usecases::ReadDesign> DesignFrom(const v1::Design& design) {
  auto source = FromProto(design);
  if (!source.ok()) return source.status();
  return usecases::Read(*source);
}

absl::StatusOr<v1::CheckResult> Check(const v1::CheckChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  return ToProto(chart::Check(read->design), read->design, chart::kRulesVersion,
                 read->swap_colours_offered);
}

absl::StatusOr<v1::RepairResult> Repair(const v1::RepairChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto repair = chart::FindRepair(read->design);
  if (!repair.ok()) return repair.status();
  return ToProto(*repair, read->design);
}

absl::StatusOr<v1::WrittenRows> Write(const v1::WriteRowsRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto settings = FromProto(request.settings());
  if (!settings.ok()) return settings.status();
  auto written = rows::WriteRows(read->design, *settings);
  if (!written.ok()) return written.status();
  return ToProto(*written);
}

absl::StatusOr<v1::SizeEstimate> Estimate(const v1::EstimateChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto making = FromProto(request.making());
  if (!making.ok()) return UnderField(making.status(), "making");
  const auto& sizes = read->design.sizes;
  const auto wanted = request.size().empty()
                          ? sizes.begin()
                          : std::find_if(sizes.begin(), sizes.end(), [&](const chart::Size& size) {
                              return size.name == request.size();
                            });
  if (wanted == sizes.end()) {
    return InvalidField("size", request.size(), "the name of one of the design's sizes");
  }
  const int index = static_cast<int>(wanted - sizes.begin());
  auto size = estimate::EstimateRows(read->design, index, *making,
                                     chart::ExpandedRows(read->design, index));
  if (!size.ok()) return UnderField(size.status(), "making");
  return ToProto(*size);
}

absl::StatusOr<v1::DrawChartResponse> Draw(const v1::DrawChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  usecases::DrawingFormat format = usecases::DrawingFormat::kPng;
  if (request.format() == v1::DRAWING_FORMAT_SVG) format = usecases::DrawingFormat::kSvg;
  if (request.format() == v1::DRAWING_FORMAT_PDF) format = usecases::DrawingFormat::kPdf;
  if (!v1::DrawingFormat_IsValid(request.format())) {
    return InvalidField("format", std::to_string(request.format()), "PNG, SVG or PDF");
  }
  auto content = usecases::DrawChart(read->design, format);
  if (!content.ok()) return content.status();
  v1::DrawChartResponse response;
  response.set_content(std::move(*content));
  return response;
}

}  // namespace

grpc::Status ChartHandlers::CheckChart(grpc::ServerContext* context,
                                       const v1::CheckChartRequest* request,
                                       v1::CheckResult* response) {
  return desk_.Serve(*context, "ChartService.CheckChart", *request, response,
                     [&](usecases::Call&) { return Check(*request); });
}

grpc::Status ChartHandlers::RepairChart(grpc::ServerContext* context,
                                        const v1::RepairChartRequest* request,
                                        v1::RepairResult* response) {
  return desk_.Serve(*context, "ChartService.RepairChart", *request, response,
                     [&](usecases::Call&) { return Repair(*request); });
}

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
                     [&](usecases::Call&) { return Estimate(*request); });
}

grpc::Status ChartHandlers::DrawChart(grpc::ServerContext* context,
                                      const v1::DrawChartRequest* request,
                                      v1::DrawChartResponse* response) {
  return desk_.Serve(*context, "ChartService.DrawChart", *request, response,
                     [&](usecases::Call&) { return Draw(*request); });
}

}  // namespace rowproof::rpc
