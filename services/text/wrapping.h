// Plain text in columns of one character each: no text here has wide or joined ones. ASCII control
// characters count as blanks. Thread-safe.
#ifndef ROWPROOF_SERVICES_TEXT_WRAPPING_H_
#define ROWPROOF_SERVICES_TEXT_WRAPPING_H_

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace rowproof::text {

// Lines of at most `columns` (0 counts as 1) columns, broken at blanks, and within a word only if
// the word alone is longer; runs of blanks become one. No text: no line.
std::vector<std::string> Wrap(std::string_view text, size_t columns);

// `text` and blanks up to `columns`.
std::string Padded(std::string text, size_t columns);

// Appends `text` behind `lead` with line feeds; further lines are indented by the width of the
// lead.
void AppendWrapped(std::string& out, std::string_view lead, std::string_view text, size_t columns);

// With a blank for each ASCII control character.
std::string OneLine(std::string_view text);

// The first 40 characters of a text as one line, with "..." if it goes on.
std::string Excerpt(std::string_view text);

}  // namespace rowproof::text

#endif  // ROWPROOF_SERVICES_TEXT_WRAPPING_H_
