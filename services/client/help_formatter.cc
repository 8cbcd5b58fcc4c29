#include "services/client/help_formatter.h"

#include <sstream>

#include "services/client/tables/table.h"

namespace rowproof::client {
namespace {

// A description stays in its column.
std::string Broken(const std::string& line, size_t description_column) {
  if (line.size() <= kPageColumns) return line + "\n";
  const bool described = line.front() == ' ' && line[description_column - 1] == ' ';
  const size_t indent = described ? description_column : 0;
  return Paragraph(line.substr(0, indent), line.substr(indent));
}

}  // namespace

std::string HelpFormatter::make_help(const CLI::App* app, std::string name,
                                     CLI::AppFormatMode mode) const {
  std::istringstream lines(CLI::Formatter::make_help(app, name, mode));
  std::string help;
  for (std::string line; std::getline(lines, line);) help += Broken(line, get_column_width());
  return help;
}

}  // namespace rowproof::client
