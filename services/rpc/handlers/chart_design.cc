// Methods of ChartService about the design alone: findings, repair, conversion, repeats.
#include "services/domain/errors.h"
#include "services/rpc/chart_making.h"
#include "services/rpc/converters/conversion.h"
#include "services/rpc/converters/design.h"
#include "services/rpc/converters/findings.h"
#include "services/rpc/handlers/chart.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::CheckResult> Check(const v1::CheckChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto settings = FromProto(request.settings());
  if (!settings.ok()) return settings.status();
  return ToProto(chart::Check(read->design, *settings), read->design, chart::kRulesVersion,
                 read->swap_colours_offered);
}

absl::StatusOr<v1::RepairResult> Repair(const v1::RepairChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto options = FromProto(request.options(), read->design);
  if (!options.ok()) return options.status();
  auto repair = chart::FindRepair(read->design, *options);
  if (!repair.ok()) return UnderField(repair.status(), "options");
  return ToProto(*repair, read->design);
}

absl::StatusOr<v1::ConvertedChart> Convert(const Desk& desk, usecases::Call& call,
                                           const v1::ConvertChartRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto asked = FromProto(request);
  if (!asked.ok()) return asked.status();
  if (request.has_making()) {
    auto making = MakingFrom(desk, call, "making", request.making(), read->design);
    if (!making.ok()) return making.status();
    asked->making = *std::move(making);
  }
  if (request.has_making_after()) {
    auto making = MakingFrom(desk, call, "making_after", request.making_after(), read->design);
    if (!making.ok()) return making.status();
    asked->making_after = *std::move(making);
  }
  auto converted = usecases::ConvertChart(read->design, *asked);
  if (!converted.ok()) return converted.status();
  return ToProto(*converted, read->design);
}

absl::StatusOr<v1::Repeats> Repeats(const v1::FindRepeatsRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  chart::RepeatOptions options;
  if (request.most_answers() != 0) options.most_answers = request.most_answers();
  options.sides_may_change = request.sides_may_change();
  auto repeats = chart::FindRepeats(read->design, options);
  if (!repeats.ok()) return repeats.status();
  return ToProto(*repeats);
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

grpc::Status ChartHandlers::ConvertChart(grpc::ServerContext* context,
                                         const v1::ConvertChartRequest* request,
                                         v1::ConvertedChart* response) {
  return desk_.Serve(*context, "ChartService.ConvertChart", *request, response,
                     [&](usecases::Call& call) { return Convert(desk_, call, *request); });
}

grpc::Status ChartHandlers::FindRepeats(grpc::ServerContext* context,
                                        const v1::FindRepeatsRequest* request,
                                        v1::Repeats* response) {
  return desk_.Serve(*context, "ChartService.FindRepeats", *request, response,
                     [&](usecases::Call&) { return Repeats(*request); });
}

}  // namespace rowproof::rpc
