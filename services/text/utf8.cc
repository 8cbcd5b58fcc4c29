#include "services/text/utf8.h"

#include <utf8.h>

#include <algorithm>
#include <cstring>
#include <iterator>

namespace rowproof::text {
namespace {

constexpr size_t kWord = sizeof(uint64_t);

// Whether eight bytes from `at` on are there and all ASCII.
bool IsAsciiWord(std::string_view text, size_t at) {
  if (text.size() - at < kWord) return false;
  uint64_t word = 0;
  std::memcpy(&word, text.data() + at, kWord);
  return (word & 0x8080808080808080) == 0;
}

}  // namespace

size_t WellFormedBytes(std::string_view text) {
  // Long texts are mostly ASCII, which utfcpp reads a byte at a time: it gets the stretches
  // between.
  size_t at = 0;
  while (at < text.size()) {
    if (IsAsciiWord(text, at)) {
      at += kWord;
      continue;
    }
    size_t end = at;
    while (end < text.size() && !IsAsciiWord(text, end)) end = std::min(end + kWord, text.size());
    const char* const stretch_end = text.data() + end;
    const char* const found = utf8::find_invalid(text.data() + at, stretch_end);
    if (found != stretch_end) return static_cast<size_t>(found - text.data());
    at = end;
  }
  return at;
}

bool IsUtf8(std::string_view text) { return WellFormedBytes(text) == text.size(); }

Character CharacterAt(std::string_view text, size_t at) {
  const auto byte = static_cast<uint8_t>(text[at]);
  if (byte < 0x80) return {byte, 1};
  const char* const start = text.data() + at;
  const char* next = start;
  try {
    const uint32_t code_point = utf8::next(next, text.data() + text.size());
    return {code_point, static_cast<size_t>(next - start)};
  } catch (const utf8::exception&) {
    return {0xfffd, 1};
  }
}

size_t CharacterCount(std::string_view text) {
  size_t count = 0;
  for (size_t at = 0; at < text.size(); ++count) at += CharacterAt(text, at).length;
  return count;
}

std::string_view FirstCharacters(std::string_view text, size_t count) {
  size_t at = 0;
  for (; at < text.size() && count > 0; --count) at += CharacterAt(text, at).length;
  return text.substr(0, at);
}

std::string_view FirstBytes(std::string_view text, size_t most_bytes) {
  if (text.size() <= most_bytes) return text;
  return text.substr(0, WellFormedBytes(text.substr(0, most_bytes)));
}

bool IsControl(uint32_t code_point) {
  return code_point < 0x20 || (code_point >= 0x7f && code_point <= 0x9f);
}

bool IsBlank(uint32_t code_point) {
  switch (code_point) {
    case ' ':
    case 0xa0:
    case 0x1680:
    case 0x2028:
    case 0x2029:
    case 0x202f:
    case 0x205f:
    case 0x3000:
      return true;
    default:
      return code_point >= 0x2000 && code_point <= 0x200a;
  }
}

bool IsInvisible(uint32_t code_point) {
  struct Range {
    uint32_t first;
    uint32_t last;
  };
  // DerivedCoreProperties.txt, Default_Ignorable_Code_Point; from memory, held against Perl's
  // tables by tests/text/utf8_test.cc.
  constexpr Range kRanges[] = {
      {0xad, 0xad},       {0x61c, 0x61c},     {0x115f, 0x1160},   {0x17b4, 0x17b5},
      {0x180e, 0x180e},   {0x200b, 0x200b},   {0x200e, 0x200f},   {0x202a, 0x202e},
      {0x2060, 0x206f},   {0x3164, 0x3164},   {0xfeff, 0xfeff},   {0xffa0, 0xffa0},
      {0xfff0, 0xfffb},   {0x1bca0, 0x1bca3}, {0x1d173, 0x1d17a}, {0xe0000, 0xe00ff},
      {0xe01f0, 0xe0fff},
  };
  return std::any_of(std::begin(kRanges), std::end(kRanges), [&](const Range& range) {
    return code_point >= range.first && code_point <= range.last;
  });
}

}  // namespace rowproof::text
