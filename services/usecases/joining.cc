#include "services/usecases/joining.h"

#include <utility>

#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/usecases/accounts.h"
#include "services/usecases/transactions.h"
#include "storage/accounts.h"
#include "storage/unreadable_value.h"

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
            const Joiner& joiner, const std::string& name) {
  if (!signed_in.empty()) {
    return {signed_in,
            storage::NamedRecord(storage::LoadAccount(transaction, signed_in), "account",
                                 ToString(AccountName{signed_in}))
                .display_name,
            "", name};
  }
  const AccountId account{application.identifiers.NewIdentifier()};
  FirstToken token = InsertAccountWithToken(
      application, transaction,
      {account, false, joiner.display_name, joiner.mail_address, transaction.now()}, "first");
  return {account, joiner.display_name, std::move(token.secret), std::move(token.id.value)};
}

absl::Status ReplaceFirstToken(Application& application, storage::Transaction& transaction,
                               const AccountId& account, const std::string& result,
                               const std::string& name, std::string* secret) {
  *secret = application.identifiers.NewSecret();
  if (!storage::ReplaceSecret(transaction, account, {result}, Sha256Of(*secret))) {
    return WrongState(
        "TOKEN_REVOKED", name,
        "The account's first token has since been revoked; ask for a new invitation.");
  }
  transaction.CommitWhenRepeated();
  return absl::OkStatus();
}

}  // namespace rowproof::usecases
