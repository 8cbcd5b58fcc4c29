// Runs another program and waits for it. Thread-safe.
#ifndef ROWPROOF_SERVICES_SERVER_PROGRAM_H_
#define ROWPROOF_SERVICES_SERVER_PROGRAM_H_

#include <string>
#include <vector>

namespace rowproof::server {

// Exit status of the program; 128 + signal if a signal ended it, 127 if it cannot be started. Its
// output is appended to `output_file`; no shell is involved.
int RunProgram(const std::vector<std::string>& arguments, const std::string& output_file);

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_PROGRAM_H_
