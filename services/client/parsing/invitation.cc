#include "services/client/parsing/invitation.h"

#include <cctype>
#include <string_view>

#include "services/client/failure.h"

namespace rowproof::client {
namespace {

// Characters of an invitation besides letters and digits.
constexpr std::string_view kTokenSigns = "_-.~+/=";

}  // namespace

std::string InvitationIn(const std::string& text) {
  const auto token = [&text](size_t from) {
    size_t end = from;
    while (end < text.size() && (std::isalnum(static_cast<unsigned char>(text[end])) != 0 ||
                                 kTokenSigns.find(text[end]) != std::string_view::npos)) {
      ++end;
    }
    return text.substr(from, end - from);
  };
  constexpr char kBlanks[] = " \t\r\n";
  const size_t first = text.find_first_not_of(kBlanks);
  if (first != std::string::npos && text.find_last_not_of(kBlanks) < first + token(first).size()) {
    return token(first);
  }
  // "Invitation: ...", in JSON within quotes; a mail program's quoting marks may precede it.
  std::string found;
  for (size_t at = text.find("nvitation"); at != std::string::npos;
       at = text.find("nvitation", at)) {
    at = text.find_first_not_of(" \t\"", at + std::string_view("nvitation").size());
    if (at == std::string::npos || text[at] != ':') continue;
    at = text.find_first_not_of(" \t\"", at + 1);
    if (at == std::string::npos || token(at).empty()) continue;
    if (!found.empty() && token(at) != found) {
      throw Failure(
          ExitCode::kRefused,
          "INVITATION holds several invitations: each is for one tester; give the one that "
          "you were sent");
    }
    found = token(at);
  }
  if (!found.empty()) return found;
  throw Failure(ExitCode::kRefused,
                "INVITATION holds no invitation: give the text that you were sent, with its line "
                "\"Invitation: ...\"");
}

}  // namespace rowproof::client
