// Everything that a design file holds: what commands take as options besides the chart. Value type.
#ifndef ROWPROOF_SERVICES_CLIENT_DESIGN_OPTIONS_H_
#define ROWPROOF_SERVICES_CLIENT_DESIGN_OPTIONS_H_

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "services/client/parsing/chart_options.h"
#include "services/client/parsing/materials_options.h"

namespace rowproof::client {

// What is printed around the rows; the last four name files.
struct PrintedOptions {
  std::string title;
  std::string level;
  std::string introduction;
  std::string notes;
  std::string finishing;
  std::string text;
};

// Texts are as typed, empty if not given.
struct DesignOptions {
  ChartOptions chart;
  MaterialsOptions materials;
  PrintedOptions printed;
  std::optional<int> longest_carried_run;
  std::optional<int> longest_skip;
  std::optional<int> longest_flap;
  std::optional<double> minutes_per_end;
  std::optional<double> wrong_side_share;
  std::vector<std::string> shades;  // "A=#rrggbb"
};

// Where the value of a key is kept.
using DesignField = std::variant<std::string*, std::optional<int>*, std::optional<double>*,
                                 std::optional<bool>*, std::vector<std::string>*>;

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_DESIGN_OPTIONS_H_
