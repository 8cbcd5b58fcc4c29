// Commands over a server's API, one folder a noun: "rowproof pattern list".
#ifndef ROWPROOF_SERVICES_CLIENT_COMMANDS_SERVER_COMMANDS_H_
#define ROWPROOF_SERVICES_CLIENT_COMMANDS_SERVER_COMMANDS_H_

#include <CLI/CLI.hpp>
#include <string>

#include "services/client/connection.h"
#include "services/client/output.h"

namespace rowproof::client {

// What every such command needs; the references outlive the parsing.
struct Api {
  const ConnectionOptions& connection;
  const OutputOptions& output;
};

// The seat that a filled-in form names; quoting by mail programs may precede it. Throws Failure
// (refused) if there is none.
std::string SeatIn(const std::string& form);

void AddPatternCommands(CLI::App& app, const Api& api);      // pattern, editor
void AddVersionCommands(CLI::App& app, const Api& api);      // version
void AddAccountCommands(CLI::App& app, const Api& api);      // account
void AddCalibrationCommands(CLI::App& app, const Api& api);  // calibration
void AddTestCallCommands(CLI::App& app, const Api& api);     // testcall, seat
void AddReportCommands(CLI::App& app, const Api& api);       // report, erratum
void AddReleaseCommands(CLI::App& app, const Api& api);      // reconcile, release

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_COMMANDS_SERVER_COMMANDS_H_
