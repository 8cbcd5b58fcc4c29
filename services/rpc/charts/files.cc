#include <utility>

#include "services/rpc/charts/methods.h"
#include "services/rpc/converters/charts/chart_file.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/drawing.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::ImportedChart> ImportChart(const v1::ImportChartRequest& request) {
  auto file = FromProto(request.file());
  if (!file.ok()) return file.status();
  auto imported = usecases::ReadFile(*file);
  if (!imported.ok()) return imported.status();
  return ToProto(*file, std::move(*imported));
}

absl::StatusOr<v1::ExportChartResponse> ExportChart(const v1::ExportChartRequest& request) {
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

absl::StatusOr<v1::DrawChartResponse> DrawChart(const v1::DrawChartRequest& request) {
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

std::vector<Method> FileMethods() {
  return {MethodOf("ImportChart", ImportChart), MethodOf("ExportChart", ExportChart),
          MethodOf("DrawChart", DrawChart)};
}

}  // namespace rowproof::rpc
