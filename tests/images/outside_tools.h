// Programs that are not ours (ImageMagick, Netpbm), run as the tests need them.
#ifndef ROWPROOF_TESTS_IMAGES_OUTSIDE_TOOLS_H_
#define ROWPROOF_TESTS_IMAGES_OUTSIDE_TOOLS_H_

#include <string>
#include <string_view>

namespace rowproof::images {

// Standard output of a shell command that was given `input`. A missing program, or any other
// failure, fails the test.
std::string Output(const std::string& command, std::string_view input);

}  // namespace rowproof::images

#endif  // ROWPROOF_TESTS_IMAGES_OUTSIDE_TOOLS_H_
