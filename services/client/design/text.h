// The text of a design file. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_DESIGN_TEXT_H_
#define ROWPROOF_SERVICES_CLIENT_DESIGN_TEXT_H_

#include <map>
#include <string>
#include <vector>

#include "services/client/design/options.h"

namespace rowproof::client {

// What is said of each yarn by the design file, by the options for each yarn and by --yarn
// together; A, B and those that are named. A later word takes the place of an earlier one.
std::map<std::string, YarnWords> YarnsOf(const MaterialsOptions& materials);

// TOML that ParseDesign reads to the same options: what is said as keys, what is not as comments
// that show an example and what holds without the key. `heading` stands above it, a comment a line;
// files are named from `folder` on. Throws Failure (usage) for --materials, which has no keys.
std::string DesignText(const DesignOptions& options, const std::string& folder,
                       const std::vector<std::string>& heading);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_DESIGN_TEXT_H_
