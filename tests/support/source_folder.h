// Where the tests' data lies.
#ifndef ROWPROOF_TESTS_SUPPORT_SOURCE_FOLDER_H_
#define ROWPROOF_TESTS_SUPPORT_SOURCE_FOLDER_H_

#include <string>

namespace rowproof {

// A file or folder of the sources that this program was built from: InSources("tests/golden").
std::string InSources(const std::string& path);

}  // namespace rowproof

#endif  // ROWPROOF_TESTS_SUPPORT_SOURCE_FOLDER_H_
