// One command on a chart file: what was typed, and what all of them do with it.
#ifndef ROWPROOF_SERVICES_CLIENT_COMMANDS_CHART_COMMAND_H_
#define ROWPROOF_SERVICES_CLIENT_COMMANDS_CHART_COMMAND_H_

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "google/protobuf/message.h"
#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/client/connection.h"
#include "services/client/failure.h"
#include "services/client/output.h"
#include "services/client/parsing/chart_options.h"
#include "services/client/parsing/making_options.h"

namespace rowproof::client {

// Every command takes every option of chart and making, so that a script may pass the same ones to
// all.
struct ChartCommand {
  std::string file;
  ChartOptions chart;
  MakingOptions making;
  const ConnectionOptions* connection = nullptr;
  OutputOptions* output = nullptr;
  ExitCode* exit_code = nullptr;

  // A worked foundation of the making is the chart's too; without a colour it has row 1's.
  v1::Design design() const;
  // Yarn and gauge, where a gauge was typed.
  std::optional<v1::Making> making_if_given() const;

  // In this process, or to the server where the making names a calibration that is kept there.
  Connection ConnectionFor(const v1::Making& made) const;

  // The answer as JSON or as `text`, to --out or to standard output.
  void Show(const google::protobuf::Message& answer, const std::string& text) const;
  // To standard output, where --out takes something else.
  void ShowOnScreen(const google::protobuf::Message& answer, const std::string& text) const;
};

inline constexpr char kChartFileHelp[] =
    "The chart: PNG, PBM, PGM, PPM, CSV or TSV; - is standard input";

// Adds a command with the options of chart and making. `run` is called in its callback; what else
// the command takes is added to what is returned.
CLI::App* AddChartCommand(CLI::App& app, const char* name, const char* help,
                          const std::shared_ptr<ChartCommand>& command, std::function<void()> run);

// Writes the chart to a file in the format of its name's ending.
void WriteChartFile(const v1::Design& design, const std::string& path);

// chart_design_commands.cc: check, repair, convert, repeats. `shared` has the output and exit code.
void AddChartDesignCommands(CLI::App& app, const ChartCommand& shared);
// chart_file_commands.cc: import, export, draw.
void AddChartFileCommands(CLI::App& app, const ChartCommand& shared);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_COMMANDS_CHART_COMMAND_H_
