#include "services/client/commands/chart_command.h"

#include <utility>

#include "services/client/connection.h"
#include "services/client/files.h"
#include "services/client/parsing/chart_texts.h"

namespace rowproof::client {

v1::Design ChartCommand::design() const {
  v1::Design design = DesignOf(chart, ReadFile(file));
  if (making.foundation != "worked") return design;
  const auto& rows = design.file().row_colours();
  design.set_foundation_colour(!making.foundation_colour.empty()
                                   ? MakingOf(making).foundation_colour()
                               : rows.empty() ? v1::COLOUR_A
                                              : static_cast<v1::Colour>(rows.Get(0)));
  return design;
}

std::optional<v1::Making> ChartCommand::making_if_given() const {
  v1::Making made = MakingOf(making);
  if (!made.has_gauge() && made.gauge_readings_size() == 0) return std::nullopt;
  return made;
}

Connection ChartCommand::ConnectionFor(const v1::Making& made) const {
  return made.calibration().empty() ? Connection::Local() : Connection::ToServer(*connection);
}

void ChartCommand::Show(const google::protobuf::Message& answer, const std::string& text) const {
  WriteFile(output->out, output->json ? JsonOf(answer) : text);
}

void ChartCommand::ShowOnScreen(const google::protobuf::Message& answer,
                                const std::string& text) const {
  WriteFile("", output->json ? JsonOf(answer) : text);
}

CLI::App* AddChartCommand(CLI::App& app, const char* name, const char* help,
                          const std::shared_ptr<ChartCommand>& command, std::function<void()> run) {
  auto* added = app.add_subcommand(name, help)->group("Commands on a file");
  added->add_option("FILE", command->file, kChartFileHelp)->required();
  AddChartOptions(*added, command->chart);
  AddMakingOptions(*added, command->making);
  added->callback([command, run = std::move(run)] { run(); });
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
