#include "services/client/chart_commands.h"

#include <functional>
#include <memory>
#include <string>

#include "fmt/format.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/client/chart_cells.h"
#include "services/client/chart_options.h"
#include "services/client/chart_tables.h"
#include "services/client/connection.h"
#include "services/client/files.h"

namespace rowproof::client {
namespace {

// Every command takes every option, so that a script may pass the same ones to all.
struct ChartCommand {
  std::string file;
  std::string text_file;
  ChartOptions chart;
  MakingOptions making;
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

void NeedGauge(const char* option, const std::optional<double>& value) {
  if (value.has_value()) return;
  throw Failure(ExitCode::kRefused,
                fmt::format("{}: is missing; accepted is a number from 0.5 to 200, counted in this "
                            "fabric",
                            option));
}

void Estimate(const ChartCommand& command) {
  v1::EstimateChartRequest request;
  *request.mutable_design() = command.design();
  NeedGauge("--stitches-per-10cm", command.making.stitches_per_10cm);
  NeedGauge("--rows-per-10cm", command.making.rows_per_10cm);
  *request.mutable_making() = MakingOf(command.making);
  request.set_size(command.making.size_name);
  command.Show(Connection::Local().Ask<v1::SizeEstimate>("ChartService.EstimateChart", request));
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
