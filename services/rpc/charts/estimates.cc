#include "services/domain/errors.h"
#include "services/rpc/charts/methods.h"
#include "services/rpc/converters/charts/calibration.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/drawing.h"
#include "services/rpc/converters/charts/estimate.h"
#include "services/usecases/charts/draw_estimate.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::WrittenRows> WriteRows(const v1::WriteRowsRequest& request) {
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
  estimate::Materials materials;
  int size = 0;
};

template <typename Request>
absl::StatusOr<Estimated> EstimatedFrom(const usecases::CalibrationLookup& lookup,
                                        usecases::RequestContext& context, const Request& request,
                                        const std::string& size) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto materials = MaterialsFrom(lookup, context, "materials", request.materials(), read->design);
  if (!materials.ok()) return materials.status();
  auto index = SizeIndex(read->design, size);
  if (!index.ok()) return index.status();
  return Estimated{std::move(*read), std::move(*materials), *index};
}

absl::StatusOr<estimate::SizeEstimate> EstimateOf(const Estimated& asked) {
  auto size = estimate::EstimateSize(asked.read.design, asked.size, asked.materials);
  if (!size.ok()) return UnderField(size.status(), "materials");
  return size;
}

absl::StatusOr<v1::SizeEstimate> EstimateChart(const usecases::CalibrationLookup& lookup,
                                               usecases::RequestContext& context,
                                               const v1::EstimateChartRequest& request) {
  auto asked = EstimatedFrom(lookup, context, request, request.size());
  if (!asked.ok()) return asked.status();
  auto size = EstimateOf(*asked);
  if (!size.ok()) return size.status();
  return ToProto(*size);
}

absl::StatusOr<v1::EndsComparison> CompareEnds(const usecases::CalibrationLookup& lookup,
                                               usecases::RequestContext& context,
                                               const v1::CompareEndsRequest& request) {
  auto asked = EstimatedFrom(lookup, context, request, request.size());
  if (!asked.ok()) return asked.status();
  const double minutes_per_end =
      request.has_minutes_per_end() ? request.minutes_per_end() : estimate::kMinutesPerEnd;
  auto ways = estimate::CompareEndsMethods(asked->read.design, asked->size, asked->materials,
                                           minutes_per_end);
  if (!ways.ok()) return UnderFieldExcept("minutes_per_end", ways.status(), "materials");
  return ToProto(asked->read.design.sizes[static_cast<size_t>(asked->size)].name, *ways,
                 minutes_per_end);
}

absl::StatusOr<v1::SizeChoice> ChooseSize(const usecases::CalibrationLookup& lookup,
                                          usecases::RequestContext& context,
                                          const v1::ChooseSizeRequest& request) {
  auto asked = EstimatedFrom(lookup, context, request, "");
  if (!asked.ok()) return asked.status();
  estimate::SizeTarget target;
  if (request.has_width_mm()) target.width_mm = request.width_mm();
  if (request.has_height_mm()) target.height_mm = request.height_mm();
  target.after_blocking = request.after_blocking();
  auto choice = estimate::ChooseSize(asked->read.design, asked->materials, target);
  if (!choice.ok()) return choice.status();
  return ToProto(*choice);
}

absl::StatusOr<v1::DrawEstimateResponse> DrawEstimate(const usecases::CalibrationLookup& lookup,
                                                      usecases::RequestContext& context,
                                                      const v1::DrawEstimateRequest& request) {
  auto asked = EstimatedFrom(lookup, context, request, request.size());
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

std::vector<Method> EstimateMethods(const usecases::CalibrationLookup& lookup) {
  return {
      MethodOf("WriteRows", WriteRows),           MethodOf("EstimateChart", EstimateChart, lookup),
      MethodOf("CalibrateYarn", Calibrate),       MethodOf("CompareEnds", CompareEnds, lookup),
      MethodOf("ChooseSize", ChooseSize, lookup), MethodOf("DrawEstimate", DrawEstimate, lookup)};
}

}  // namespace rowproof::rpc
