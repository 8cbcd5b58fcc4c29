#include "services/rpc/handlers/account.h"

#include "services/domain/names/names.h"
#include "services/rpc/converters/design.h"
#include "services/rpc/page_token.h"
#include "services/usecases/accounts.h"

namespace rowproof::rpc {
namespace {

v1::Account ToProto(const storage::AccountRow& row) {
  v1::Account account;
  account.set_name(ToString(AccountName{row.id}));
  account.set_kind(static_cast<v1::AccountKind>(row.kind));
  account.set_display_name(row.display_name);
  account.set_mail_address(row.mail_address);
  *account.mutable_create_time() = rpc::ToProto(row.created_at);
  return account;
}

v1::Token ToProto(const AccountId& account, const storage::TokenRow& row) {
  v1::Token token;
  token.set_name(ToString(TokenName{account, row.id}));
  token.set_label(row.label);
  *token.mutable_create_time() = rpc::ToProto(row.created_at);
  *token.mutable_expire_time() = rpc::ToProto(row.expires_at);
  if (row.revoked_at.has_value()) *token.mutable_revoke_time() = rpc::ToProto(*row.revoked_at);
  return token;
}

absl::StatusOr<v1::Account> Answer(const absl::StatusOr<storage::AccountRow>& row) {
  if (!row.ok()) return row.status();
  return ToProto(*row);
}

absl::StatusOr<v1::Token> Answer(const absl::StatusOr<usecases::NewToken>& made) {
  if (!made.ok()) return made.status();
  v1::Token token = ToProto(made->account, made->token);
  token.set_secret(made->secret);
  return token;
}

absl::StatusOr<v1::ListTokensResponse> List(usecases::Application& application,
                                            usecases::Call& call,
                                            const v1::ListTokensRequest& request) {
  auto asked = ReadPage(request, call.method);
  if (!asked.ok()) return asked.status();
  auto page = usecases::ListTokens(application, call, asked->moment(), {asked->id()}, asked->size);
  if (!page.ok()) return page.status();
  v1::ListTokensResponse response;
  for (const auto& row : page->tokens) *response.add_tokens() = ToProto(page->account, row);
  if (page->more) {
    const auto& last = page->tokens.back();
    response.set_next_page_token(NextPageToken(*asked, {Micros(last.created_at), last.id.value}));
  }
  return response;
}

}  // namespace

grpc::Status AccountHandlers::GetMyAccount(grpc::ServerContext* context,
                                           const v1::GetMyAccountRequest* request,
                                           v1::Account* response) {
  return desk_.Serve(*context, "AccountService.GetMyAccount", *request, response,
                     [&](usecases::Call& call) {
                       return Answer(usecases::GetMyAccount(desk_.application(), call));
                     });
}

grpc::Status AccountHandlers::UpdateMyAccount(grpc::ServerContext* context,
                                              const v1::UpdateMyAccountRequest* request,
                                              v1::Account* response) {
  return desk_.Serve(
      *context, "AccountService.UpdateMyAccount", *request, response, [&](usecases::Call& call) {
        std::optional<std::string> name;
        std::optional<std::string> address;
        if (request->has_display_name()) name = request->display_name();
        if (request->has_mail_address()) address = request->mail_address();
        return Answer(usecases::UpdateMyAccount(desk_.application(), call, name, address));
      });
}

grpc::Status AccountHandlers::CreateToken(grpc::ServerContext* context,
                                          const v1::CreateTokenRequest* request,
                                          v1::Token* response) {
  return desk_.Serve(*context, "AccountService.CreateToken", *request, response,
                     [&](usecases::Call& call) {
                       return Answer(usecases::CreateToken(
                           desk_.application(), call, request->label(), request->valid_days()));
                     });
}

grpc::Status AccountHandlers::ListTokens(grpc::ServerContext* context,
                                         const v1::ListTokensRequest* request,
                                         v1::ListTokensResponse* response) {
  return desk_.Serve(
      *context, "AccountService.ListTokens", *request, response,
      [&](usecases::Call& call) { return List(desk_.application(), call, *request); });
}

grpc::Status AccountHandlers::RevokeToken(grpc::ServerContext* context,
                                          const v1::RevokeTokenRequest* request,
                                          v1::Token* response) {
  return desk_.Serve(*context, "AccountService.RevokeToken", *request, response,
                     [&](usecases::Call& call) -> absl::StatusOr<v1::Token> {
                       auto name = ParseName<TokenName>("name", request->name());
                       if (!name.ok()) return name.status();
                       return Answer(usecases::RevokeToken(desk_.application(), call, name->account,
                                                           name->token, request->name()));
                     });
}

grpc::Status AccountHandlers::ExportPersonalData(grpc::ServerContext* context,
                                                 const v1::ExportPersonalDataRequest* request,
                                                 v1::ExportPersonalDataResponse* response) {
  return desk_.Serve(*context, "AccountService.ExportPersonalData", *request, response,
                     [&](usecases::Call& call) -> absl::StatusOr<v1::ExportPersonalDataResponse> {
                       auto document = usecases::ExportPersonalData(desk_.application(), call);
                       if (!document.ok()) return document.status();
                       v1::ExportPersonalDataResponse answer;
                       answer.set_document(*document);
                       return answer;
                     });
}

grpc::Status AccountHandlers::ErasePersonalData(grpc::ServerContext* context,
                                                const v1::ErasePersonalDataRequest* request,
                                                v1::ErasePersonalDataResponse* response) {
  return desk_.Serve(*context, "AccountService.ErasePersonalData", *request, response,
                     [&](usecases::Call& call) -> absl::StatusOr<v1::ErasePersonalDataResponse> {
                       auto status =
                           usecases::ErasePersonalData(desk_.application(), call, request->name());
                       if (!status.ok()) return status;
                       return v1::ErasePersonalDataResponse();
                     });
}

}  // namespace rowproof::rpc
