// Texts that come from outside. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TEXT_H_
#define ROWPROOF_SERVICES_DOMAIN_TEXT_H_

#include <cstddef>
#include <string>
#include <string_view>

#include "absl/status/status.h"

namespace rowproof {

// INVALID_ARGUMENT with `field` if the text is longer than `max_bytes`, is not UTF-8, or holds a
// control character (U+0000 to U+001F, U+007F to U+009F); line feeds and tabs pass if
// `allow_newlines` says so.
absl::Status ValidateText(const std::string& field, std::string_view text, size_t max_bytes,
                          bool allow_newlines);

}  // namespace rowproof

#endif  // ROWPROOF_SERVICES_DOMAIN_TEXT_H_
