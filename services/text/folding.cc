#include "services/text/folding.h"

#include "services/text/utf8.h"

namespace rowproof::text {

std::string FoldedCharacter(uint32_t code_point, std::string_view bytes) {
  switch (code_point) {
    case 0x2018:
    case 0x2019:
    case 0x201b:
    case 0x2032:
      return "'";
    case 0x201c:
    case 0x201d:
    case 0x201e:
    case 0x2033:
      return "\"";
    case 0x2010:
    case 0x2011:
    case 0x2012:
    case 0x2013:
    case 0x2014:
    case 0x2212:
      return "-";
    case 0xad:
      return "";
    case 0xbc:
      return " 1/4";
    case 0xbd:
      return " 1/2";
    case 0xbe:
      return " 3/4";
    case 0xff1a:
      return ":";
    default:
      break;
  }
  if (code_point >= 'A' && code_point <= 'Z') {
    return std::string(1, static_cast<char>(code_point - 'A' + 'a'));
  }
  return std::string(bytes);
}

std::string Folded(std::string_view text) {
  std::string folded;
  for (size_t at = 0; at < text.size();) {
    const Character character = CharacterAt(text, at);
    folded += FoldedCharacter(character.code_point, text.substr(at, character.length));
    at += character.length;
  }
  return folded;
}

}  // namespace rowproof::text
