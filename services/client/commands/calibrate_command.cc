// calibrate: how much yarn stitches take, from a measured swatch; without a server.
#include <memory>
#include <string>

#include "fmt/format.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/client/chart_command.h"
#include "services/client/commands/commands.h"
#include "services/client/connection.h"
#include "services/client/failure.h"
#include "services/client/files.h"
#include "services/client/help_formatter.h"
#include "services/client/parsing/measurement_options.h"
#include "services/client/tables/calibration.h"
#include "services/client/tables/table.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

struct CalibrateOptions {
  std::string name;
  MeasurementOptions measured;
  ScopeOptions scope;
};

std::string AnswerText(const v1::YarnCalibration& calibration, const Style& style) {
  return Paragraph("", fmt::format("Calibration \"{}\" of {}: yarn in one stitch at the measured "
                                   "gauge, with its standard uncertainty.",
                                   text::OneLine(calibration.name()),
                                   Counted(calibration.measurement_count(), "measurement",
                                           "measurements"))) +
         "\n" + StitchTable(calibration, style) + "\n" +
         Paragraph(
             "",
             "It holds for this technique, yarn class and pair of hands. To estimate with it, save "
             "it with --json --out FILE and give FILE to --calibration. To keep it with your "
             "patterns, use \"calibration new\".");
}

void Run(const CalibrateOptions& o, const OutputOptions& output) {
  v1::CalibrateYarnRequest request = MeasurementsOf(o.measured);
  if (o.measured.file.empty() && request.measurements().empty()) {
    throw Failure(ExitCode::kUsage, "nothing is measured: give a FILE, or --stitches of a swatch");
  }
  if (!o.name.empty()) request.set_name(o.name);
  v1::CalibrationScope scope = request.scope();
  SetScope(o.scope, o.measured.materials.weight_class, &scope);
  if (scope.ByteSizeLong() > 0) *request.mutable_scope() = scope;
  const auto answer =
      Connection::Local().Ask<v1::YarnCalibration>("ChartService.CalibrateYarn", request);
  WriteFile(output.out, output.json ? JsonOf(answer) : AnswerText(answer, output.style));
}

}  // namespace

void AddCalibrateCommand(CLI::App& app, OutputOptions& output) {
  const auto options = std::make_shared<CalibrateOptions>();
  CLI::App* command = app.add_subcommand(
      "calibrate", "Find how much yarn your stitches take, from a measured swatch or piece");
  command->footer(
      ExampleText("rowproof calibrate --name Oat --stitches sc=400 --gauge 20x25/10cm --wpi 12.7 "
                  "--length 15.65m"));
  command->add_option("FILE", options->measured.file,
                      "JSON of what was measured (the API's CalibrateYarnRequest), for several "
                      "swatches or whole pieces; a swatch typed here is added to it");
  command->add_option("--name", options->name, "What to call the calibration; estimates name it");
  AddMeasurementOptions(*command, options->measured);
  AddScopeOptions(*command, options->scope);
  command->callback([options, &output] { Run(*options, output); });
}

}  // namespace rowproof::client
