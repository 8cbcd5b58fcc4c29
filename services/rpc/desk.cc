#include "services/rpc/desk.h"

#include <google/protobuf/io/coded_stream.h>
#include <google/protobuf/io/zero_copy_stream_impl_lite.h>

#include <algorithm>
#include <string_view>

#include "services/domain/errors.h"
#include "services/rpc/status.h"

namespace rowproof::rpc {
namespace {

// For clients that set none, and the most that is granted to those that do.
constexpr std::chrono::seconds kUsualDeadline{60};
constexpr std::chrono::seconds kLongestDeadline{600};
constexpr size_t kLongestToken = 200;

std::optional<Sha256> TokenOf(const grpc::ServerContext& context) {
  constexpr std::string_view kScheme = "Bearer ";
  const auto header = context.client_metadata().find("authorization");
  if (header == context.client_metadata().end()) return std::nullopt;
  const std::string_view value(header->second.data(), header->second.size());
  if (!value.starts_with(kScheme) || value.size() > kScheme.size() + kLongestToken) {
    return std::nullopt;
  }
  return Sha256Of(value.substr(kScheme.size()));
}

storage::Deadline DeadlineOf(const grpc::ServerContext& context) {
  const auto now = std::chrono::system_clock::now();
  const auto given = context.deadline();
  // gRPC gives the far end of time where the client set no deadline.
  const bool set = given < now + std::chrono::hours(24 * 365);
  const auto left =
      set ? std::min<std::chrono::system_clock::duration>(given - now, kLongestDeadline)
          : std::chrono::system_clock::duration(kUsualDeadline);
  return std::chrono::steady_clock::now() + left;
}

bool IsUuid(std::string_view text) {
  if (text.size() != 36) return false;
  for (size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool dash = i == 8 || i == 13 || i == 18 || i == 23;
    const bool hex = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
    if (dash ? c != '-' : !hex) return false;
  }
  return true;
}

std::string Incident() {
  static RandomIdentifiers identifiers;
  return identifiers.NewIdentifier();
}

}  // namespace

usecases::Call Desk::Open(const grpc::ServerContext& context, const char* method) const {
  usecases::Call call;
  call.method = method;
  call.deadline = DeadlineOf(context);
  call.token_sha256 = TokenOf(context);
  return call;
}

absl::Status Desk::Claim(const google::protobuf::Message& content, usecases::Call& call) {
  if (!IsUuid(call.request_id)) {
    const std::string met = call.request_id;
    call.request_id.clear();
    return InvalidField("request_id", met,
                        "a UUID such as 6f2c0a1e-9d0b-4c57-8f4e-2b1d0c9a7e35, or empty");
  }
  std::string bytes;
  {
    google::protobuf::io::StringOutputStream stream(&bytes);
    google::protobuf::io::CodedOutputStream coded(&stream);
    coded.SetSerializationDeterministic(true);
    content.SerializeToCodedStream(&coded);
  }
  call.digest = Sha256Of(bytes);
  return absl::OkStatus();
}

absl::Status Desk::Guarded(const usecases::Call& call,
                           const std::function<absl::Status()>& work) const {
  try {
    if (std::chrono::steady_clock::now() >= call.deadline) return TimeUp();
    return work();
  } catch (...) {
    return Internal(Incident());
  }
}

grpc::Status Desk::Close(const usecases::Call& call, const absl::Status& status,
                         std::chrono::steady_clock::time_point begin) const {
  grpc::Status answer = ToGrpc(status);
  ServedCall served;
  served.method = call.method;
  served.code = answer.error_code();
  served.duration = std::chrono::duration_cast<std::chrono::microseconds>(
      std::chrono::steady_clock::now() - begin);
  served.account = call.account.value;
  served.request_id = call.request_id;
  if (answer.error_code() == grpc::StatusCode::INTERNAL) {
    const auto detail = DetailOf(status);
    const auto incident = detail.metadata.find("incident");
    if (incident != detail.metadata.end()) served.incident = incident->second;
  }
  observer_.Served(served);
  return answer;
}

}  // namespace rowproof::rpc
