#include "storage/accounts.h"

#include <pqxx/pqxx>

#include "services/domain/names/names.h"
#include "storage/stored_field.h"

namespace rowproof::storage {
namespace {

constexpr Statement kInsertAccount{
    "insert_account",
    "with a as (insert into account (account_id, may_create_patterns, created_at) "
    "values ($1, $2, from_micros($3))) "
    "insert into person (account_id, display_name, mail_address) values ($1, $4, $5)"};
constexpr Statement kLoadAccount{
    "load_account",
    "select a.may_create_patterns, coalesce(p.display_name, '') as display_name, "
    "coalesce(p.mail_address, '') as mail_address, "
    "to_micros(a.created_at) from account a left join person p using (account_id) "
    "where a.account_id = $1"};
constexpr Statement kAllowPatterns{
    "allow_patterns",
    "update account set may_create_patterns = true where account_id = $1 and erased_at is null"};
constexpr Statement kUpdatePerson{
    "update_person",
    "update person set display_name = $2, mail_address = $3 where account_id = $1"};
constexpr Statement kInsertToken{
    "insert_token",
    "insert into token (token_id, account_id, secret_sha256, label, created_at, expires_at) "
    "values ($1, $2, $3, $4, from_micros($5), from_micros($6))"};
constexpr Statement kReplaceSecret{
    "replace_secret",
    "update token set secret_sha256 = $3 where account_id = $1 and token_id = $2 "
    "and revoked_at is null"};
constexpr Statement kLoadToken{
    "load_token",
    "select token_id, label, to_micros(created_at), to_micros(expires_at), to_micros(revoked_at) "
    "from token where account_id = $1 and token_id = $2"};
constexpr Statement kListTokens{
    "list_tokens",
    "select token_id, label, to_micros(created_at), to_micros(expires_at), to_micros(revoked_at) "
    "from token where account_id = $1 "
    "and ($2::bigint is null or (created_at, token_id) < (from_micros($2::bigint), $3)) "
    "order by created_at desc, token_id desc limit $4"};
constexpr Statement kCountTokens{
    "count_valid_tokens",
    "select count(*) from token where account_id = $1 and revoked_at is null "
    "and expires_at > from_micros($2)"};
constexpr Statement kRevokeToken{
    "revoke_token",
    "update token set revoked_at = coalesce(revoked_at, from_micros($3)) "
    "where account_id = $1 and token_id = $2"};
constexpr Statement kListMemberships{
    "list_memberships",
    "select m.pattern_id, m.role, m.call_id, m.seat_id, "
    "coalesce(s.report_count, 0) as report_count "
    "from membership m left join seat s using (pattern_id, call_id, seat_id) "
    "where m.account_id = $1 order by m.pattern_id, m.call_id"};
constexpr Statement kErase{
    "erase_account",
    "with p as (delete from person where account_id = $1), "
    "t as (update token set revoked_at = coalesce(revoked_at, from_micros($2)), label = '' "
    "where account_id = $1), "
    "c as (delete from calibration where account_id = $1) "
    "update account set erased_at = from_micros($2) where account_id = $1"};

access::TokenRecord TokenFrom(const AccountId& account, const pqxx::row& row) {
  return ReadRecord(
      "token", [&] { return ToString(AccountName{account}); },
      [&]() -> access::TokenRecord {
        return {{TextIn(row[0])},
                TextIn(row[1]),
                MomentIn(row[2], "created_at"),
                MomentIn(row[3], "expires_at"),
                OptionalMomentIn(row[4], "revoked_at")};
      });
}

access::MembershipRecord MembershipFrom(const AccountId& account, const pqxx::row& row) {
  return ReadRecord(
      "membership", [&] { return ToString(AccountName{account}); },
      [&]() -> access::MembershipRecord {
        return {{TextIn(row[0])},
                EnumIn<access::Role>(row[1]),
                {TextIn(row[2])},
                {TextIn(row[3])},
                CountIn(row[4])};
      });
}

}  // namespace

void InsertAccount(Transaction& transaction, const access::AccountRecord& account) {
  Run(transaction, kInsertAccount, account.id.value, account.may_create_patterns,
      Micros(account.created_at), account.display_name, account.mail_address);
}

std::optional<access::AccountRecord> LoadAccount(Transaction& transaction, const AccountId& id) {
  const pqxx::result result = Run(transaction, kLoadAccount, id.value);
  if (result.empty()) return std::nullopt;
  const pqxx::row row = result.front();
  return ReadRecord(
      "account", [&] { return ToString(AccountName{id}); },
      [&] {
        return access::AccountRecord{id, FlagIn(row[0]), TextIn(row[1]), TextIn(row[2]),
                                     MomentIn(row[3], "created_at")};
      });
}

bool AllowPatterns(Transaction& transaction, const AccountId& id) {
  return Run(transaction, kAllowPatterns, id.value).affected_rows() == 1;
}

void UpdatePerson(Transaction& transaction, const AccountId& id, const std::string& display_name,
                  const std::string& mail_address) {
  Run(transaction, kUpdatePerson, id.value, display_name, mail_address);
}

void InsertToken(Transaction& transaction, const AccountId& account,
                 const access::TokenRecord& token, const Sha256& secret_sha256) {
  Run(transaction, kInsertToken, token.id.value, account.value, Binary(secret_sha256), token.label,
      Micros(token.created_at), Micros(token.expires_at));
}

bool ReplaceSecret(Transaction& transaction, const AccountId& account, const TokenId& id,
                   const Sha256& secret_sha256) {
  return Run(transaction, kReplaceSecret, account.value, id.value, Binary(secret_sha256))
             .affected_rows() == 1;
}

std::optional<access::TokenRecord> LoadToken(Transaction& transaction, const AccountId& account,
                                             const TokenId& id) {
  const pqxx::result result = Run(transaction, kLoadToken, account.value, id.value);
  if (result.empty()) return std::nullopt;
  return TokenFrom(account, result.front());
}

std::vector<access::TokenRecord> ListTokens(Transaction& transaction, const AccountId& account,
                                            std::optional<Moment> before, const TokenId& before_id,
                                            int limit) {
  std::vector<access::TokenRecord> tokens;
  const pqxx::result result =
      Run(transaction, kListTokens, account.value, MicrosOrNull(before), before_id.value, limit);
  for (const auto& row : result) tokens.push_back(TokenFrom(account, row));
  return tokens;
}

int CountValidTokens(Transaction& transaction, const AccountId& account, Moment now) {
  return Run(transaction, kCountTokens, account.value, Micros(now)).front()[0].as<int>();
}

void RevokeToken(Transaction& transaction, const AccountId& account, const TokenId& id,
                 Moment now) {
  Run(transaction, kRevokeToken, account.value, id.value, Micros(now));
}

std::vector<access::MembershipRecord> ListMemberships(Transaction& transaction,
                                                      const AccountId& account) {
  std::vector<access::MembershipRecord> memberships;
  for (const auto& row : Run(transaction, kListMemberships, account.value)) {
    memberships.push_back(MembershipFrom(account, row));
  }
  return memberships;
}

void EraseAccount(Transaction& transaction, const AccountId& id, Moment now) {
  Run(transaction, kErase, id.value, Micros(now));
}

}  // namespace rowproof::storage
