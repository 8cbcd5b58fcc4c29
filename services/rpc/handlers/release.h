// Handlers of ReleaseService.
#ifndef ROWPROOF_SERVICES_RPC_HANDLERS_RELEASE_H_
#define ROWPROOF_SERVICES_RPC_HANDLERS_RELEASE_H_

#include "rowproof/v1/release_service.grpc.pb.h"
#include "services/rpc/desk.h"

namespace rowproof::rpc {

// Thread-safe.
class ReleaseHandlers final : public v1::ReleaseService::Service {
 public:
  explicit ReleaseHandlers(const Desk& desk) : desk_(desk) {}

  grpc::Status GetGates(grpc::ServerContext* context, const v1::GetGatesRequest* request,
                        v1::GetGatesResponse* response) override;
  grpc::Status Publish(grpc::ServerContext* context, const v1::PublishRequest* request,
                       v1::Release* response) override;
  grpc::Status GetRelease(grpc::ServerContext* context, const v1::GetReleaseRequest* request,
                          v1::Release* response) override;
  grpc::Status ListReleases(grpc::ServerContext* context, const v1::ListReleasesRequest* request,
                            v1::ListReleasesResponse* response) override;
  grpc::Status GetReleaseFile(grpc::ServerContext* context,
                              const v1::GetReleaseFileRequest* request,
                              v1::ReleaseFile* response) override;

 private:
  const Desk& desk_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_HANDLERS_RELEASE_H_
