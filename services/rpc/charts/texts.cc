#include "services/domain/status_macros.h"
#include "services/rpc/charts/chart_service.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/text.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::TextRows> ReadRows(const v1::ReadRowsRequest& request, const Stop& stop) {
  ASSIGN_OR_RETURN(auto settings, FromProto(request));
  ASSIGN_OR_RETURN(auto document, rows::ReadRows(request.text(), settings, stop));
  return ToProto(document);
}

absl::StatusOr<v1::TextComparison> CompareRows(const v1::CompareRowsRequest& request,
                                               const Stop& stop) {
  ASSIGN_OR_RETURN(auto read, DesignFrom(request.design(), stop));
  ASSIGN_OR_RETURN(auto settings, FromProto(request));
  ASSIGN_OR_RETURN(auto comparison, rows::CompareRows(read.design, request.text(), settings, stop));
  return ToProto(comparison, rows::kComparisonVersion);
}

}  // namespace

std::vector<Method> TextMethods() {
  return {MethodOf("ReadRows", ReadRows), MethodOf("CompareRows", CompareRows)};
}

}  // namespace rowproof::rpc
