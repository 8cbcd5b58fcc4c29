// Taking part by an invitation, as a tester or an editor: with the caller's account if they are
// signed in, otherwise with a new one.
#ifndef ROWPROOF_SERVICES_USECASES_JOINING_H_
#define ROWPROOF_SERVICES_USECASES_JOINING_H_

#include <string>

#include "absl/status/status.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

// Bytes of an invitation's token; a longer one was never made.
inline constexpr size_t kLongestInvitation = 200;

// What a new account's person says of themselves.
struct Joiner {
  std::string display_name;
  std::string mail_address;
};

// A new account needs a name; an existing account has its own. INVALID_ARGUMENT "display_name",
// "mail_address".
absl::Status ValidateJoiner(const Joiner& joiner, bool signed_in);

struct Joined {
  AccountId account;
  std::string display_name;
  std::string secret;  // of a new account; else empty
  // What the write keeps as its result for a repetition: a new account's first token, else `name`.
  std::string result;
};

// Inside a write that joins `name`. `signed_in` empty: makes an account with its first token.
Joined Join(Application& application, storage::Transaction& transaction, const AccountId& signed_in,
            const Joiner& joiner, const std::string& name);

// Inside a repeated write that made an account before, with `result` kept: the secret of that very
// token is replaced, and no other's. FAILED_PRECONDITION TOKEN_REVOKED with `name`.
absl::Status ReplaceFirstToken(Application& application, storage::Transaction& transaction,
                               const AccountId& account, const std::string& result,
                               const std::string& name, std::string* secret);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_JOINING_H_
