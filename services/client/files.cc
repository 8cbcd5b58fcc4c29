#include "services/client/files.h"

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>
#include <string_view>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/text/utf8.h"

namespace rowproof::client {
namespace {

struct Closer {
  void operator()(std::FILE* file) const {
    if (file != stdin) std::fclose(file);
  }
};

}  // namespace

std::string ReadFile(const std::string& path, size_t most_bytes) {
  const std::unique_ptr<std::FILE, Closer> file(path == "-" ? stdin
                                                            : std::fopen(path.c_str(), "rb"));
  if (file == nullptr) {
    throw Failure(ExitCode::kNotFound,
                  fmt::format("\"{}\" cannot be opened: {}", path, std::strerror(errno)));
  }
  std::string content;
  char buffer[65536];
  size_t count = 0;
  while ((count = std::fread(buffer, 1, sizeof buffer, file.get())) > 0) {
    content.append(buffer, count);
    if (content.size() > most_bytes) {
      throw Failure(ExitCode::kRefused,
                    fmt::format("\"{}\" is larger than {} bytes", path, most_bytes));
    }
  }
  if (std::ferror(file.get()) != 0) {
    throw Failure(ExitCode::kNotFound,
                  fmt::format("\"{}\" cannot be read: {}", path, std::strerror(errno)));
  }
  return content;
}

std::string ReadTextFile(const std::string& path, size_t most_bytes) {
  const std::string content = ReadFile(path, most_bytes);
  if (!text::IsUtf8(content)) {
    throw Failure(ExitCode::kRefused,
                  fmt::format("\"{}\" is not UTF-8: save it as plain text in UTF-8", path));
  }
  constexpr std::string_view kByteOrderMark = "\xef\xbb\xbf";
  std::string text;
  text.reserve(content.size());
  for (size_t at = content.starts_with(kByteOrderMark) ? kByteOrderMark.size() : 0;
       at < content.size(); ++at) {
    const char c = content[at];
    if (c == '\r' && at + 1 < content.size() && content[at + 1] == '\n') continue;
    text += c == '\r' || c == '\f' ? '\n' : c;
  }
  return text;
}

void WriteFile(const std::string& path, const std::string& content) {
  const bool standard = path.empty() || path == "-";
  std::FILE* file = standard ? stdout : std::fopen(path.c_str(), "wb");
  bool written = file != nullptr;
  if (written) written = std::fwrite(content.data(), 1, content.size(), file) == content.size();
  if (file != nullptr) {
    written = (standard ? std::fflush(file) : std::fclose(file)) == 0 && written;
  }
  if (!written) {
    throw Failure(ExitCode::kRefused, fmt::format("\"{}\" cannot be written: {}",
                                                  standard ? "-" : path, std::strerror(errno)));
  }
}

std::string EndingOf(const std::string& path) {
  const size_t dot = path.rfind('.');
  const size_t slash = path.rfind('/');
  if (dot == std::string::npos || (slash != std::string::npos && slash > dot)) return {};
  std::string ending = path.substr(dot + 1);
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return ending;
}

}  // namespace rowproof::client
