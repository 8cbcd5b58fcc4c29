#include "services/domain/text.h"

#include <cstdint>
#include <cstring>

#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof {
namespace {

// Length of the well-formed sequence at the start, 0 if there is none; its code point.
size_t Sequence(std::string_view text, uint32_t* code_point) {
  const auto byte = [&](size_t i) { return static_cast<uint8_t>(text[i]); };
  const uint8_t lead = byte(0);
  if (lead < 0x80) {
    *code_point = lead;
    return 1;
  }
  const size_t length = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : 2;
  if (lead < 0xc2 || lead > 0xf4 || text.size() < length) return 0;
  uint32_t value = lead & (0x7fu >> length);
  for (size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xc0) != 0x80) return 0;
    value = value << 6 | (byte(i) & 0x3fu);
  }
  const bool overlong = (length == 3 && value < 0x800) || (length == 4 && value < 0x10000);
  if (overlong || value > 0x10ffff || (value >= 0xd800 && value <= 0xdfff)) return 0;
  *code_point = value;
  return length;
}

bool IsControl(uint32_t code_point) {
  return code_point < 0x20 || (code_point >= 0x7f && code_point <= 0x9f);
}

}  // namespace

bool IsUtf8(std::string_view text) {
  constexpr uint64_t kHighBits = 0x8080808080808080;
  uint32_t code_point = 0;
  while (!text.empty()) {
    // Long texts are mostly ASCII: eight bytes at once.
    uint64_t word = kHighBits;
    if (text.size() >= sizeof(word)) std::memcpy(&word, text.data(), sizeof(word));
    if ((word & kHighBits) == 0) {
      text.remove_prefix(sizeof(word));
      continue;
    }
    const size_t length = Sequence(text, &code_point);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

absl::Status ValidateText(const std::string& field, std::string_view text, size_t max_bytes,
                          bool allow_newlines) {
  const std::string accepted =
      fmt::format("UTF-8 text of at most {} bytes without control characters{}", max_bytes,
                  allow_newlines ? " other than line feeds and tabs" : "");
  if (text.size() > max_bytes) {
    return InvalidField(field, fmt::format("{} bytes", text.size()), accepted);
  }
  uint32_t code_point = 0;
  for (size_t at = 0; at < text.size();) {
    const size_t length = Sequence(text.substr(at), &code_point);
    if (length == 0) {
      return InvalidField(field, fmt::format("other bytes at byte {}", at + 1), accepted);
    }
    const bool passes = allow_newlines && (code_point == '\n' || code_point == '\t');
    if (IsControl(code_point) && !passes) {
      return InvalidField(field, fmt::format("U+{:04X} at byte {}", code_point, at + 1), accepted);
    }
    at += length;
  }
  return absl::OkStatus();
}

}  // namespace rowproof
