// Typographic variants of characters: The Unicode Standard's blanks (general category Zs), dashes
// (Pd and the minus sign), quotation marks, and characters that show nothing. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_CHARACTERS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_CHARACTERS_H_

#include <string_view>

namespace rowproof::rows {

// What a character outside of ASCII is read as: a blank, nothing (0), an ASCII mark, 'x' for the
// times sign, or 'a' for a letter of a word. `length` is set to its bytes.
char PlainCharacter(std::string_view text, size_t at, size_t* length);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_CHARACTERS_H_
