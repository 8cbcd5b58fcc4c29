// Texts as a plain keyboard would have them, for comparing and reading. Thread-safe.
#ifndef ROWPROOF_SERVICES_TEXT_FOLDING_H_
#define ROWPROOF_SERVICES_TEXT_FOLDING_H_

#include <cstdint>
#include <string>
#include <string_view>

namespace rowproof::text {

// What a character becomes, `bytes` if nothing else: small letters, plain quotes and dashes,
// fractions as " 1/2", no soft hyphens.
std::string FoldedCharacter(uint32_t code_point, std::string_view bytes);

// Every character of a text.
std::string Folded(std::string_view text);

}  // namespace rowproof::text

#endif  // ROWPROOF_SERVICES_TEXT_FOLDING_H_
