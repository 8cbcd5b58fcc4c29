// A design file next to a chart holds its options, so that no command needs them again.
#ifndef ROWPROOF_SERVICES_CLIENT_DESIGN_FILE_H_
#define ROWPROOF_SERVICES_CLIENT_DESIGN_FILE_H_

#include <cstddef>
#include <map>
#include <string>

#include "services/client/design/options.h"

namespace rowproof::client {

inline constexpr size_t kLargestDesignBytes = 65536;
// Sizes, counts of a gauge and fringes, each.
inline constexpr size_t kMostTables = 100;

struct DesignFile {
  std::string path;  // empty: there is none
  DesignOptions options;
  // The line of each key, by its path: "technique", "chart.grid", "size", "yarn.A.ball".
  std::map<std::string, int> lines;
};

// Of TOML text. Throws Failure (refused) that names path and line: not TOML, a key that does not
// exist and the nearest one, a value of another type or form or out of range. Files that it names
// are relative to its folder. Pure.
DesignFile ParseDesign(const std::string& path, const std::string& text);

// Reads it; Failure as ParseDesign, absent if it cannot be opened, refused over the size.
DesignFile ReadDesignFile(const std::string& path);

// "folder/mat.toml" for "folder/mat.png"; empty for standard input.
std::string DesignPathBeside(const std::string& chart_path);

// The file that `path` names, or, if it is empty, the one next to the chart; without either,
// nothing.
DesignFile FindDesignFile(const std::string& path, const std::string& chart_path);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_DESIGN_FILE_H_
