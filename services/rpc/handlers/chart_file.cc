// Methods of ChartService that read or write files.
#include "services/rpc/converters/chart_file.h"

#include <utility>

#include "services/rpc/converters/design.h"
#include "services/rpc/converters/drawing.h"
#include "services/rpc/handlers/chart.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::ImportedChart> Import(const v1::ImportChartRequest& request) {
  auto file = FromProto(request.file());
  if (!file.ok()) return file.status();
  auto imported = usecases::ReadFile(*file);
  if (!imported.ok()) return imported.status();
  return ToProto(*file, std::move(*imported));
}

absl::StatusOr<v1::ExportChartResponse> Export(const v1::ExportChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto settings = FromProto(request);
  if (!settings.ok()) return settings.status();
  auto content = usecases::ExportChart(read->design, *settings);
  if (!content.ok()) return content.status();
  v1::ExportChartResponse response;
  response.set_content(std::move(*content));
  return response;
}

absl::StatusOr<v1::DrawChartResponse> Draw(const v1::DrawChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto format = FormatFrom(request.format());
  if (!format.ok()) return format.status();
  auto drawing = FromProto(request, read->design);
  if (!drawing.ok()) return drawing.status();
  auto content = usecases::DrawChart(read->design, *drawing, *format);
  if (!content.ok()) return content.status();
  v1::DrawChartResponse response;
  response.set_content(std::move(*content));
  return response;
}

}  // namespace

grpc::Status ChartHandlers::ImportChart(grpc::ServerContext* context,
                                        const v1::ImportChartRequest* request,
                                        v1::ImportedChart* response) {
  return desk_.Serve(*context, "ChartService.ImportChart", *request, response,
                     [&](usecases::Call&) { return Import(*request); });
}

grpc::Status ChartHandlers::ExportChart(grpc::ServerContext* context,
                                        const v1::ExportChartRequest* request,
                                        v1::ExportChartResponse* response) {
  return desk_.Serve(*context, "ChartService.ExportChart", *request, response,
                     [&](usecases::Call&) { return Export(*request); });
}

grpc::Status ChartHandlers::DrawChart(grpc::ServerContext* context,
                                      const v1::DrawChartRequest* request,
                                      v1::DrawChartResponse* response) {
  return desk_.Serve(*context, "ChartService.DrawChart", *request, response,
                     [&](usecases::Call&) { return Draw(*request); });
}

}  // namespace rowproof::rpc
