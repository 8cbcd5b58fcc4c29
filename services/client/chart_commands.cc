#include "services/client/chart_commands.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "fmt/format.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/client/chart_cells.h"
#include "services/client/chart_options.h"
#include "services/client/chart_tables.h"
#include "services/client/connection.h"
#include "services/client/estimate_tables.h"
#include "services/client/files.h"
#include "services/client/making_options.h"
#include "services/client/quantities.h"

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

// Every command takes every option of chart and making, so that a script may pass the same ones to
// all.
struct ChartCommand {
  std::string file;
  std::string text_file;
  ChartOptions chart;
  MakingOptions making;
  EstimateOptions estimate;
  OutputOptions* output = nullptr;
  ExitCode* exit_code = nullptr;

  v1::Design design() const { return DesignOf(chart, ReadFile(file)); }

  template <typename Answer>
  void Show(const Answer& answer) const {
    WriteFile(output->out, output->json ? JsonOf(answer) : TextOf(answer));
  }
};

void Check(const ChartCommand& command) {
  v1::CheckChartRequest request;
  *request.mutable_design() = command.design();
  const auto answer = Connection::Local().Ask<v1::CheckResult>("ChartService.CheckChart", request);
  command.Show(answer);
  if (!answer.workable()) *command.exit_code = ExitCode::kChartHasErrors;
}

void Repair(const ChartCommand& command) {
  const std::string& out = command.output->out;
  const std::string ending = EndingOf(out);
  if (!out.empty() && ending != "csv" && ending != "pbm") {
    throw Failure(ExitCode::kUsage,
                  fmt::format("--out: \"{}\" was met; accepted is a name that ends in .csv or .pbm",
                              OneLine(out)));
  }
  v1::RepairChartRequest request;
  *request.mutable_design() = command.design();
  const auto answer =
      Connection::Local().Ask<v1::RepairResult>("ChartService.RepairChart", request);
  if (!out.empty()) {
    WriteFile(out, ending == "csv" ? CsvOf(answer.repaired()) : PbmOf(answer.repaired()));
  }
  WriteFile("", command.output->json ? JsonOf(answer) : TextOf(answer));
}

void Rows(const ChartCommand& command) {
  v1::WriteRowsRequest request;
  *request.mutable_design() = command.design();
  *request.mutable_settings() = RowSettingsOf(command.chart);
  command.Show(Connection::Local().Ask<v1::WrittenRows>("ChartService.WriteRows", request));
}

void NeedGauge(const v1::Making& making) {
  if (making.has_gauge() || making.gauge_readings_size() > 0) return;
  throw Failure(ExitCode::kRefused,
                "--gauge: is missing; accepted are counts in this fabric, such as 16x18/10cm, or "
                "--stitches-per-10cm and --rows-per-10cm");
}

v1::DrawingFormat FormatOf(const std::string& path) {
  const std::string ending = EndingOf(path);
  if (ending == "png") return v1::DRAWING_FORMAT_PNG;
  if (ending == "svg") return v1::DRAWING_FORMAT_SVG;
  if (ending == "pdf") return v1::DRAWING_FORMAT_PDF;
  throw Failure(
      ExitCode::kUsage,
      fmt::format("--out: \"{}\" was met; accepted is a name that ends in .png, .svg or .pdf",
                  OneLine(path)));
}

void DrawBreakdown(const ChartCommand& command, const v1::EstimateChartRequest& estimated) {
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
  const auto answer =
      Connection::Local().Ask<v1::DrawEstimateResponse>("ChartService.DrawEstimate", request);
  WriteFile(command.estimate.draw, answer.content());
}

std::string WaysText(const ChartCommand& command, const v1::EstimateChartRequest& estimated) {
  v1::CompareEndsRequest request;
  *request.mutable_design() = estimated.design();
  *request.mutable_making() = estimated.making();
  request.set_size(estimated.size());
  if (command.estimate.minutes_per_end.has_value()) {
    request.set_minutes_per_end(*command.estimate.minutes_per_end);
  }
  return TextOf(Connection::Local().Ask<v1::EndsComparison>("ChartService.CompareEnds", request));
}

// Nothing where no width or height was wished for.
std::string ChoiceText(const ChartCommand& command, const v1::EstimateChartRequest& estimated) {
  const EstimateOptions& options = command.estimate;
  if (options.width.empty() && options.height.empty()) return {};
  v1::ChooseSizeRequest request;
  *request.mutable_design() = estimated.design();
  *request.mutable_making() = estimated.making();
  if (!options.width.empty()) request.set_width_mm(LengthMm("--width", options.width));
  if (!options.height.empty()) request.set_height_mm(LengthMm("--height", options.height));
  request.set_after_blocking(options.blocked_size);
  return "\n" + TextOf(Connection::Local().Ask<v1::SizeChoice>("ChartService.ChooseSize", request));
}

void Estimate(const ChartCommand& command) {
  v1::EstimateChartRequest request;
  *request.mutable_design() = command.design();
  *request.mutable_making() = MakingOf(command.making);
  NeedGauge(request.making());
  request.set_size(command.making.size_name);
  const auto answer =
      Connection::Local().Ask<v1::SizeEstimate>("ChartService.EstimateChart", request);
  if (!command.estimate.draw.empty()) DrawBreakdown(command, request);
  if (command.output->json) return command.Show(answer);
  WriteFile(command.output->out,
            TextOf(answer) + "\n" + WaysText(command, request) + ChoiceText(command, request));
}

void Draw(const ChartCommand& command) {
  v1::DrawChartRequest request;
  request.set_format(FormatOf(command.output->out));
  *request.mutable_design() = command.design();
  const auto answer =
      Connection::Local().Ask<v1::DrawChartResponse>("ChartService.DrawChart", request);
  WriteFile(command.output->out, answer.content());
  if (command.output->json) WriteFile("", JsonOf(answer));
}

void Compare(const ChartCommand&) {
  throw Failure(ExitCode::kRefused, "compare: comparison of text and chart is not in this version");
}

CLI::App* Add(CLI::App& app, const char* name, const char* help, const ChartCommand& shared,
              const std::function<void(const ChartCommand&)>& run) {
  auto* added = app.add_subcommand(name, help)->group("Commands on a file");
  const auto command = std::make_shared<ChartCommand>(shared);
  added->add_option("FILE", command->file, "The chart: PNG, PBM or CSV; - is standard input")
      ->required();
  if (std::string(name) == "compare") {
    added->add_option("TEXTFILE", command->text_file, "The written rows")->required();
  }
  AddChartOptions(*added, command->chart);
  AddMakingOptions(*added, command->making);
  if (std::string(name) == "estimate") AddEstimateOptions(*added, command->estimate);
  added->callback([command, run] { run(*command); });
  return added;
}

}  // namespace

void AddChartCommands(CLI::App& app, OutputOptions& output, ExitCode& exit_code) {
  ChartCommand shared;
  shared.output = &output;
  shared.exit_code = &exit_code;
  Add(app, "check", "What the workability rules find in a chart", shared, Check);
  Add(app, "repair", "The fewest changed cells that make a chart workable; --out writes it", shared,
      Repair);
  Add(app, "rows", "The written rows of a chart", shared, Rows);
  Add(app, "estimate", "Yarn, size and time of a chart", shared, Estimate);
  Add(app, "draw", "Draw a chart to --out FILE.png, .svg or .pdf", shared, Draw);
  Add(app, "compare", "Compare a chart with written rows", shared, Compare);
}

}  // namespace rowproof::client
