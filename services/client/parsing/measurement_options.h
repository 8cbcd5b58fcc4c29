// The options for what was measured in a swatch, and the messages made from them.
#ifndef ROWPROOF_SERVICES_CLIENT_PARSING_MEASUREMENT_OPTIONS_H_
#define ROWPROOF_SERVICES_CLIENT_PARSING_MEASUREMENT_OPTIONS_H_

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "rowproof/v1/calibration.pb.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/client/parsing/materials_options.h"

namespace rowproof::client {

// Quantities are as typed.
struct MeasurementOptions {
  std::string file;  // JSON of the API's CalibrateYarnRequest
  std::vector<std::string> stitches;
  MaterialsOptions materials;  // gauge and yarn of the swatch
  std::string length;
  std::string mass;
  std::string scale_step;
  std::string tails;
  int row_starts = 0;
  std::string swatch_note;
};

void AddMeasurementOptions(CLI::App& command, MeasurementOptions& options);

// Technique, facing and ends in words; empty: not given.
struct ScopeOptions {
  std::string technique;
  std::string facing;
  std::string ends;
};
void AddScopeOptions(CLI::App& command, ScopeOptions& options);

// What the file says and, after it, the swatch that was typed; either may be missing. Throws
// Failure: usage for a text that is not of the documented form, refused for a quantity without a
// number or a known unit.
v1::CalibrateYarnRequest MeasurementsOf(const MeasurementOptions& options);
// What was typed takes the place of what `scope` says; the swatch's weight class is the
// calibration's.
void SetScope(const ScopeOptions& options, std::optional<int> weight_class,
              v1::CalibrationScope* scope);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_PARSING_MEASUREMENT_OPTIONS_H_
