// Texts that come from outside. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TEXT_H_
#define ROWPROOF_SERVICES_DOMAIN_TEXT_H_

#include <cstddef>
#include <string>
#include <string_view>

#include "absl/status/status.h"

namespace rowproof {

// INVALID_ARGUMENT with `field` if the text is longer than `max_bytes`, is not UTF-8, or holds a
// control character (U+0000 to U+001F, U+007F to U+009F). `allow_newlines`: line feeds and tabs
// pass, and so do invisible characters and those that turn the direction, which a text of one line
// has not.
absl::Status ValidateText(const std::string& field, std::string_view text, size_t max_bytes,
                          bool allow_newlines);

// Whether an address could be one: one or more words of a mailbox parted by single full stops, "@",
// and a domain of letters, digits and hyphens (RFC 5321, 4.1.2, without quoted words and address
// literals; RFC 6531 allows other letters than ASCII's in both). Nothing is sent to find out.
bool IsMailAddress(std::string_view text);

// ValidateText of one line in which there is something to see.
absl::Status ValidateName(const std::string& field, std::string_view name, size_t max_bytes);

}  // namespace rowproof

#endif  // ROWPROOF_SERVICES_DOMAIN_TEXT_H_
