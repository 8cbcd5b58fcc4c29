// Reads the canonical encoding of a version's content (canonical.h). Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_CANONICAL_DECODING_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_CANONICAL_DECODING_H_

#include <string_view>

#include "absl/status/statusor.h"
#include "services/domain/patterns/version_content.h"

namespace rowproof::patterns {

// Accepts exactly what Encode makes: Encode(*Decode(x)) == x wherever Decode succeeds. The design
// that it gives is well formed; ranges of the materials' numbers are not checked again, so that a
// limit which was narrowed later keeps no version from being read.
// INVALID_ARGUMENT with field "encoding": an unknown format, one that the content does not need, a
// missing, foreign or repeated field,
// a length past the end, trailing bytes, an enum or count out of range (checked before anything is
// allocated), a number that is not finite, a text that is not UTF-8, set bits past the last stitch.
absl::StatusOr<VersionContent> Decode(std::string_view encoding);

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_CANONICAL_DECODING_H_
