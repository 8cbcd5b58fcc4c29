#include "services/domain/text.h"

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/text/utf8.h"

namespace rowproof {

absl::Status ValidateText(const std::string& field, std::string_view text, size_t max_bytes,
                          bool allow_newlines) {
  const std::string accepted =
      fmt::format("UTF-8 text of at most {} bytes without control characters{}", max_bytes,
                  allow_newlines ? " other than line feeds and tabs" : "");
  if (text.size() > max_bytes) {
    return InvalidField(field, fmt::format("{} bytes", text.size()), accepted);
  }
  const size_t well_formed = text::WellFormedBytes(text);
  for (size_t at = 0; at < well_formed;) {
    const auto [code_point, length] = text::CharacterAt(text, at);
    const bool passes = allow_newlines && (code_point == '\n' || code_point == '\t');
    if (text::IsControl(code_point) && !passes) {
      return InvalidField(field, fmt::format("U+{:04X} at byte {}", code_point, at + 1), accepted);
    }
    at += length;
  }
  if (well_formed < text.size()) {
    return InvalidField(field, fmt::format("other bytes at byte {}", well_formed + 1), accepted);
  }
  return absl::OkStatus();
}

}  // namespace rowproof
