#include "services/rpc/status.h"

#include <string>

#include "google/rpc/error_details.pb.h"
#include "google/rpc/status.pb.h"
#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

void AddDetails(const ErrorDetail& detail, google::rpc::Status* status) {
  google::rpc::ErrorInfo info;
  info.set_reason(detail.reason.empty() ? "UNKNOWN" : detail.reason);
  info.set_domain(kErrorDomain);
  for (const auto& [key, value] : detail.metadata) (*info.mutable_metadata())[key] = value;
  status->add_details()->PackFrom(info);
  if (!detail.fields.empty()) {
    google::rpc::BadRequest bad;
    for (const auto& field : detail.fields) {
      auto* violation = bad.add_field_violations();
      violation->set_field(field.field);
      violation->set_description(field.description);
    }
    status->add_details()->PackFrom(bad);
  }
  if (!detail.conditions.empty()) {
    google::rpc::PreconditionFailure failure;
    for (const auto& condition : detail.conditions) {
      auto* violation = failure.add_violations();
      violation->set_type(condition.type);
      violation->set_subject(condition.subject);
      violation->set_description(condition.description);
    }
    status->add_details()->PackFrom(failure);
  }
  if (!detail.resource_name.empty() || !detail.resource_type.empty()) {
    google::rpc::ResourceInfo resource;
    resource.set_resource_type(detail.resource_type);
    resource.set_resource_name(detail.resource_name);
    status->add_details()->PackFrom(resource);
  }
  if (detail.retry_after.count() > 0) {
    google::rpc::RetryInfo retry;
    retry.mutable_retry_delay()->set_seconds(detail.retry_after.count() / 1000);
    retry.mutable_retry_delay()->set_nanos(
        static_cast<int32_t>(detail.retry_after.count() % 1000 * 1'000'000));
    status->add_details()->PackFrom(retry);
  }
}

}  // namespace

grpc::Status ToGrpc(const absl::Status& status) {
  if (status.ok()) return grpc::Status::OK;
  // The canonical codes have the same numbers in both.
  const auto code = static_cast<grpc::StatusCode>(status.code());
  const std::string message(status.message().data(), status.message().size());
  google::rpc::Status details;
  details.set_code(static_cast<int>(code));
  details.set_message(message);
  AddDetails(DetailOf(status), &details);
  return {code, message, details.SerializeAsString()};
}

}  // namespace rowproof::rpc
