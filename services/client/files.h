// Files and standard input and output of the commands. Throws Failure.
#ifndef ROWPROOF_SERVICES_CLIENT_FILES_H_
#define ROWPROOF_SERVICES_CLIENT_FILES_H_

#include <cstddef>
#include <string>

namespace rowproof::client {

// Most bytes of a chart file, as the service accepts them.
inline constexpr size_t kLargestFileBytes = size_t{16} * 1024 * 1024;

// Most bytes of a JSON request: such a file as base64, and the fields around it.
inline constexpr size_t kLargestJsonBytes = size_t{64} * 1024 * 1024;

// The whole file; "-" is standard input. Absent if it cannot be opened, refused over the limit.
std::string ReadFile(const std::string& path, size_t most_bytes = kLargestFileBytes);
// A text that people wrote: UTF-8, refused if it is not. Line ends of any system become line
// feeds; a byte order mark is left out.
std::string ReadTextFile(const std::string& path, size_t most_bytes = kLargestFileBytes);
// Replaces the file; "" and "-" are standard output.
void WriteFile(const std::string& path, const std::string& content);
// Lower-case ending without the dot; empty if there is none.
std::string EndingOf(const std::string& path);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_FILES_H_
