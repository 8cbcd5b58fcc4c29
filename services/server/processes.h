// What /proc says of other processes. Thread-safe.
#ifndef ROWPROOF_SERVICES_SERVER_PROCESSES_H_
#define ROWPROOF_SERVICES_SERVER_PROCESSES_H_

#include <sys/types.h>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace rowproof::server {

struct ProcessFacts {
  std::string name;  // of its program, 15 bytes at most
  // It has ended, and its parent has not asked for that yet: it holds nothing and does nothing.
  bool zombie = false;
  // Clock ticks from the machine's start. With the number it names one process: numbers are used
  // again.
  int64_t started = 0;
};

// Nothing if no process or thread has this number, or it is of another PID namespace.
std::optional<ProcessFacts> FactsOf(pid_t process);

// Whether the process is a living `program` whose working folder is `folder`. Processes of other
// users are not, as far as this one may not look at them.
bool RunsIn(pid_t process, const std::string& program, const std::string& folder);
// All of those.
std::vector<pid_t> ProcessesIn(const std::string& program, const std::string& folder);

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_PROCESSES_H_
