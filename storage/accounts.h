// Rows of accounts, persons and tokens. Every function throws libpqxx's exceptions, which end in
// Database, and runs inside a transaction.
#ifndef ROWPROOF_STORAGE_ACCOUNTS_H_
#define ROWPROOF_STORAGE_ACCOUNTS_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/access/permissions.h"
#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

struct AccountRow {
  AccountId id;
  bool may_create_patterns = false;
  std::string display_name;
  std::string mail_address;
  Moment created_at;
};

struct TokenRow {
  TokenId id;
  std::string label;
  Moment created_at;
  Moment expires_at;
  std::optional<Moment> revoked_at;
};

// An account's role in one pattern, and its seat if it is a tester.
struct MembershipRow {
  PatternId pattern;
  access::Role role = access::Role::kDesigner;
  CallId call;  // of a tester, with the seat; else empty
  SeatId seat;
  int report_count = 0;
};

void InsertAccount(Transaction& transaction, const AccountRow& account);
std::optional<AccountRow> LoadAccount(Transaction& transaction, const AccountId& id);
// Whether there is such an account, not erased.
bool AllowPatterns(Transaction& transaction, const AccountId& id);
void UpdatePerson(Transaction& transaction, const AccountId& id, const std::string& display_name,
                  const std::string& mail_address);

void InsertToken(Transaction& transaction, const AccountId& account, const TokenRow& token,
                 const Sha256& secret_sha256);
// Gives an existing token another secret (a repeated request has no other way to answer with one).
// False if there is none.
bool ReplaceSecret(Transaction& transaction, const AccountId& account, const TokenId& id,
                   const Sha256& secret_sha256);
std::optional<TokenRow> LoadToken(Transaction& transaction, const AccountId& account,
                                  const TokenId& id);
// Newest first, after (created_at, id) if given.
std::vector<TokenRow> ListTokens(Transaction& transaction, const AccountId& account,
                                 std::optional<Moment> before, const TokenId& before_id, int limit);
int CountValidTokens(Transaction& transaction, const AccountId& account, Moment now);
void RevokeToken(Transaction& transaction, const AccountId& account, const TokenId& id, Moment now);

// By pattern, then call.
std::vector<MembershipRow> ListMemberships(Transaction& transaction, const AccountId& account);

// Removes the person's row and the calibrations, marks the account, revokes all its tokens.
void EraseAccount(Transaction& transaction, const AccountId& id, Moment now);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_ACCOUNTS_H_
