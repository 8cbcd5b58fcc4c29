// How --help looks. Not thread-safe.
#ifndef ROWPROOF_SERVICES_CLIENT_HELP_FORMATTER_H_
#define ROWPROOF_SERVICES_CLIENT_HELP_FORMATTER_H_

#include <CLI/CLI.hpp>
#include <string>

namespace rowproof::client {

// CLI11's own layout, its lines broken at kPageColumns.
class HelpFormatter : public CLI::Formatter {
 public:
  std::string make_help(const CLI::App* app, std::string name,
                        CLI::AppFormatMode mode) const override;
};

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_HELP_FORMATTER_H_
