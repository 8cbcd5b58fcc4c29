// check, repair, rows, estimate, calibrate, draw and compare: commands on a file. They need a
// server only for a calibration that is kept there.
#ifndef ROWPROOF_SERVICES_CLIENT_COMMANDS_CHART_COMMANDS_H_
#define ROWPROOF_SERVICES_CLIENT_COMMANDS_CHART_COMMANDS_H_

#include <CLI/CLI.hpp>

#include "services/client/connection.h"
#include "services/client/failure.h"
#include "services/client/output.h"

namespace rowproof::client {

// Each command runs in its callback and may set `exit_code`. The references outlive the parsing.
void AddChartCommands(CLI::App& app, const ConnectionOptions& connection, OutputOptions& output,
                      ExitCode& exit_code);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_COMMANDS_CHART_COMMANDS_H_
