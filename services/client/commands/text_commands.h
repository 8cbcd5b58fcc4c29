// Commands on the file of a designer's own text: read, compare.
#ifndef ROWPROOF_SERVICES_CLIENT_COMMANDS_TEXT_COMMANDS_H_
#define ROWPROOF_SERVICES_CLIENT_COMMANDS_TEXT_COMMANDS_H_

#include <CLI/CLI.hpp>

#include "services/client/commands/chart_command.h"
#include "services/client/failure.h"
#include "services/client/output.h"

namespace rowproof::client {

// The references outlive the parsing.
void AddReadCommand(CLI::App& app, const OutputOptions& output, ExitCode& exit_code);
// `shared` has the output and exit code.
void AddCompareCommand(CLI::App& app, const ChartCommand& shared);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_COMMANDS_TEXT_COMMANDS_H_
