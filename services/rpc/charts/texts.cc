#include "services/rpc/charts/methods.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/text.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<v1::TextRows> ReadRows(const v1::ReadRowsRequest& request) {
  auto settings = FromProto(request);
  if (!settings.ok()) return settings.status();
  auto document = rows::ReadRows(request.text(), *settings);
  if (!document.ok()) return document.status();
  return ToProto(*document);
}

absl::StatusOr<v1::TextComparison> CompareRows(const v1::CompareRowsRequest& request) {
  auto read = DesignFrom(request.design());
  if (!read.ok()) return read.status();
  auto settings = FromProto(request);
  if (!settings.ok()) return settings.status();
  auto comparison = rows::CompareRows(read->design, request.text(), *settings);
  if (!comparison.ok()) return comparison.status();
  return ToProto(*comparison, rows::kComparisonVersion);
}

}  // namespace

std::vector<Method> TextMethods() {
  return {MethodOf("ReadRows", ReadRows), MethodOf("CompareRows", CompareRows)};
}

}  // namespace rowproof::rpc
