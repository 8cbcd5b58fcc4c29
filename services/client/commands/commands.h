// The commands, and what their files share. Each command runs in its callback; the references
// outlive the parsing.
#ifndef ROWPROOF_SERVICES_CLIENT_COMMANDS_COMMANDS_H_
#define ROWPROOF_SERVICES_CLIENT_COMMANDS_COMMANDS_H_

#include <CLI/CLI.hpp>
#include <string>

#include "services/client/connection.h"
#include "services/client/failure.h"
#include "services/client/output.h"

namespace rowproof::v1 {
class SeatChanges;
}  // namespace rowproof::v1

namespace rowproof::client {

struct Api;           // verb.h
struct ChartCommand;  // chart_command.h

// Commands on a file, which need a server only for a calibration that is kept there. Each may set
// `exit_code`.
void AddChartCommands(CLI::App& app, const ConnectionOptions& connection, OutputOptions& output,
                      ExitCode& exit_code);
// check, repair, convert, repeats. `shared` has the output and exit code.
void AddChartDesignCommands(CLI::App& app, const ChartCommand& shared);
void AddChartFileCommands(CLI::App& app, const ChartCommand& shared);  // import, export, draw
void AddReadCommand(CLI::App& app, const OutputOptions& output, ExitCode& exit_code);
void AddCompareCommand(CLI::App& app, const ChartCommand& shared);
void AddCalibrateCommand(CLI::App& app, OutputOptions& output);
void AddDesignCommands(CLI::App& app, const ChartCommand& shared);  // design new, design show

// Commands over a server's API, one folder a noun: "rowproof pattern list".
void AddPatternCommands(CLI::App& app, const Api& api);      // pattern, editor
void AddVersionCommands(CLI::App& app, const Api& api);      // version
void AddAccountCommands(CLI::App& app, const Api& api);      // account
void AddCalibrationCommands(CLI::App& app, const Api& api);  // calibration
void AddTestCallCommands(CLI::App& app, const Api& api);     // testcall; the two below
void AddReportCommands(CLI::App& app, const Api& api);       // report, erratum
void AddReleaseCommands(CLI::App& app, const Api& api);      // reconcile, release
void AddSeatCommands(CLI::App& app, const Api& api);         // seat
void AddSeatList(CLI::App& testcall, const Api& api);        // testcall seats

// call: any method of the API with JSON in and out.
void AddCallCommand(CLI::App& app, const ConnectionOptions& connection);

std::string TextOf(const v1::SeatChanges& changes);
// The seat that a filled-in form names; quoting by mail programs may precede it. Throws Failure
// (refused) if there is none.
std::string SeatIn(const std::string& form);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_COMMANDS_COMMANDS_H_
