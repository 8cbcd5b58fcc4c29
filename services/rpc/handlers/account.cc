#include "rowproof/v1/account_service.pb.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/handlers/services.h"
#include "services/rpc/page_token.h"
#include "services/rpc/service.h"
#include "services/rpc/update_mask.h"
#include "services/usecases/accounts.h"

namespace rowproof::rpc {
namespace {

using usecases::Application;
using usecases::RequestContext;

v1::Account ToProto(const access::AccountRecord& row) {
  v1::Account account;
  account.set_name(ToString(AccountName{row.id}));
  if (row.may_create_patterns) account.add_rights(v1::ACCOUNT_RIGHT_CREATE_PATTERNS);
  account.set_display_name(row.display_name);
  account.set_mail_address(row.mail_address);
  *account.mutable_create_time() = rpc::ToProto(row.created_at);
  return account;
}

v1::Token ToProto(const AccountId& account, const access::TokenRecord& row) {
  v1::Token token;
  token.set_name(ToString(TokenName{account, row.id}));
  token.set_label(row.label);
  *token.mutable_create_time() = rpc::ToProto(row.created_at);
  *token.mutable_expire_time() = rpc::ToProto(row.expires_at);
  if (row.revoked_at.has_value()) *token.mutable_revoke_time() = rpc::ToProto(*row.revoked_at);
  return token;
}

absl::StatusOr<v1::Account> Answer(const absl::StatusOr<access::AccountRecord>& row) {
  if (!row.ok()) return row.status();
  return ToProto(*row);
}

absl::StatusOr<v1::Token> Answer(const absl::StatusOr<usecases::NewToken>& made) {
  if (!made.ok()) return made.status();
  v1::Token token = ToProto(made->account, made->token);
  token.set_secret(made->secret);
  return token;
}

absl::StatusOr<v1::Account> UpdateMyAccount(Application& application, RequestContext& context,
                                            const v1::UpdateMyAccountRequest& request) {
  constexpr std::string_view kChangeable[] = {"display_name", "mail_address"};
  ASSIGN_OR_RETURN(auto mask,
                   ReadUpdateMask(request.update_mask(), request.account(), kChangeable));
  std::optional<std::string> display_name;
  std::optional<std::string> mail_address;
  if (Changes(mask, "display_name")) display_name = request.account().display_name();
  if (Changes(mask, "mail_address")) mail_address = request.account().mail_address();
  auto account = usecases::UpdateMyAccount(application, context, display_name, mail_address);
  if (!account.ok()) return UnderField(account.status(), "account");
  return ToProto(*account);
}

absl::StatusOr<v1::Token> GetToken(Application& application, RequestContext& context,
                                   const v1::GetTokenRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TokenName>("name", request.name()));
  return Answer(usecases::GetToken(application, context, name));
}

absl::StatusOr<v1::ListTokensResponse> ListTokens(Application& application, RequestContext& context,
                                                  const v1::ListTokensRequest& request) {
  ASSIGN_OR_RETURN(auto asked, ReadPage(request, context.method));
  ASSIGN_OR_RETURN(auto page, usecases::ListTokens(application, context, asked.moment(),
                                                   {asked.id()}, asked.size));
  v1::ListTokensResponse response;
  for (const auto& row : page.tokens) *response.add_tokens() = ToProto(page.account, row);
  if (page.more) {
    const auto& last = page.tokens.back();
    response.set_next_page_token(NextPageToken(asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

absl::StatusOr<v1::Account> GetMyAccount(Application& application, RequestContext& context,
                                         const v1::GetMyAccountRequest&) {
  return Answer(usecases::GetMyAccount(application, context));
}

absl::StatusOr<v1::Token> CreateToken(Application& application, RequestContext& context,
                                      const v1::CreateTokenRequest& request) {
  return Answer(usecases::CreateToken(application, context, request.label(), request.valid_days()));
}

absl::StatusOr<v1::Token> RevokeToken(Application& application, RequestContext& context,
                                      const v1::RevokeTokenRequest& request) {
  ASSIGN_OR_RETURN(auto name, ParseName<TokenName>("name", request.name()));
  return Answer(
      usecases::RevokeToken(application, context, name.account, name.token, request.name()));
}

absl::StatusOr<v1::ExportPersonalDataResponse> ExportPersonalData(
    Application& application, RequestContext& context, const v1::ExportPersonalDataRequest&) {
  ASSIGN_OR_RETURN(auto document, usecases::ExportPersonalData(application, context));
  v1::ExportPersonalDataResponse answer;
  answer.set_document(document);
  return answer;
}

absl::StatusOr<v1::ErasePersonalDataResponse> ErasePersonalData(
    Application& application, RequestContext& context,
    const v1::ErasePersonalDataRequest& request) {
  auto status = usecases::ErasePersonalData(application, context, request.name());
  if (!status.ok()) return status;
  return v1::ErasePersonalDataResponse();
}

}  // namespace

std::unique_ptr<Service> MakeAccountService(const Dispatcher& dispatcher,
                                            usecases::Application& application) {
  return std::make_unique<Service>(
      dispatcher, "AccountService",
      std::vector<Method>{MethodOf("GetMyAccount", GetMyAccount, application),
                          MethodOf("UpdateMyAccount", UpdateMyAccount, application),
                          MethodOf("CreateToken", CreateToken, application),
                          MethodOf("GetToken", GetToken, application),
                          MethodOf("ListTokens", ListTokens, application),
                          MethodOf("RevokeToken", RevokeToken, application),
                          MethodOf("ExportPersonalData", ExportPersonalData, application),
                          MethodOf("ErasePersonalData", ErasePersonalData, application)});
}

}  // namespace rowproof::rpc
