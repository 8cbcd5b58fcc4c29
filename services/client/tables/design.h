// A design file for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_DESIGN_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_DESIGN_H_

#include <string>

#include "services/client/design/file.h"
#include "services/client/design/options.h"

namespace rowproof::client {

// What applies to the chart and where it comes from: which option, or which line of the file. With
// `details` also what is not given, and the default.
std::string TextOf(const DesignFile& file, const DesignOptions& typed, bool details);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_DESIGN_H_
