#include "services/usecases/joining.h"

#include <utility>

#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/usecases/accounts.h"
#include "services/usecases/transactions.h"
#include "storage/accounts.h"

namespace rowproof::usecases {

absl::Status ValidateJoiner(const Joiner& joiner, bool signed_in) {
  if (!signed_in) {
    RETURN_IF_ERROR(ValidateDisplayName("display_name", joiner.display_name));
    return ValidateMailAddress("mail_address", joiner.mail_address);
  }
  for (const auto& [field, text] : {std::pair("display_name", &joiner.display_name),
                                    std::pair("mail_address", &joiner.mail_address)}) {
    if (text->empty()) continue;
    return InvalidField(field, *text,
                        "empty if you are signed in: your account has a name and an address, which "
                        "AccountService.UpdateMyAccount changes");
  }
  return absl::OkStatus();
}

Joined Join(Application& application, storage::Transaction& transaction, const AccountId& signed_in,
            const Joiner& joiner) {
  if (!signed_in.empty()) {
    return {signed_in, storage::LoadAccount(transaction, signed_in).value().display_name, ""};
  }
  Joined joined{{application.identifiers.NewIdentifier()}, joiner.display_name, ""};
  joined.secret = InsertAccountWithToken(
      application, transaction,
      {joined.account, false, joiner.display_name, joiner.mail_address, transaction.now()},
      "first");
  return joined;
}

absl::Status ReplaceFirstToken(Application& application, storage::Transaction& transaction,
                               const AccountId& account, const std::string& name,
                               std::string* secret) {
  const auto tokens = storage::ListTokens(transaction, account, std::nullopt, {}, 1);
  *secret = application.identifiers.NewSecret();
  if (tokens.empty() ||
      !storage::ReplaceSecret(transaction, account, tokens.front().id, Sha256Of(*secret))) {
    return WrongState(
        "TOKEN_REVOKED", name,
        "The account's first token has since been revoked; ask for a new invitation.");
  }
  transaction.CommitWhenRepeated();
  return absl::OkStatus();
}

}  // namespace rowproof::usecases
