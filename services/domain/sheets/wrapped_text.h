// Plain text in columns. A column is one character (code point); bytes that are not UTF-8 count one
// each. Control characters become blanks. Used by the errata sheet.
#ifndef ROWPROOF_SERVICES_DOMAIN_SHEETS_WRAPPED_TEXT_H_
#define ROWPROOF_SERVICES_DOMAIN_SHEETS_WRAPPED_TEXT_H_

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace rowproof::sheets {

size_t Columns(std::string_view text);

// Lines of at most `columns` (at least 1) columns, broken at blanks, and within a word only if
// the word alone is longer; runs of blanks become one. No text: no line.
std::vector<std::string> Wrap(std::string_view text, size_t columns);

// `text` and blanks up to `columns`.
std::string Padded(std::string text, size_t columns);

// Appends `text` behind `lead` with line feeds; further lines are indented by the width of the
// lead.
void AppendWrapped(std::string& out, std::string_view lead, std::string_view text, size_t columns);

}  // namespace rowproof::sheets

#endif  // ROWPROOF_SERVICES_DOMAIN_SHEETS_WRAPPED_TEXT_H_
