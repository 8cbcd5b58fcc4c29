// The command line as a whole.
#ifndef ROWPROOF_SERVICES_CLIENT_PROGRAM_H_
#define ROWPROOF_SERVICES_CLIENT_PROGRAM_H_

namespace rowproof::client {

// Parses, runs, prints a failure on one line of standard error; returns the exit code.
int RunProgram(int argc, char** argv);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_PROGRAM_H_
