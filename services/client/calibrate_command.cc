#include "services/client/calibrate_command.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/client/connection.h"
#include "services/client/failure.h"
#include "services/client/files.h"
#include "services/client/making_options.h"
#include "services/client/measures.h"
#include "services/client/quantities.h"
#include "services/client/table.h"

namespace rowproof::client {
namespace {

// Quantities are as typed.
struct CalibrateOptions {
  std::string file;
  std::string name;
  std::vector<std::string> stitches;
  MakingOptions making;  // gauge and yarn of the swatch
  std::string length;
  std::string mass;
  std::string scale_step;
  std::string tails;
  int row_starts = 0;
};

void AddOptions(CLI::App& command, CalibrateOptions& o) {
  command.add_option("FILE", o.file,
                     "JSON of what was measured (the API's CalibrateYarnRequest), for several "
                     "swatches or whole pieces; a swatch typed here is added to it");
  command.add_option("--name", o.name, "What to call the calibration; estimates name it");
  command
      .add_option("--stitches", o.stitches,
                  "Stitches of one kind in the swatch, such as sc=400; kinds are ch, sc, ssc, dc2 "
                  "(two rows down), dc3 (three rows down) and \"sl st\"; once for each kind")
      ->expected(1)
      ->take_all();
  command.add_option("--length", o.length,
                     "Yarn of the unravelled swatch, such as 24.6m or 26.9yd");
  command.add_option("--mass", o.mass, "Or the swatch's mass, such as 12.5g or 0.44oz");
  command.add_option("--step", o.scale_step,
                     "Step of the tape or scale, such as 1cm or 0.1g; else 1 mm or 1 g");
  command.add_option("--tails", o.tails,
                     "Length of all tails together, where they were measured too");
  command.add_option("--row-starts", o.row_starts, "Rows that began with a slip knot or ch 1");
  command
      .add_option("--gauge", o.making.gauges,
                  "Stitches and worked rows counted in the swatch over a span, such as 14x16/4in; "
                  "may be repeated")
      ->expected(1)
      ->take_all();
  command.add_option("--wpi", o.making.wpi, "Wraps per inch of the yarn");
  command.add_option("--weight-class", o.making.weight_class,
                     "Or its standard yarn weight, 0 to 7");
  command.add_option("--ball", o.making.ball, "Its ball band, such as 125 m/50 g, for a mass");
  command.add_option("--tex", o.making.tex, "Or grams a km, where no ball band is known");
}

v1::StitchCount StitchCountOf(const std::string& text) {
  const size_t equals = text.find('=');
  if (equals == std::string::npos) {
    throw Failure(ExitCode::kUsage,
                  fmt::format("--stitches: \"{}\" was met; accepted is KIND=COUNT, such as sc=400",
                              OneLine(text)));
  }
  v1::StitchCount count;
  count.set_stitch(std::string(Trimmed(std::string_view(text).substr(0, equals))));
  count.set_count(NumberOf("--stitches", std::string_view(text).substr(equals + 1)));
  return count;
}

v1::SwatchMeasurement SwatchOf(const CalibrateOptions& o) {
  v1::SwatchMeasurement swatch;
  for (const std::string& text : o.stitches) *swatch.add_stitches() = StitchCountOf(text);
  swatch.set_row_start_count(o.row_starts);
  if (!o.tails.empty()) swatch.set_tails_mm(LengthMm("--tails", o.tails));
  const v1::Making making = MakingOf(o.making);
  *swatch.mutable_gauge_readings() = making.gauge_readings();
  *swatch.mutable_yarn() = making.yarn_a();
  if (o.length.empty() == o.mass.empty()) {
    throw Failure(ExitCode::kUsage, "--length: accepted is either a length or a --mass");
  }
  if (!o.length.empty()) {
    swatch.set_length_mm(LengthMm("--length", o.length));
    if (!o.scale_step.empty()) swatch.set_scale_step(LengthMm("--step", o.scale_step));
  } else {
    swatch.set_mass_g(MassG("--mass", o.mass));
    if (!o.scale_step.empty()) swatch.set_scale_step(MassG("--step", o.scale_step));
  }
  return swatch;
}

std::string Length(double mm) { return fmt::format("{:.1f} mm ({:.2f} in)", mm, mm / 25.4); }
std::string Percent(double relative) { return fmt::format("{:.1f} %", 100 * relative); }

std::string TextOf(const v1::YarnCalibration& calibration) {
  Table table;
  table.Column("Stitch").Column("Assumed", Table::Side::kRight);
  table.Column("Good to", Table::Side::kRight).Column("Calibrated", Table::Side::kRight);
  table.Column("Good to", Table::Side::kRight).Column("Change", Table::Side::kRight);
  for (const v1::StitchPath& path : calibration.paths()) {
    table.Row({path.stitch(), Length(path.length_before_mm()),
               Percent(path.relative_uncertainty_before()), Length(path.length_mm()),
               Percent(path.relative_uncertainty()),
               fmt::format("{:+.1f} %", 100 * (path.length_mm() / path.length_before_mm() - 1))});
  }
  return Paragraph("", fmt::format("Calibration \"{}\" of {} measurement{}: yarn in one stitch at "
                                   "the measured gauge, with its standard uncertainty.",
                                   OneLine(calibration.name()), calibration.measurement_count(),
                                   calibration.measurement_count() == 1 ? "" : "s")) +
         "\n" + table.Text() + "\n" +
         Paragraph(
             "",
             "It holds for this technique, yarn class and pair of hands. To estimate with it, "
             "keep it by --json --out FILE and give that file to --calibration.");
}

void Run(const CalibrateOptions& o, const OutputOptions& output) {
  v1::CalibrateYarnRequest request;
  if (!o.file.empty()) ReadJson(o.file, ReadFile(o.file), &request);
  if (!o.name.empty()) request.set_name(o.name);
  if (!o.stitches.empty()) {
    *request.add_measurements()->mutable_swatch() = SwatchOf(o);
  } else if (o.file.empty()) {
    throw Failure(ExitCode::kUsage, "calibrate: accepted is a FILE, or --stitches of a swatch");
  }
  const auto answer =
      Connection::Local().Ask<v1::YarnCalibration>("ChartService.CalibrateYarn", request);
  WriteFile(output.out, output.json ? JsonOf(answer) : TextOf(answer));
}

}  // namespace

void AddCalibrateCommand(CLI::App& app, OutputOptions& output) {
  const auto options = std::make_shared<CalibrateOptions>();
  CLI::App* command = app.add_subcommand(
      "calibrate", "How much yarn your stitches take, from a measured swatch or piece");
  AddOptions(*command, *options);
  command->callback([options, &output] { Run(*options, output); });
}

}  // namespace rowproof::client
