// How --help looks. Not thread-safe.
#ifndef ROWPROOF_SERVICES_CLIENT_HELP_FORMATTER_H_
#define ROWPROOF_SERVICES_CLIENT_HELP_FORMATTER_H_

#include <CLI/CLI.hpp>
#include <string>

namespace rowproof::client {

// The program: its commands by what one does, on one screen. A noun: its commands. A command: what
// it takes, the options that it uses by group, and an example; never wider than kPageColumns.
class HelpFormatter : public CLI::Formatter {
 public:
  std::string make_help(const CLI::App* app, std::string name,
                        CLI::AppFormatMode mode) const override;
};

// The example below a command's help. A command without one shows one built from its required
// arguments.
std::string ExampleText(const std::string& example);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_HELP_FORMATTER_H_
