// A design file for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_DESIGN_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_DESIGN_H_

#include <string>

#include "services/client/design/file.h"
#include "services/client/design/options.h"

namespace rowproof::client {

// What holds for the chart and where it is said: by which option, on which line of the file. With
// `details` also what nobody said, and what holds instead.
std::string TextOf(const DesignFile& file, const DesignOptions& typed, bool details);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_DESIGN_H_
