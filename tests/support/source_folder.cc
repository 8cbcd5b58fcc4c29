#include "tests/support/source_folder.h"

namespace rowproof {

std::string InSources(const std::string& path) { return ROWPROOF_SOURCE_DIR "/" + path; }

}  // namespace rowproof
