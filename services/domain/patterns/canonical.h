// The canonical encoding of a version's content: one content has exactly one encoding, which is
// stored, hashed and decoded again years later. Thread-safe.
//
// All numbers are big-endian. First the format number (4 bytes), then the fields of the content in
// ascending order of their tags, each exactly once; an optional field that is absent is left out. A
// field is its tag (1 byte, from 1), the letter of its type (1 byte) and its value:
//   'u'  unsigned number or enum, 4 bytes
//   'd'  IEEE 754 binary64, 8 bytes; finite, never -0
//   's'  text, UTF-8: length in bytes (4), bytes
//   'b'  bytes: length (4), bytes
//   'r'  record: length in bytes (4), its fields
//   'l'  list of records: count (4), each a length in bytes (4) and its fields
// The tags are listed in canonical_schema.h. Enum numbers are the code's own and never change their
// meaning; a new field gets a new tag in a new format, and old formats stay readable. Chart rows
// follow each other from the bottom, each of ceil(stitches / 8) bytes; bit 0 of a row's first byte
// is stitch 1; bits past the last stitch are zero. Row colours are one byte a row, picture colours
// one byte a cell.
//
// Format 1 has two colours and the border's yarn. Format 2 has more: colours C to H and their
// yarns, the colour that each cell of a picture names, the colour of the foundation under a chart,
// a yarn's declared tex, and the calibration that the materials' assumptions came from, with the
// covariance of its coefficients if there is one. Format 3 may leave out the terms of a
// designer's own text (tag 9), which then are what the text itself declares or shows. Format 4 adds
// what a calibration was measured in, format 5 how its rows are written. A content that a lower
// format can say is encoded in it and in no other, so that its hash stays what it was.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_CANONICAL_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_CANONICAL_H_

#include <cstdint>
#include <string>

#include "services/domain/patterns/version_content.h"

namespace rowproof::patterns {

inline constexpr uint32_t kNewestFormat = 5;

// The lowest format that can say the content: 1 to kNewestFormat.
uint32_t FormatOf(const VersionContent& content);

// The content must be valid; -0 is written as 0, so that equal contents encode equally.
std::string Encode(const VersionContent& content);

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_CANONICAL_H_
