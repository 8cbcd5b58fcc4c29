// rowproof: the command line as a whole.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <memory>
#include <string>

#include "services/client/commands/commands.h"
#include "services/client/connection.h"
#include "services/client/failure.h"
#include "services/client/help_formatter.h"
#include "services/client/output.h"
#include "services/client/usage.h"
#include "services/client/verb.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

int Complain(ExitCode code, const std::string& line) {
  std::fprintf(stderr, "rowproof: %s\n", text::OneLine(line).c_str());
  return static_cast<int>(code);
}

struct Program {
  CLI::App app{"rowproof: charts, test calls and releases of mosaic crochet patterns"};
  OutputOptions output;
  ConnectionOptions connection;
  ExitCode exit_code = ExitCode::kDone;
  Api api{connection, output, exit_code};

  Program() {
    app.formatter(std::make_shared<HelpFormatter>());  // commands take it from here
    app.set_version_flag("--version", ROWPROOF_VERSION);
    app.require_subcommand(1);
    // Commands take the options of the program too, after their own.
    app.fallthrough();
    app.set_help_flag("-h,--help", "Print this help");
    AddOutputOptions(app, output);
    AddConnectionOptions(app, connection);
    AddChartCommands(app, connection, output, exit_code);
    AddPatternCommands(app, api);
    AddVersionCommands(app, api);
    AddCalibrationCommands(app, api);
    AddAccountCommands(app, api);
    AddTestCallCommands(app, api);
    AddReportCommands(app, api);
    AddReleaseCommands(app, api);
    AddCallCommand(app, connection);
  }
};

int Run(Program& program, int argc, char** argv) {
  try {
    program.app.parse(argc, argv);
  } catch (const CLI::Success& asked) {  // --help and --version
    return program.app.exit(asked);
  } catch (const CLI::ParseError& error) {
    return Complain(ExitCode::kUsage, UsageLine(program.app, argc, argv, error.what()));
  }
  return static_cast<int>(program.exit_code);
}

// Parses, runs, prints a failure on one line of standard error; returns the exit code.
int RunProgram(int argc, char** argv) {
  // A failure is one line of ours; gRPC's own log stays silent unless the environment asks for it.
  setenv("GRPC_VERBOSITY", "NONE", 0);
  try {
    Program program;
    return Run(program, argc, argv);
  } catch (const Failure& failure) {
    return Complain(failure.code(), failure.line());
  } catch (const std::exception& fault) {
    return Complain(ExitCode::kInternalError, fault.what());
  }
}

}  // namespace
}  // namespace rowproof::client

int main(int argc, char** argv) { return rowproof::client::RunProgram(argc, argv); }
