#include "services/domain/rows/reading/characters.h"

#include <cstdint>

#include "services/domain/rows/reading/tokens.h"
#include "services/text/utf8.h"

namespace rowproof::rows {
namespace {

bool ShowsNothing(uint32_t c) {
  return c == 0xad || (c >= 0x200b && c <= 0x200f) || (c >= 0x202a && c <= 0x202e) ||
         (c >= 0x2060 && c <= 0x2064) || (c >= 0x2066 && c <= 0x2069) || c == 0xfeff ||
         (c >= 0xfe00 && c <= 0xfe0f);
}

bool IsDash(uint32_t c) {
  return (c >= 0x2010 && c <= 0x2015) || c == 0x2212 || c == 0x2043 || c == 0xfe58 || c == 0xfe63 ||
         c == 0xff0d;
}

}  // namespace

char PlainCharacter(std::string_view text, size_t at, size_t* length) {
  const text::Character character = text::CharacterAt(text, at);
  const uint32_t c = character.code_point;
  *length = character.length;
  if (ShowsNothing(c)) return 0;
  if (text::IsBlank(c)) return ' ';
  if (IsDash(c)) return '-';
  switch (c) {
    case 0x2018:  // single quotes, prime, modifier apostrophe, acute
    case 0x2019:
    case 0x201a:
    case 0x201b:
    case 0x2032:
    case 0x02bc:
    case 0xb4:
      return '\'';
    case 0x201c:  // double quotes, double prime
    case 0x201d:
    case 0x201e:
    case 0x201f:
    case 0x2033:
    case 0xab:
    case 0xbb:
      return '"';
    case 0xd7:  // times signs
    case 0x2715:
    case 0x2716:
    case 0x2a2f:
      return 'x';
    case 0x2217:  // asterisks
    case 0x204e:
    case 0x2731:
    case 0xff0a:
      return '*';
    case 0x2022:  // bullets
    case 0x00b7:
    case 0x25cf:
    case 0x25aa:
      return '\x01';
    case 0x2026:
      return '.';
    default:
      return 'a';
  }
}

}  // namespace rowproof::rows
