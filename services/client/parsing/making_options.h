// The options that say what an estimate needs beyond the chart, and the messages made of them.
#ifndef ROWPROOF_SERVICES_CLIENT_PARSING_MAKING_OPTIONS_H_
#define ROWPROOF_SERVICES_CLIENT_PARSING_MAKING_OPTIONS_H_

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "rowproof/v1/estimate.pb.h"

namespace rowproof::client {

// Texts are as typed; numbers are checked by the service. What stands for "each yarn" is overridden
// by a --yarn of that colour.
struct MakingOptions {
  std::string making_file;  // JSON of the API's Making; the options change what it says
  // Name of a kept calibration, or a file: JSON of the API's YarnCalibration, as `calibrate` writes
  // it.
  std::string calibration;
  std::vector<std::string> gauges;
  std::vector<std::string> blocked_gauges;
  bool other_fabric = false;
  std::optional<double> stitches_per_10cm;
  std::optional<double> rows_per_10cm;
  std::vector<std::string> yarns;
  std::optional<double> wpi;
  std::optional<int> weight_class;
  std::string ball;
  std::optional<double> ball_m;
  std::optional<double> ball_g;
  std::optional<double> tex;
  std::string fibre;
  std::optional<double> hook_mm;
  std::string foundation;
  std::string foundation_colour;
  std::string fringe_of_tails;
  std::optional<double> tail_mm;
  std::optional<double> slack;
  std::string border;
  std::vector<std::string> fringes;
  std::string swatch;
  std::string item;
  bool for_small_child = false;
  std::optional<double> stitches_per_minute;
  std::optional<double> minutes_per_row_start;
  std::optional<double> assurance;
  std::string size_name;
};

void AddMakingOptions(CLI::App& command, MakingOptions& options);
// The fewer of them that another maker may do otherwise.
void AddAnotherMakerOptions(CLI::App& command, MakingOptions& options);

// Throws Failure: usage for a text that is not of the documented form, refused for a quantity
// without a number or a known unit, or for what is missing (a gauge, a yarn before a later one).
v1::Making MakingOf(const MakingOptions& options);
v1::AnotherMaker AnotherMakerOf(const MakingOptions& options);

// "14x16/4in", "14 sts x 16 rows / 4 in": counts over one span for both.
v1::GaugeReading GaugeReadingOf(const std::string& option, const std::string& text);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_PARSING_MAKING_OPTIONS_H_
