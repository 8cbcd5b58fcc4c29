#include "services/domain/text.h"

#include <cctype>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/text/utf8.h"

namespace rowproof {

absl::Status ValidateText(const std::string& field, std::string_view text, size_t max_bytes,
                          bool allow_newlines) {
  const std::string accepted =
      fmt::format("UTF-8 text of at most {} bytes without control characters{}", max_bytes,
                  allow_newlines ? " other than line feeds and tabs" : " and invisible ones");
  if (text.size() > max_bytes) {
    return InvalidField(field, fmt::format("{} bytes", text.size()), accepted);
  }
  const size_t well_formed = text::WellFormedBytes(text);
  for (size_t at = 0; at < well_formed;) {
    const auto [code_point, length] = text::CharacterAt(text, at);
    const bool passes = allow_newlines && (code_point == '\n' || code_point == '\t');
    const bool hidden = !allow_newlines && text::IsInvisible(code_point);
    if ((text::IsControl(code_point) && !passes) || hidden) {
      return InvalidField(field, fmt::format("U+{:04X} at byte {}", code_point, at + 1), accepted);
    }
    at += length;
  }
  if (well_formed < text.size()) {
    return InvalidField(field, fmt::format("other bytes at byte {}", well_formed + 1), accepted);
  }
  return absl::OkStatus();
}

bool IsMailAddress(std::string_view text) {
  constexpr size_t kLongestMailbox = 64;  // RFC 5321, 4.5.3.1.1
  const size_t at = text.find('@');
  if (at == std::string_view::npos || at > kLongestMailbox || !text::IsUtf8(text)) return false;
  const auto words = [](std::string_view part, std::string_view signs) {
    bool first = true;  // of a word
    for (const char c : part) {
      const auto byte = static_cast<unsigned char>(c);
      const bool in_word =
          byte >= 0x80 || std::isalnum(byte) != 0 || signs.find(c) != std::string_view::npos;
      if (!in_word && (c != '.' || first)) return false;
      first = c == '.';
    }
    return !first;
  };
  return words(text.substr(0, at), "!#$%&'*+-/=?^_`{|}~") && words(text.substr(at + 1), "-");
}

absl::Status ValidateName(const std::string& field, std::string_view name, size_t max_bytes) {
  const std::string accepted = fmt::format("1 to {} bytes long", max_bytes);
  if (name.empty()) return MissingField(field, accepted);
  RETURN_IF_ERROR(ValidateText(field, name, max_bytes, false));
  for (size_t at = 0; at < name.size();) {
    const auto [code_point, length] = text::CharacterAt(name, at);
    if (!text::IsBlank(code_point)) return absl::OkStatus();
    at += length;
  }
  return InvalidField(field, std::string(name), accepted + ", and not blank");
}

}  // namespace rowproof
