// Accounts: the caller's own, further tokens, personal data.
#ifndef ROWPROOF_SERVICES_USECASES_ACCOUNTS_H_
#define ROWPROOF_SERVICES_USECASES_ACCOUNTS_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/access/accounts.h"
#include "services/domain/names/names.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

inline constexpr size_t kLongestDisplayName = 120;
inline constexpr size_t kLongestMailAddress = 254;
inline constexpr size_t kLongestTokenLabel = 60;
inline constexpr int kMostValidTokens = 20;
inline constexpr int kMostTokenDays = 730;
inline constexpr int kUsualTokenDays = 365;

struct NewToken {
  AccountId account;
  access::TokenRecord token;
  std::string secret;  // empty if the token is only named
};

struct TokenPage {
  AccountId account;
  std::vector<access::TokenRecord> tokens;
  bool more = false;
};

absl::Status ValidateDisplayName(const std::string& field, const std::string& name);
absl::Status ValidateMailAddress(const std::string& field, const std::string& address);

absl::StatusOr<access::AccountRecord> GetMyAccount(Application& application,
                                                   RequestContext& context);
// Absent: unchanged.
absl::StatusOr<access::AccountRecord> UpdateMyAccount(
    Application& application, RequestContext& context,
    const std::optional<std::string>& display_name, const std::optional<std::string>& mail_address);
absl::StatusOr<NewToken> CreateToken(Application& application, RequestContext& context,
                                     const std::string& label, int valid_days);
// Without its secret.
absl::StatusOr<NewToken> GetToken(Application& application, RequestContext& context,
                                  const TokenName& name);
absl::StatusOr<TokenPage> ListTokens(Application& application, RequestContext& context,
                                     std::optional<Moment> before, const TokenId& before_id,
                                     int limit);
absl::StatusOr<NewToken> RevokeToken(Application& application, RequestContext& context,
                                     const AccountId& account, const TokenId& token,
                                     const std::string& name);
absl::StatusOr<std::string> ExportPersonalData(Application& application, RequestContext& context);
absl::Status ErasePersonalData(Application& application, RequestContext& context,
                               const std::string& name);

struct FirstToken {
  TokenId id;
  std::string secret;
};

// Inside a write: a new account with its first token, valid for kUsualTokenDays.
FirstToken InsertAccountWithToken(Application& application, storage::Transaction& transaction,
                                  const access::AccountRecord& account, const std::string& label);

// From the operator's console, not by RPC: an account with the right to create patterns, and that
// right for an account that is there (NOT_FOUND).
absl::StatusOr<NewToken> CreateDesigner(Application& application, const std::string& display_name,
                                        const std::string& mail_address);
absl::Status AllowPatterns(Application& application, const AccountName& account);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_ACCOUNTS_H_
