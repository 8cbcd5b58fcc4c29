#include "services/client/commands/chart_commands.h"

#include <memory>
#include <optional>
#include <string>

#include "fmt/format.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/client/commands/calibrate_command.h"
#include "services/client/commands/chart_command.h"
#include "services/client/commands/text_commands.h"
#include "services/client/connection.h"
#include "services/client/files.h"
#include "services/client/parsing/quantities.h"
#include "services/client/tables/chart.h"
#include "services/client/tables/estimate.h"

namespace rowproof::client {
namespace {

// Of the command "estimate" alone. Quantities are as typed.
struct EstimateOptions {
  std::string draw;
  std::string width;
  std::string height;
  bool blocked_size = false;
  std::optional<double> minutes_per_end;
};

void AddEstimateOptions(CLI::App& command, EstimateOptions& o) {
  command.add_option("--draw", o.draw, "Draw the breakdown to FILE.svg or FILE.png");
  command.add_option("--width", o.width,
                     "Say which repeats come nearest to this width, such as 120cm or 48in");
  command.add_option("--height", o.height, "The same for the height");
  command.add_flag("--blocked-size", o.blocked_size, "Both are sizes after blocking");
  command.add_option("--minutes-per-end", o.minutes_per_end,
                     "Time to weave in one end, for the comparison of the ways; else 1.5");
}

struct RowsCommand : ChartCommand {
  EstimateOptions estimate;

  explicit RowsCommand(const ChartCommand& shared) : ChartCommand(shared) {}
};

void Rows(const RowsCommand& command) {
  v1::WriteRowsRequest request;
  *request.mutable_design() = command.design();
  *request.mutable_settings() = RowSettingsOf(command.chart);
  const auto answer = Connection::Local().Ask<v1::WrittenRows>("ChartService.WriteRows", request);
  command.Show(answer, TextOf(answer));
}

void NeedGauge(const v1::Making& making) {
  if (making.has_gauge() || making.gauge_readings_size() > 0) return;
  throw Failure(ExitCode::kRefused,
                "--gauge: is missing; accepted are counts in this fabric, such as 16x18/10cm, or "
                "--stitches-per-10cm and --rows-per-10cm");
}

void DrawBreakdown(const RowsCommand& command, const v1::EstimateChartRequest& estimated) {
  v1::DrawEstimateRequest request;
  const std::string ending = EndingOf(command.estimate.draw);
  if (ending != "png" && ending != "svg") {
    throw Failure(
        ExitCode::kUsage,
        fmt::format("--draw: \"{}\" was met; accepted is a name that ends in .png or .svg",
                    OneLine(command.estimate.draw)));
  }
  request.set_format(ending == "png" ? v1::DRAWING_FORMAT_PNG : v1::DRAWING_FORMAT_SVG);
  *request.mutable_design() = estimated.design();
  *request.mutable_making() = estimated.making();
  request.set_size(estimated.size());
  const auto answer = command.ConnectionFor(request.making())
                          .Ask<v1::DrawEstimateResponse>("ChartService.DrawEstimate", request);
  WriteFile(command.estimate.draw, answer.content());
}

std::string WaysText(const RowsCommand& command, const v1::EstimateChartRequest& estimated) {
  v1::CompareEndsRequest request;
  *request.mutable_design() = estimated.design();
  *request.mutable_making() = estimated.making();
  request.set_size(estimated.size());
  if (command.estimate.minutes_per_end.has_value()) {
    request.set_minutes_per_end(*command.estimate.minutes_per_end);
  }
  return TextOf(command.ConnectionFor(request.making())
                    .Ask<v1::EndsComparison>("ChartService.CompareEnds", request));
}

// Nothing where no width or height was wished for.
std::string ChoiceText(const RowsCommand& command, const v1::EstimateChartRequest& estimated) {
  const EstimateOptions& options = command.estimate;
  if (options.width.empty() && options.height.empty()) return {};
  v1::ChooseSizeRequest request;
  *request.mutable_design() = estimated.design();
  *request.mutable_making() = estimated.making();
  if (!options.width.empty()) request.set_width_mm(LengthMm("--width", options.width));
  if (!options.height.empty()) request.set_height_mm(LengthMm("--height", options.height));
  request.set_after_blocking(options.blocked_size);
  return "\n" + TextOf(command.ConnectionFor(request.making())
                           .Ask<v1::SizeChoice>("ChartService.ChooseSize", request));
}

void Estimate(const RowsCommand& command) {
  v1::EstimateChartRequest request;
  *request.mutable_design() = command.design();
  *request.mutable_making() = MakingOf(command.making);
  NeedGauge(request.making());
  request.set_size(command.making.size_name);
  const auto answer = command.ConnectionFor(request.making())
                          .Ask<v1::SizeEstimate>("ChartService.EstimateChart", request);
  if (!command.estimate.draw.empty()) DrawBreakdown(command, request);
  if (command.output->json) return command.Show(answer, "");
  command.Show(answer,
               TextOf(answer) + "\n" + WaysText(command, request) + ChoiceText(command, request));
}

void Add(CLI::App& app, const char* name, const char* help, const ChartCommand& shared,
         void (*run)(const RowsCommand&)) {
  const auto command = std::make_shared<RowsCommand>(shared);
  auto* added = AddChartCommand(app, name, help, command, [c = command.get(), run] { run(*c); });
  if (std::string(name) == "estimate") AddEstimateOptions(*added, command->estimate);
}

}  // namespace

void AddChartCommands(CLI::App& app, const ConnectionOptions& connection, OutputOptions& output,
                      ExitCode& exit_code) {
  ChartCommand shared;
  shared.connection = &connection;
  shared.output = &output;
  shared.exit_code = &exit_code;
  AddChartDesignCommands(app, shared);
  Add(app, "rows", "The written rows of a chart", shared, Rows);
  Add(app, "estimate", "Yarn, size and time of a chart", shared, Estimate);
  AddCalibrateCommand(app, output);
  AddReadCommand(app, output, exit_code);
  AddCompareCommand(app, shared);
  AddChartFileCommands(app, shared);
}

}  // namespace rowproof::client
