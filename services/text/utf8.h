// Characters of a text: code points of The Unicode Standard in UTF-8. Bytes that belong to no
// well-formed sequence are each a character, U+FFFD. Thread-safe.
#ifndef ROWPROOF_SERVICES_TEXT_UTF8_H_
#define ROWPROOF_SERVICES_TEXT_UTF8_H_

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace rowproof::text {

// How many bytes at the start are well-formed UTF-8 (The Unicode Standard, table 3-7: no overlong
// forms, no surrogates, nothing past U+10FFFF).
size_t WellFormedBytes(std::string_view text);
bool IsUtf8(std::string_view text);

struct Character {
  uint32_t code_point = 0;
  size_t length = 1;  // bytes
};

// The character that starts at `at`, which is below the text's length.
Character CharacterAt(std::string_view text, size_t at);

size_t CharacterCount(std::string_view text);

// The first `count` characters; all where there are no more.
std::string_view FirstCharacters(std::string_view text, size_t count);

// The whole characters within the first `most_bytes` of a text in UTF-8.
std::string_view FirstBytes(std::string_view text, size_t most_bytes);

// U+0000 to U+001F, U+007F to U+009F (general category Cc).
bool IsControl(uint32_t code_point);

// The space and its variants (general categories Zs, Zl and Zp); no control character.
bool IsBlank(uint32_t code_point);

// What leaves no mark or turns the direction of what stands around it: soft hyphen, zero-width
// space, word joiner, byte order mark, the bidirectional controls, fillers, tags and the other
// invisible operators (default ignorable code points of The Unicode Standard but for the joiners
// U+200C and U+200D, the variation selectors and the grapheme joiner, which belong to words and
// signs).
bool IsInvisible(uint32_t code_point);

}  // namespace rowproof::text

#endif  // ROWPROOF_SERVICES_TEXT_UTF8_H_
