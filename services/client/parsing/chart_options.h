// The options of the commands on a chart, and the messages made from them.
#ifndef ROWPROOF_SERVICES_CLIENT_PARSING_CHART_OPTIONS_H_
#define ROWPROOF_SERVICES_CLIENT_PARSING_CHART_OPTIONS_H_

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/rows.pb.h"

namespace rowproof::client {

// Groups of options in --help. An option without a group is accepted and not shown.
inline constexpr char kChartGroup[] = "Chart";
inline constexpr char kRowsGroup[] = "Written rows";
inline constexpr char kMaterialsGroup[] = "Materials";
inline constexpr char kOutputGroup[] = "Output";
inline constexpr char kServerGroup[] = "Server";
inline constexpr char kHiddenGroup[] = "";

// How to read and work the chart. Texts are as typed, empty if not given; numbers are checked by
// the service.
struct ChartOptions {
  std::string technique;  // else spike
  std::string facing;     // else, as ends, as usual with the technique
  std::string ends;
  std::string form;     // else flat
  std::string chart;    // else picture
  std::string hand;     // else right
  std::string terms;    // else US in rows that are written; a text's own in one that is read
  std::string repeats;  // else brackets
  std::optional<int> nesting;
  std::optional<bool> every_row;
  std::vector<std::string> colour_names;
  std::optional<bool> swap_colours;
  std::optional<int> stitch_count;
  std::optional<int> row_count;
  std::string cell;  // "12x15"
  std::optional<int> cell_scale;
  std::optional<int> tolerance;
  std::string colour_a;
  std::string colour_b;
  std::vector<std::string> colours;  // "C=#rrggbb"
  std::string row_colours;
  std::string grid;
  std::optional<bool> without_grid;
  std::string crop;
  std::string stitch_band;
  std::string row_band;
  std::vector<std::string> sizes;
};

// Which of the options a command uses. It accepts the others too, so that a script can pass the
// same ones to all commands, but its help does not show them.
struct ChartUse {
  bool working = true;  // technique, facing, ends, form
  bool bands = true;    // bands and sizes
  bool hand = false;
  bool terms = false;
  bool colour_names = false;
  bool rows = false;  // repeats and nesting
};

void AddChartOptions(CLI::App& command, ChartOptions& options, const ChartUse& use);

// An option that is yes, or no by "--option=false".
CLI::Option* AddSwitch(CLI::App& command, const char* option, std::optional<bool>& value,
                       const char* help);
// An option that may be given several times, with one text each time.
CLI::Option* AddTexts(CLI::App& command, const char* option, std::vector<std::string>& values,
                      const char* help);

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
