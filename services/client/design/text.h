// The text of a design file. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_DESIGN_TEXT_H_
#define ROWPROOF_SERVICES_CLIENT_DESIGN_TEXT_H_

#include <map>
#include <string>
#include <vector>

#include "services/client/design/options.h"

namespace rowproof::client {

// What the design file, the options for every yarn and --yarn together say about each yarn: A, B
// and those that are named. A later value replaces an earlier one.
std::map<std::string, YarnWords> YarnsOf(const MaterialsOptions& materials);

// TOML that ParseDesign reads to the same options: what is given as keys, what is not as comments
// with an example and the default. `heading` comes first, one comment for each line; files are
// named relative to `folder`. Throws Failure (usage) for --materials, which has no keys.
std::string DesignText(const DesignOptions& options, const std::string& folder,
                       const std::vector<std::string>& heading);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_DESIGN_TEXT_H_
