// calibrate: how much yarn stitches take, from a measured swatch; without a server.
#ifndef ROWPROOF_SERVICES_CLIENT_COMMANDS_CALIBRATE_COMMAND_H_
#define ROWPROOF_SERVICES_CLIENT_COMMANDS_CALIBRATE_COMMAND_H_

#include <CLI/CLI.hpp>

#include "services/client/output.h"

namespace rowproof::client {

// `output` outlives the parsing.
void AddCalibrateCommand(CLI::App& app, OutputOptions& output);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_COMMANDS_CALIBRATE_COMMAND_H_
