#include <memory>
#include <optional>
#include <string>

#include "fmt/format.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/client/chart_command.h"
#include "services/client/commands/commands.h"
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
};

struct RowsCommand : ChartCommand {
  EstimateOptions estimate;

  explicit RowsCommand(const ChartCommand& shared) : ChartCommand(shared) {}
};

void Rows(const RowsCommand& command) {
  v1::WriteRowsRequest request;
  *request.mutable_design() = command.design_of_size();
  *request.mutable_settings() = RowSettingsOf(command.options.chart);
  const auto answer = Connection::Local().Ask<v1::WrittenRows>("ChartService.WriteRows", request);
  if (command.output->json || command.output->out.empty()) {
    // Rows are copied and piped, so nothing is printed above them if they were read from a table,
    // whose size is plain.
    const bool is_table =
        EndingOf(command.source.file) == "csv" || EndingOf(command.source.file) == "tsv";
    if (!is_table || command.output->json) return command.Show(answer, "\n" + TextOf(answer));
    return WriteFile("", TextOf(answer));
  }
  WriteFile(command.output->out, TextOf(answer));
  command.ShowReading();
}

void NeedGauge(const v1::Materials& materials) {
  if (materials.has_gauge() || materials.gauge_readings_size() > 0) return;
  throw Failure(
      ExitCode::kRefused,
      "--gauge is missing: count stitches and rows in this fabric, such as 16x18/10cm, or "
      "give --stitches-per-10cm and --rows-per-10cm");
}

void DrawBreakdown(const RowsCommand& command, const v1::EstimateChartRequest& estimated) {
  v1::DrawEstimateRequest request;
  const std::string ending = EndingOf(command.estimate.draw);
  if (ending != "png" && ending != "svg") {
    throw MustBe("--draw", "a name that ends in .png or .svg", command.estimate.draw);
  }
  request.set_format(ending == "png" ? v1::DRAWING_FORMAT_PNG : v1::DRAWING_FORMAT_SVG);
  *request.mutable_design() = estimated.design();
  *request.mutable_materials() = estimated.materials();
  request.set_size(estimated.size());
  const auto answer = command.ConnectionFor(request.materials())
                          .Ask<v1::DrawEstimateResponse>("ChartService.DrawEstimate", request);
  WriteFile(command.estimate.draw, answer.content());
}

std::string WaysText(const RowsCommand& command, const v1::EstimateChartRequest& estimated) {
  v1::CompareEndsRequest request;
  *request.mutable_design() = estimated.design();
  *request.mutable_materials() = estimated.materials();
  request.set_size(estimated.size());
  if (command.options.minutes_per_end.has_value()) {
    request.set_minutes_per_end(*command.options.minutes_per_end);
  }
  return TextOf(command.ConnectionFor(request.materials())
                    .Ask<v1::EndsComparison>("ChartService.CompareEnds", request),
                command.output->style);
}

// Nothing if no width or height was asked for.
std::string ChoiceText(const RowsCommand& command, const v1::EstimateChartRequest& estimated) {
  const EstimateOptions& options = command.estimate;
  if (options.width.empty() && options.height.empty()) return {};
  v1::ChooseSizeRequest request;
  *request.mutable_design() = estimated.design();
  *request.mutable_materials() = estimated.materials();
  if (!options.width.empty()) request.set_width_mm(LengthMm("--width", options.width));
  if (!options.height.empty()) request.set_height_mm(LengthMm("--height", options.height));
  request.set_after_blocking(options.blocked_size);
  return "\n" + TextOf(command.ConnectionFor(request.materials())
                           .Ask<v1::SizeChoice>("ChartService.ChooseSize", request),
                       command.output->style);
}

// Of which sizes this is not the estimate.
std::string OtherSizes(const RowsCommand& command, const v1::Design& design) {
  if (design.sizes_size() < 2 || !command.options.materials.size_name.empty()) return {};
  std::string names;
  for (int i = 1; i < design.sizes_size(); ++i) {
    names += (i == 1 ? "" : ", ") + design.sizes(i).name();
  }
  return Paragraph("", fmt::format("Other sizes: {} (see --size-name).", names));
}

void Estimate(const RowsCommand& command) {
  v1::EstimateChartRequest request;
  *request.mutable_design() = command.design();
  *request.mutable_materials() = MaterialsOf(command.options.materials);
  NeedGauge(request.materials());
  request.set_size(command.options.materials.size_name);
  const auto answer = command.ConnectionFor(request.materials())
                          .Ask<v1::SizeEstimate>("ChartService.EstimateChart", request);
  if (!command.estimate.draw.empty()) DrawBreakdown(command, request);
  if (command.output->json) return command.Show(answer, "");
  command.Show(answer, TextOf(answer, command.style()) + OtherSizes(command, request.design()) +
                           "\n" + WaysText(command, request) + ChoiceText(command, request));
}

void AddRows(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<RowsCommand>(shared);
  OptionUse use;
  use.chart.hand = use.chart.terms = use.chart.colour_names = use.chart.rows = true;
  use.materials.foundation = use.materials.size_name = true;
  AddChartCommand(app, "rows", "Write a chart as rows",
                  "rowproof rows mat.png --colour-name cream --colour-name slate", use, command,
                  [c = command.get()] { Rows(*c); });
}

void AddEstimate(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<RowsCommand>(shared);
  OptionUse use;
  use.materials = {true, true, true, true};
  auto* added = AddChartCommand(
      app, "estimate", "Estimate yarn, size and time of a chart",
      "rowproof estimate mat.png --gauge 14x16/4in --weight-class 4 --ball \"125 m/50 g\"", use,
      command, [c = command.get()] { Estimate(*c); });
  added
      ->add_option("--minutes-per-end", command->options.minutes_per_end,
                   "Minutes to weave in an end (default: 1.5)")
      ->group(kMaterialsGroup);
  EstimateOptions& o = command->estimate;
  added->add_option("--draw", o.draw, "Draw the yarn by part to FILE.svg or FILE.png")
      ->group(kOutputGroup);
  added
      ->add_option("--width", o.width,
                   "Show which repeats come nearest to this width, such as 120cm or 48in")
      ->group(kOutputGroup);
  added->add_option("--height", o.height, "The same for the height")->group(kOutputGroup);
  added->add_flag("--blocked-size", o.blocked_size, "Both are sizes after blocking")
      ->group(kOutputGroup);
}

}  // namespace

void AddChartCommands(CLI::App& app, const ConnectionOptions& connection, OutputOptions& output,
                      ExitCode& exit_code) {
  ChartCommand shared;
  shared.connection = &connection;
  shared.output = &output;
  shared.exit_code = &exit_code;
  AddChartDesignCommands(app, shared);
  AddRows(app, shared);
  AddEstimate(app, shared);
  AddCalibrateCommand(app, output);
  AddReadCommand(app, output, exit_code);
  AddCompareCommand(app, shared);
  AddChartFileCommands(app, shared);
  AddDesignCommands(app, shared);
}

}  // namespace rowproof::client
