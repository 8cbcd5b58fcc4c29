#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/rpc/charts/chart_service.h"
#include "services/rpc/converters/charts/conversion.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/findings.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::CheckResult> CheckChart(const v1::CheckChartRequest& request, const Stop& stop) {
  ASSIGN_OR_RETURN(auto read, DesignFrom(request.design(), stop));
  ASSIGN_OR_RETURN(auto settings, FromProto(request.settings()));
  const chart::CheckResult check = chart::Check(read.design, settings, stop);
  RETURN_IF_ERROR(stop.status());
  return ToProto(check, read.design, chart::kRulesVersion, read.swap_colours_offered);
}

absl::StatusOr<v1::RepairResult> RepairChart(const v1::RepairChartRequest& request,
                                             const Stop& stop) {
  ASSIGN_OR_RETURN(auto read, DesignFrom(request.design(), stop));
  ASSIGN_OR_RETURN(auto options, FromProto(request.options(), read.design, stop));
  auto repair = chart::FindRepair(read.design, options, stop);
  if (!repair.ok()) return UnderField(repair.status(), "options");
  v1::RepairResult result = ToProto(*repair, read.design, stop);
  RETURN_IF_ERROR(stop.status());
  return result;
}

absl::StatusOr<v1::ConvertedChart> ConvertChart(const usecases::CalibrationLookup& lookup,
                                                usecases::RequestContext& context,
                                                const v1::ConvertChartRequest& request) {
  ASSIGN_OR_RETURN(auto read, DesignFrom(request.design(), context.stop));
  ASSIGN_OR_RETURN(auto asked, FromProto(request));
  if (request.has_materials()) {
    ASSIGN_OR_RETURN(auto materials,
                     MaterialsFrom(lookup, context, "materials", request.materials(), read.design));
    asked.materials = std::move(materials);
  }
  if (request.has_materials_after()) {
    ASSIGN_OR_RETURN(auto materials, MaterialsFrom(lookup, context, "materials_after",
                                                   request.materials_after(), read.design));
    asked.materials_after = std::move(materials);
  }
  ASSIGN_OR_RETURN(auto converted, usecases::ConvertChart(read.design, asked, context.stop));
  v1::ConvertedChart answer = ToProto(converted, read.design, context.stop);
  RETURN_IF_ERROR(context.stop.status());
  return answer;
}

absl::StatusOr<v1::Repeats> FindRepeats(const v1::FindRepeatsRequest& request, const Stop& stop) {
  ASSIGN_OR_RETURN(auto read, DesignFrom(request.design(), stop));
  chart::RepeatOptions options;
  if (request.max_answer_count() != 0) options.most_answers = request.max_answer_count();
  options.sides_may_change = request.sides_may_change();
  auto repeats = chart::FindRepeats(read.design, options, stop);
  if (!repeats.ok()) return UnderFieldExcept("max_answer_count", repeats.status(), "design");
  return ToProto(*repeats);
}

}  // namespace

std::vector<Method> DesignMethods(const usecases::CalibrationLookup& lookup) {
  return {MethodOf("CheckChart", CheckChart), MethodOf("RepairChart", RepairChart),
          MethodOf("ConvertChart", ConvertChart, lookup), MethodOf("FindRepeats", FindRepeats)};
}

}  // namespace rowproof::rpc
