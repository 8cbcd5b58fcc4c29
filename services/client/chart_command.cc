#include "services/client/chart_command.h"

#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/client/design/file.h"
#include "services/client/design/keys.h"
#include "services/client/files.h"
#include "services/client/help_formatter.h"
#include "services/client/parsing/chart_texts.h"
#include "services/client/parsing/nearest.h"
#include "services/client/tables/conversion.h"
#include "services/client/tables/table.h"
#include "services/text/wrapping.h"

namespace rowproof::client {

std::string ChartSource::Complete(DesignOptions* options) const {
  if (without_design) return {};
  const DesignFile found = FindDesignFile(design_path, file);
  if (!found.path.empty()) FillFrom(found.options, options);
  return found.path;
}

void AddChartSource(CLI::App& command, ChartSource& source) {
  command
      .add_option("FILE", source.file,
                  "The chart: PNG, PBM, PGM, PPM, CSV or TSV; - is standard input")
      ->required();
  command
      .add_option("--design", source.design_path,
                  "Design file (default: the one beside the chart: mat.toml for mat.png)")
      ->group(kChartGroup);
  command.add_flag("--no-design", source.without_design, "Do not read a design file")
      ->group(kChartGroup);
}

v1::Design ChartDesignOf(const DesignOptions& options, std::string content) {
  v1::Design design = DesignOf(options.chart, std::move(content));
  MaterialsOptions foundation;  // alone: the rest may be wrong, and not be needed
  foundation.materials_file = options.materials.materials_file;
  foundation.foundation = options.materials.foundation;
  foundation.foundation_colour = options.materials.foundation_colour;
  design.set_foundation_colour(
      FoundationColourOf(MaterialsOf(foundation), design.file().row_colours()));
  return design;
}

std::string ReadingText(const v1::ChartFile& chart, const std::string& file,
                        const std::string& design_path) {
  v1::ImportChartRequest request;
  *request.mutable_file() = chart;
  std::string text = ReadingLine(
      Connection::Local().Ask<v1::ImportedChart>("ChartService.ImportChart", request), file);
  if (!design_path.empty()) text += Paragraph("", "Design file: " + design_path + ".");
  return text;
}

void ChartCommand::Prepare() {
  design_path = source.Complete(&options);
  content = ReadFile(source.file);
}

v1::Design ChartCommand::design_of_size() const {
  v1::Design all = design();
  const std::string& name = options.materials.size_name;
  if (name.empty()) return all;
  std::vector<std::string> names;
  for (const auto& size : all.sizes()) {
    if (size.name() != name) {
      names.push_back(size.name());
      continue;
    }
    v1::Design one = all;
    one.clear_sizes();
    *one.add_sizes() = size;
    return one;
  }
  throw Failure(ExitCode::kRefused,
                fmt::format("--size-name must be {} (got \"{}\")",
                            names.empty() ? "left out, since no --size is given" : AnyOf(names),
                            text::OneLine(name)));
}

Style ChartCommand::style() const {
  Style style = output->style;
  style.colour_names = options.chart.colour_names;
  return style;
}

std::optional<v1::Materials> ChartCommand::materials_if_given() const {
  v1::Materials made = MaterialsOf(options.materials);
  if (!made.has_gauge() && made.gauge_readings_size() == 0) return std::nullopt;
  return made;
}

Connection ChartCommand::ConnectionFor(const v1::Materials& made) const {
  return made.calibration().empty() ? Connection::Local() : Connection::ToServer(*connection);
}

std::string ChartCommand::Reading() const {
  return ReadingText(FileOf(options.chart, content), source.file, design_path);
}

void ChartCommand::Show(const google::protobuf::Message& answer, const std::string& text) const {
  WriteFile(output->out, output->json ? JsonOf(answer) : Reading() + text);
}

void ChartCommand::ShowOnScreen(const google::protobuf::Message& answer,
                                const std::string& text) const {
  WriteFile("", output->json ? JsonOf(answer) : Reading() + text);
}

void ChartCommand::ShowReading() const {
  if (!output->json && !output->out.empty() && output->out != "-") WriteFile("", Reading());
}

CLI::App* AddChartCommand(CLI::App& app, const char* name, const char* help, const char* example,
                          const OptionUse& use, const std::shared_ptr<ChartCommand>& command,
                          std::function<void()> run) {
  auto* added = app.add_subcommand(name, help);
  added->footer(ExampleText(example));
  AddChartSource(*added, command->source);
  AddChartOptions(*added, command->options.chart, use.chart);
  AddMaterialsOptions(*added, command->options.materials, use.materials);
  added->callback([command, run = std::move(run)] {
    command->Prepare();
    run();
  });
  return added;
}

void WriteChartFile(const v1::Design& design, const std::string& path) {
  v1::ExportChartRequest request;
  request.set_format(FileFormatOf("--out", path, false));
  *request.mutable_design() = design;
  WriteFile(path, Connection::Local()
                      .Ask<v1::ExportChartResponse>("ChartService.ExportChart", request)
                      .content());
}

}  // namespace rowproof::client
