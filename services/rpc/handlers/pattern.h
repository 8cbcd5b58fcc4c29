// Handlers of PatternService.
#ifndef ROWPROOF_SERVICES_RPC_HANDLERS_PATTERN_H_
#define ROWPROOF_SERVICES_RPC_HANDLERS_PATTERN_H_

#include "rowproof/v1/pattern_service.grpc.pb.h"
#include "services/rpc/desk.h"

namespace rowproof::rpc {

// Thread-safe.
class PatternHandlers final : public v1::PatternService::Service {
 public:
  explicit PatternHandlers(const Desk& desk) : desk_(desk) {}

  grpc::Status CreatePattern(grpc::ServerContext* context, const v1::CreatePatternRequest* request,
                             v1::Pattern* response) override;
  grpc::Status GetPattern(grpc::ServerContext* context, const v1::GetPatternRequest* request,
                          v1::Pattern* response) override;
  grpc::Status ListPatterns(grpc::ServerContext* context, const v1::ListPatternsRequest* request,
                            v1::ListPatternsResponse* response) override;
  grpc::Status UpdatePattern(grpc::ServerContext* context, const v1::UpdatePatternRequest* request,
                             v1::Pattern* response) override;
  grpc::Status CreateVersion(grpc::ServerContext* context, const v1::CreateVersionRequest* request,
                             v1::Version* response) override;
  grpc::Status GetVersion(grpc::ServerContext* context, const v1::GetVersionRequest* request,
                          v1::Version* response) override;
  grpc::Status ListVersions(grpc::ServerContext* context, const v1::ListVersionsRequest* request,
                            v1::ListVersionsResponse* response) override;
  grpc::Status WriteVersionRows(grpc::ServerContext* context,
                                const v1::WriteVersionRowsRequest* request,
                                v1::WrittenRows* response) override;
  grpc::Status CompareVersionRows(grpc::ServerContext* context,
                                  const v1::CompareVersionRowsRequest* request,
                                  v1::TextComparison* response) override;
  grpc::Status CompareVersions(grpc::ServerContext* context,
                               const v1::CompareVersionsRequest* request,
                               v1::VersionDifference* response) override;
  grpc::Status EstimateVersion(grpc::ServerContext* context,
                               const v1::EstimateVersionRequest* request,
                               v1::EstimateResult* response) override;
  grpc::Status CreateEditor(grpc::ServerContext* context, const v1::CreateEditorRequest* request,
                            v1::Editor* response) override;
  grpc::Status DeleteEditor(grpc::ServerContext* context, const v1::DeleteEditorRequest* request,
                            v1::DeleteEditorResponse* response) override;
  grpc::Status ListEditors(grpc::ServerContext* context, const v1::ListEditorsRequest* request,
                           v1::ListEditorsResponse* response) override;

 private:
  const Desk& desk_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_HANDLERS_PATTERN_H_
