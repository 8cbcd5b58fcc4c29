// Rows of accounts, persons and tokens. Every function throws libpqxx's exceptions, which end in
// Database, and runs inside a transaction.
#ifndef ROWPROOF_STORAGE_ACCOUNTS_H_
#define ROWPROOF_STORAGE_ACCOUNTS_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/access/accounts.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

void InsertAccount(Transaction& transaction, const access::AccountRecord& account);
std::optional<access::AccountRecord> LoadAccount(Transaction& transaction, const AccountId& id);
// Whether there is such an account, not erased.
bool AllowPatterns(Transaction& transaction, const AccountId& id);
void UpdatePerson(Transaction& transaction, const AccountId& id, const std::string& display_name,
                  const std::string& mail_address);

void InsertToken(Transaction& transaction, const AccountId& account,
                 const access::TokenRecord& token, const Sha256& secret_sha256);
// Gives an existing token another secret (a repeated request has no other way to answer with one).
// False if there is none.
bool ReplaceSecret(Transaction& transaction, const AccountId& account, const TokenId& id,
                   const Sha256& secret_sha256);
std::optional<access::TokenRecord> LoadToken(Transaction& transaction, const AccountId& account,
                                             const TokenId& id);
// Newest first, after (created_at, id) if given.
std::vector<access::TokenRecord> ListTokens(Transaction& transaction, const AccountId& account,
                                            std::optional<Moment> before, const TokenId& before_id,
                                            int limit);
int CountValidTokens(Transaction& transaction, const AccountId& account, Moment now);
void RevokeToken(Transaction& transaction, const AccountId& account, const TokenId& id, Moment now);

// By pattern, then call.
std::vector<access::MembershipRecord> ListMemberships(Transaction& transaction,
                                                      const AccountId& account);

// Removes the person's row and the calibrations, marks the account, revokes all its tokens.
void EraseAccount(Transaction& transaction, const AccountId& id, Moment now);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_ACCOUNTS_H_
