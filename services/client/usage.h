// What is wrong with a command line.
#ifndef ROWPROOF_SERVICES_CLIENT_USAGE_H_
#define ROWPROOF_SERVICES_CLIENT_USAGE_H_

#include <CLI/CLI.hpp>
#include <string>

namespace rowproof::client {

// One sentence on a command line that did not parse: a command or option that does not exist and
// the nearest one, a command that is missing, or else what the parser said; then where help is.
std::string UsageLine(const CLI::App& app, int argc, const char* const* argv,
                      const std::string& said);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_USAGE_H_
