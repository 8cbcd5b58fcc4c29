// Methods of ChartService about a designer's own text.
#include "services/rpc/converters/design.h"
#include "services/rpc/converters/text.h"
#include "services/rpc/handlers/chart.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::TextRows> Read(const v1::ReadRowsRequest& request) {
  auto settings = FromProto(request);
  if (!settings.ok()) return settings.status();
  auto document = rows::ReadRows(request.text(), *settings);
  if (!document.ok()) return document.status();
  return ToProto(*document);
}

absl::StatusOr<v1::TextComparison> Compare(const v1::CompareRowsRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto settings = FromProto(request);
  if (!settings.ok()) return settings.status();
  auto comparison = rows::CompareRows(read->design, request.text(), *settings);
  if (!comparison.ok()) return comparison.status();
  return ToProto(*comparison, rows::kComparisonVersion);
}

}  // namespace

grpc::Status ChartHandlers::ReadRows(grpc::ServerContext* context,
                                     const v1::ReadRowsRequest* request, v1::TextRows* response) {
  return desk_.Serve(*context, "ChartService.ReadRows", *request, response,
                     [&](usecases::Call&) { return Read(*request); });
}

grpc::Status ChartHandlers::CompareRows(grpc::ServerContext* context,
                                        const v1::CompareRowsRequest* request,
                                        v1::TextComparison* response) {
  return desk_.Serve(*context, "ChartService.CompareRows", *request, response,
                     [&](usecases::Call&) { return Compare(*request); });
}

}  // namespace rowproof::rpc
