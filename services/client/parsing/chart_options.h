// The options of every command that takes a chart file, and the messages made of them.
#ifndef ROWPROOF_SERVICES_CLIENT_PARSING_CHART_OPTIONS_H_
#define ROWPROOF_SERVICES_CLIENT_PARSING_CHART_OPTIONS_H_

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/rows.pb.h"

namespace rowproof::client {

// How the chart is to be read and worked. Texts are as typed; numbers are checked by the service.
struct ChartOptions {
  std::string technique = "spike";
  std::string facing;  // empty, as ends: as usual with the technique
  std::string ends;
  std::string form = "flat";
  std::string chart = "picture";
  std::string hand = "right";
  std::string terms;  // empty: US in rows that are written; a text's own in one that is read
  std::string repeats = "brackets";
  std::optional<int> nesting;
  bool every_row = false;
  std::vector<std::string> colour_names;
  bool swap_colours = false;
  int cell_scale = 0;
  int tolerance = 0;
  std::string colour_a;
  std::string colour_b;
  std::vector<std::string> colours;  // "C=#rrggbb"
  std::string row_colours;
  std::string grid;
  bool without_grid = false;
  std::string crop;
  std::string stitch_band;
  std::string row_band;
  std::vector<std::string> sizes;
};

void AddChartOptions(CLI::App& command, ChartOptions& options);

// Throws Failure (usage) for a text that is not of the documented form.
v1::Design DesignOf(const ChartOptions& options, std::string file_content);
v1::ChartFile FileOf(const ChartOptions& options, std::string file_content);
v1::RowSettings RowSettingsOf(const ChartOptions& options);

// "3-10".
v1::Band BandOf(const std::string& option, const std::string& text);
// "NAME:2x3", the name alone for a size without repeats.
v1::Size SizeOf(const std::string& text);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_PARSING_CHART_OPTIONS_H_
