// Handlers of AccountService.
#ifndef ROWPROOF_SERVICES_RPC_HANDLERS_ACCOUNT_H_
#define ROWPROOF_SERVICES_RPC_HANDLERS_ACCOUNT_H_

#include "rowproof/v1/account_service.grpc.pb.h"
#include "services/rpc/desk.h"

namespace rowproof::rpc {

// Thread-safe.
class AccountHandlers final : public v1::AccountService::Service {
 public:
  explicit AccountHandlers(const Desk& desk) : desk_(desk) {}

  grpc::Status GetMyAccount(grpc::ServerContext* context, const v1::GetMyAccountRequest* request,
                            v1::Account* response) override;
  grpc::Status UpdateMyAccount(grpc::ServerContext* context,
                               const v1::UpdateMyAccountRequest* request,
                               v1::Account* response) override;
  grpc::Status CreateToken(grpc::ServerContext* context, const v1::CreateTokenRequest* request,
                           v1::Token* response) override;
  grpc::Status ListTokens(grpc::ServerContext* context, const v1::ListTokensRequest* request,
                          v1::ListTokensResponse* response) override;
  grpc::Status RevokeToken(grpc::ServerContext* context, const v1::RevokeTokenRequest* request,
                           v1::Token* response) override;
  grpc::Status ExportPersonalData(grpc::ServerContext* context,
                                  const v1::ExportPersonalDataRequest* request,
                                  v1::ExportPersonalDataResponse* response) override;
  grpc::Status ErasePersonalData(grpc::ServerContext* context,
                                 const v1::ErasePersonalDataRequest* request,
                                 v1::ErasePersonalDataResponse* response) override;

 private:
  const Desk& desk_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_HANDLERS_ACCOUNT_H_
