#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/rpc/charts/chart_service.h"
#include "services/rpc/converters/charts/calibration.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/drawing.h"
#include "services/rpc/converters/charts/estimate.h"
#include "services/usecases/charts/draw_estimate.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::WrittenRows> WriteRows(const v1::WriteRowsRequest& request, const Stop& stop) {
  ASSIGN_OR_RETURN(auto read, DesignFrom(request.design(), stop));
  ASSIGN_OR_RETURN(auto style, FromProto("settings", request.settings()));
  ASSIGN_OR_RETURN(auto written, rows::WriteRows(read.design, rows::SettingsOf(style), stop));
  return ToProto(written);
}

// What every question about an estimate is asked of.
struct Estimated {
  usecases::ReadDesign read;
  estimate::Materials materials;
  int size = 0;
};

template <typename Request>
absl::StatusOr<Estimated> EstimatedFrom(const usecases::CalibrationLookup& lookup,
                                        usecases::RequestContext& context, const Request& request,
                                        const std::string& size) {
  ASSIGN_OR_RETURN(auto read, DesignFrom(request.design(), context.stop));
  ASSIGN_OR_RETURN(auto materials,
                   MaterialsFrom(lookup, context, "materials", request.materials(), read.design));
  ASSIGN_OR_RETURN(auto index, SizeIndex(read.design, size));
  return Estimated{std::move(read), std::move(materials), index};
}

absl::StatusOr<estimate::SizeEstimate> EstimateOf(const Estimated& asked) {
  auto size = estimate::EstimateSize(asked.read.design, asked.size, asked.materials);
  if (!size.ok()) return UnderField(size.status(), "materials");
  return size;
}

absl::StatusOr<v1::SizeEstimate> EstimateChart(const usecases::CalibrationLookup& lookup,
                                               usecases::RequestContext& context,
                                               const v1::EstimateChartRequest& request) {
  ASSIGN_OR_RETURN(auto asked, EstimatedFrom(lookup, context, request, request.size()));
  ASSIGN_OR_RETURN(auto size, EstimateOf(asked));
  return ToProto(size);
}

absl::StatusOr<v1::EndsComparison> CompareEnds(const usecases::CalibrationLookup& lookup,
                                               usecases::RequestContext& context,
                                               const v1::CompareEndsRequest& request) {
  ASSIGN_OR_RETURN(auto asked, EstimatedFrom(lookup, context, request, request.size()));
  const double minutes_per_end =
      request.has_minutes_per_end() ? request.minutes_per_end() : estimate::kMinutesPerEnd;
  auto ways =
      estimate::CompareEndsMethods(asked.read.design, asked.size, asked.materials, minutes_per_end);
  if (!ways.ok()) return UnderFieldExcept("minutes_per_end", ways.status(), "materials");
  return ToProto(asked.read.design.sizes[static_cast<size_t>(asked.size)].name, *ways,
                 minutes_per_end);
}

absl::StatusOr<v1::SizeChoice> ChooseSize(const usecases::CalibrationLookup& lookup,
                                          usecases::RequestContext& context,
                                          const v1::ChooseSizeRequest& request) {
  ASSIGN_OR_RETURN(auto asked, EstimatedFrom(lookup, context, request, ""));
  estimate::SizeTarget target;
  if (request.has_width_mm()) target.width_mm = request.width_mm();
  if (request.has_height_mm()) target.height_mm = request.height_mm();
  target.after_blocking = request.after_blocking();
  ASSIGN_OR_RETURN(auto choice, estimate::ChooseSize(asked.read.design, asked.materials, target));
  return ToProto(choice);
}

absl::StatusOr<v1::DrawEstimateResponse> DrawEstimate(const usecases::CalibrationLookup& lookup,
                                                      usecases::RequestContext& context,
                                                      const v1::DrawEstimateRequest& request) {
  ASSIGN_OR_RETURN(auto asked, EstimatedFrom(lookup, context, request, request.size()));
  ASSIGN_OR_RETURN(auto format, FormatFrom(request.format()));
  ASSIGN_OR_RETURN(auto size, EstimateOf(asked));
  ASSIGN_OR_RETURN(auto content, usecases::DrawEstimate(size, format));
  v1::DrawEstimateResponse response;
  response.set_content(std::move(content));
  return response;
}

}  // namespace

std::vector<Method> EstimateMethods(const usecases::CalibrationLookup& lookup) {
  return {
      MethodOf("WriteRows", WriteRows),           MethodOf("EstimateChart", EstimateChart, lookup),
      MethodOf("CalibrateYarn", Calibrate),       MethodOf("CompareEnds", CompareEnds, lookup),
      MethodOf("ChooseSize", ChooseSize, lookup), MethodOf("DrawEstimate", DrawEstimate, lookup)};
}

}  // namespace rowproof::rpc
