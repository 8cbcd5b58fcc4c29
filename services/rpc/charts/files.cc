#include <utility>

#include "services/domain/status_macros.h"
#include "services/rpc/charts/chart_service.h"
#include "services/rpc/converters/charts/chart_file.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/drawing.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::ImportedChart> ImportChart(const v1::ImportChartRequest& request,
                                              const Stop& stop) {
  ASSIGN_OR_RETURN(auto file, FromProto(request.file()));
  ASSIGN_OR_RETURN(auto imported, usecases::ReadFile(file, stop));
  return ToProto(file, std::move(imported));
}

absl::StatusOr<v1::ExportChartResponse> ExportChart(const v1::ExportChartRequest& request,
                                                    const Stop& stop) {
  ASSIGN_OR_RETURN(auto read, DesignFrom(request.design(), stop));
  ASSIGN_OR_RETURN(auto settings, FromProto(request));
  ASSIGN_OR_RETURN(auto content, usecases::ExportChart(read.design, settings, stop));
  v1::ExportChartResponse response;
  response.set_content(std::move(content));
  return response;
}

absl::StatusOr<v1::DrawChartResponse> DrawChart(const v1::DrawChartRequest& request,
                                                const Stop& stop) {
  ASSIGN_OR_RETURN(auto read, DesignFrom(request.design(), stop));
  ASSIGN_OR_RETURN(auto format, FormatFrom(request.format()));
  ASSIGN_OR_RETURN(auto drawing, FromProto(request, read.design));
  ASSIGN_OR_RETURN(auto content, usecases::DrawChart(read.design, drawing, format, stop));
  v1::DrawChartResponse response;
  response.set_content(std::move(content));
  return response;
}

}  // namespace

std::vector<Method> FileMethods() {
  return {MethodOf("ImportChart", ImportChart), MethodOf("ExportChart", ExportChart),
          MethodOf("DrawChart", DrawChart)};
}

}  // namespace rowproof::rpc
