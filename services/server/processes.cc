#include "services/server/processes.h"

#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "fmt/format.h"

namespace rowproof::server {

std::optional<ProcessFacts> FactsOf(pid_t process) {
  // Numbers below 1 are groups of processes.
  if (process < 1) return std::nullopt;
  std::ifstream file(fmt::format("/proc/{}/stat", process));
  std::string line;
  // "PID (NAME) STATE ...": the name may hold anything (proc(5)).
  if (!std::getline(file, line, '\0')) return std::nullopt;
  const size_t name_begin = line.find('(');
  const size_t name_end = line.rfind(')');
  if (name_begin == std::string::npos || name_end == std::string::npos) return std::nullopt;
  ProcessFacts facts;
  facts.name = line.substr(name_begin + 1, name_end - name_begin - 1);
  std::istringstream fields(line.substr(name_end + 1));
  std::string field;
  constexpr int kState = 3;
  constexpr int kStartTime = 22;
  for (int number = kState; number <= kStartTime && fields >> field; ++number) {
    if (number == kState) facts.zombie = field == "Z" || field == "X";
    if (number == kStartTime) facts.started = std::stoll(field);
  }
  return facts;
}

bool RunsIn(pid_t process, const std::string& program, const std::string& folder) {
  const auto facts = FactsOf(process);
  if (!facts.has_value() || facts->zombie || facts->name != program) return false;
  struct stat its {};
  struct stat wanted {};
  // By what they are, not by name: a folder may be reached by several paths.
  return stat(fmt::format("/proc/{}/cwd", process).c_str(), &its) == 0 &&
         stat(folder.c_str(), &wanted) == 0 && its.st_dev == wanted.st_dev &&
         its.st_ino == wanted.st_ino;
}

std::vector<pid_t> ProcessesIn(const std::string& program, const std::string& folder) {
  std::vector<pid_t> found;
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator("/proc", error)) {
    const std::string name = entry.path().filename().string();
    if (name.size() > 9 ||
        !std::all_of(name.begin(), name.end(), [](char c) { return c >= '0' && c <= '9'; })) {
      continue;
    }
    if (const pid_t process = std::stoi(name); RunsIn(process, program, folder)) {
      found.push_back(process);
    }
  }
  return found;
}

}  // namespace rowproof::server
