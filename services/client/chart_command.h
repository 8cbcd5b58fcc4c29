// One command on a chart file: what was typed, and what all of them do with it.
#ifndef ROWPROOF_SERVICES_CLIENT_CHART_COMMAND_H_
#define ROWPROOF_SERVICES_CLIENT_CHART_COMMAND_H_

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "google/protobuf/message.h"
#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/client/connection.h"
#include "services/client/design/options.h"
#include "services/client/failure.h"
#include "services/client/output.h"

namespace rowproof::client {

// A chart file and the design file that belongs to it.
struct ChartSource {
  std::string file;
  std::string design_path;  // empty: the one next to the chart, if there is one
  bool without_design = false;

  // Adds to the options what the design file says and they do not; its path, empty if there is
  // none.
  std::string Complete(DesignOptions* options) const;
};

// The positional FILE and the options that name the design file.
void AddChartSource(CLI::App& command, ChartSource& source);

// The chart and how it is worked. A declared worked foundation is the chart's too.
v1::Design ChartDesignOf(const DesignOptions& options, std::string content);

// "Read 24 stitches x 20 rows from mat.png (grid lines found, sure)." and the design file's name,
// if there is one.
std::string ReadingText(const v1::ChartFile& chart, const std::string& file,
                        const std::string& design_path);

// Every command takes every option of chart and materials, so that a script may pass the same ones
// to all; its help shows those that it uses.
struct ChartCommand {
  ChartSource source;
  // As typed; from Prepare on, with what the design file says.
  DesignOptions options;
  std::string design_path;  // of the design file that was read
  std::string content;      // of the chart file
  const ConnectionOptions* connection = nullptr;
  OutputOptions* output = nullptr;
  ExitCode* exit_code = nullptr;

  // Reads both files.
  void Prepare();

  v1::Design design() const { return ChartDesignOf(options, content); }
  // With the size alone that --size-name names, if it names one.
  v1::Design design_of_size() const;
  // As --units and --details say, with the names of the colours.
  Style style() const;
  // Yarn and gauge, if a gauge was given.
  std::optional<v1::Materials> materials_if_given() const;

  // In this process, or to the server if the materials name a calibration that is kept there.
  Connection ConnectionFor(const v1::Materials& made) const;

  // The answer as JSON or as `text` with what was read above it, to --out or to standard output.
  void Show(const google::protobuf::Message& answer, const std::string& text) const;
  // To standard output, as --out takes something else.
  void ShowOnScreen(const google::protobuf::Message& answer, const std::string& text) const;
  // What was read, if standard output has nothing else.
  void ShowReading() const;

 private:
  std::string Reading() const;
};

// What of the options a command uses.
struct OptionUse {
  ChartUse chart;
  MaterialsUse materials;
};

// Adds a command with the options of chart and materials. `run` is called in its callback, after
// Prepare; what else the command takes is added to what is returned.
CLI::App* AddChartCommand(CLI::App& app, const char* name, const char* help, const char* example,
                          const OptionUse& use, const std::shared_ptr<ChartCommand>& command,
                          std::function<void()> run);

// Writes the chart to a file in the format of its name's ending.
void WriteChartFile(const v1::Design& design, const std::string& path);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_CHART_COMMAND_H_
