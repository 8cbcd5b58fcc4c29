#include "services/domain/errors.h"
#include "services/rpc/charts/methods.h"
#include "services/rpc/converters/charts/conversion.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/findings.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::CheckResult> CheckChart(const v1::CheckChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto settings = FromProto(request.settings());
  if (!settings.ok()) return settings.status();
  return ToProto(chart::Check(read->design, *settings), read->design, chart::kRulesVersion,
                 read->swap_colours_offered);
}

absl::StatusOr<v1::RepairResult> RepairChart(const v1::RepairChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto options = FromProto(request.options(), read->design);
  if (!options.ok()) return options.status();
  auto repair = chart::FindRepair(read->design, *options);
  if (!repair.ok()) return UnderField(repair.status(), "options");
  return ToProto(*repair, read->design);
}

absl::StatusOr<v1::ConvertedChart> ConvertChart(const usecases::CalibrationLookup& lookup,
                                                usecases::RequestContext& context,
                                                const v1::ConvertChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto asked = FromProto(request);
  if (!asked.ok()) return asked.status();
  if (request.has_materials()) {
    auto materials = MaterialsFrom(lookup, context, "materials", request.materials(), read->design);
    if (!materials.ok()) return materials.status();
    asked->materials = *std::move(materials);
  }
  if (request.has_materials_after()) {
    auto materials =
        MaterialsFrom(lookup, context, "materials_after", request.materials_after(), read->design);
    if (!materials.ok()) return materials.status();
    asked->materials_after = *std::move(materials);
  }
  auto converted = usecases::ConvertChart(read->design, *asked);
  if (!converted.ok()) return converted.status();
  return ToProto(*converted, read->design);
}

absl::StatusOr<v1::Repeats> FindRepeats(const v1::FindRepeatsRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  chart::RepeatOptions options;
  if (request.max_answer_count() != 0) options.most_answers = request.max_answer_count();
  options.sides_may_change = request.sides_may_change();
  auto repeats = chart::FindRepeats(read->design, options);
  if (!repeats.ok()) return UnderFieldExcept("max_answer_count", repeats.status(), "design");
  return ToProto(*repeats);
}

}  // namespace

std::vector<Method> DesignMethods(const usecases::CalibrationLookup& lookup) {
  return {MethodOf("CheckChart", CheckChart), MethodOf("RepairChart", RepairChart),
          MethodOf("ConvertChart", ConvertChart, lookup), MethodOf("FindRepeats", FindRepeats)};
}

}  // namespace rowproof::rpc
