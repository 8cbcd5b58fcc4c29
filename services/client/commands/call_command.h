// "rowproof call": any method of the API with JSON in and out.
#ifndef ROWPROOF_SERVICES_CLIENT_COMMANDS_CALL_COMMAND_H_
#define ROWPROOF_SERVICES_CLIENT_COMMANDS_CALL_COMMAND_H_

#include <CLI/CLI.hpp>

#include "services/client/connection.h"

namespace rowproof::client {

void AddCallCommand(CLI::App& app, const ConnectionOptions& connection);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_COMMANDS_CALL_COMMAND_H_
