// The invitation to a seat or to read a pattern, in the text that brought it.
#ifndef ROWPROOF_SERVICES_CLIENT_PARSING_INVITATION_H_
#define ROWPROOF_SERVICES_CLIENT_PARSING_INVITATION_H_

#include <string>

namespace rowproof::client {

// From what "seat offer" or "editor invite" prints (as text or JSON), a mail that quotes it, or the
// invitation alone. Throws Failure (refused) if there is none.
std::string InvitationIn(const std::string& text);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_PARSING_INVITATION_H_
