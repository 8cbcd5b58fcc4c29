// account.
#include "rowproof/v1/account.pb.h"
#include "rowproof/v1/account_service.pb.h"
#include "services/client/commands/commands.h"
#include "services/client/tables/views.h"
#include "services/client/verb.h"

namespace rowproof::client {
namespace {

std::string AccountText(const v1::Account& account, const Style& style) {
  return RecordOf(account, style);
}

std::string TokenText(const v1::Token& token, const Style& style) { return RecordOf(token, style); }

std::string TokenList(const v1::ListTokensResponse& answer) {
  return ListOf(answer.tokens(), {{"Name", "name"},
                                  {"Made", "create_time"},
                                  {"Expires", "expire_time"},
                                  {"Revoked", "revoke_time"},
                                  {"Label", "label"}});
}

void AddTokenCommands(CLI::App& account, const Api& api) {
  AddList<v1::ListTokensRequest, v1::ListTokensResponse>(
      account, api, "tokens", "Your tokens, without the secrets", "AccountService.ListTokens",
      nullptr, std::make_shared<v1::ListTokensRequest>(), TokenList);
  Verb<v1::GetTokenRequest, v1::Token>(account, api, "show-token", "One token, without the secret",
                                       "AccountService.GetToken", TokenText)
      .Field("TOKEN", "name", "The token's name: accounts/.../tokens/...");
  Verb<v1::CreateTokenRequest, v1::Token>(account, api, "new-token",
                                          "Make a further token; prints it, once",
                                          "AccountService.CreateToken", TokenText)
      .Field("LABEL", "label", "What you call it")
      .Field("--days", "valid_days", "Days until it expires, 1 to 730 (default: 365)");
  Verb<v1::RevokeTokenRequest, v1::Token>(account, api, "revoke-token",
                                          "Refuse a token from now on",
                                          "AccountService.RevokeToken", TokenText)
      .Field("TOKEN", "name", "The token's name: accounts/.../tokens/... (not the secret)");
}

}  // namespace

void AddAccountCommands(CLI::App& app, const Api& api) {
  auto* account = AddNoun(app, "account", "Your account, its tokens and your personal data");
  const Verb<v1::GetMyAccountRequest, v1::Account> shown(
      *account, api, "show", "Your account", "AccountService.GetMyAccount", AccountText);
  Verb<v1::UpdateMyAccountRequest, v1::Account>(*account, api, "rename",
                                                "Change what you are called, or your mail address",
                                                "AccountService.UpdateMyAccount", AccountText)
      .Change("--name", "account.display_name", "What you are called")
      .Change("--mail", "account.mail_address", "Mail address; empty to remove it");
  AddTokenCommands(*account, api);
  const Verb<v1::ExportPersonalDataRequest, v1::ExportPersonalDataResponse> exported(
      *account, api, "export", "All personal data that the service holds on you",
      "AccountService.ExportPersonalData",
      [](const v1::ExportPersonalDataResponse& answer) { return answer.document() + "\n"; });
  Verb<v1::ErasePersonalDataRequest, v1::ErasePersonalDataResponse>(
      *account, api, "erase",
      "Erase your name, mail address and calibrations and revoke every token; cannot be undone",
      "AccountService.ErasePersonalData",
      [](const v1::ErasePersonalDataResponse&) {
        return std::string(
            "Your name, mail address and calibrations are erased and your tokens revoked. Reports "
            "and\nerrata that you sent are kept under your account's random id.\n");
      })
      .Field("ACCOUNT", "name", "The name of your own account, as a safeguard");
}

}  // namespace rowproof::client
