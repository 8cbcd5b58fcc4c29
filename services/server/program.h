// Runs other programs. No shell is involved; they inherit no files and no blocked or ignored
// signals.
#ifndef ROWPROOF_SERVICES_SERVER_PROGRAM_H_
#define ROWPROOF_SERVICES_SERVER_PROGRAM_H_

#include <sys/types.h>

#include <string>
#include <vector>

namespace rowproof::server {

// Runs a program and waits for it. Its exit status; 128 + signal if a signal ended it, 127 if it
// cannot be started. Its output is appended to `output_file`. Thread-safe.
int RunProgram(const std::vector<std::string>& arguments, const std::string& output_file);

// Starts a program in a session of its own, so that no terminal's interrupt is meant for it, and
// does not wait. Its number; -1 if it cannot be started. Thread-safe.
pid_t StartProgram(const std::vector<std::string>& arguments, const std::string& output_file);

// Asks for the end of children that nobody waits for. As process 1 of a container this process
// gets every child that has lost its parent, and without this they stay as zombies. Not while
// another thread runs a program.
void ReapChildren();

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_PROGRAM_H_
