#include "services/rpc/dispatcher.h"

#include <google/protobuf/io/coded_stream.h>
#include <google/protobuf/io/zero_copy_stream_impl_lite.h>

#include <algorithm>
#include <random>
#include <string_view>

#include "absl/strings/ascii.h"
#include "absl/strings/match.h"
#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/rpc/status.h"

namespace rowproof::rpc {
namespace {

// For clients that set none, and the most that is granted to those that do.
constexpr std::chrono::seconds kUsualDeadline{60};
constexpr std::chrono::seconds kLongestDeadline{600};
constexpr size_t kLongestToken = 200;
constexpr std::chrono::milliseconds kBetweenQuestions{2};  // whether the caller has gone
// gRPC cancels a call at its deadline itself, by a clock of its own that may be ahead of ours.
constexpr std::chrono::milliseconds kAhead{20};

std::optional<Sha256> TokenOf(const grpc::ServerContext& call) {
  constexpr absl::string_view kScheme = "Bearer ";
  const auto header = call.client_metadata().find("authorization");
  if (header == call.client_metadata().end()) return std::nullopt;
  const absl::string_view value(header->second.data(), header->second.size());
  // The scheme is compared without regard to case (RFC 9110, 11.1).
  if (!absl::StartsWithIgnoreCase(value, kScheme) ||
      value.size() > kScheme.size() + kLongestToken) {
    return std::nullopt;
  }
  return Sha256Of({value.data() + kScheme.size(), value.size() - kScheme.size()});
}

std::chrono::steady_clock::time_point DeadlineOf(const grpc::ServerContext& call) {
  const auto now = std::chrono::system_clock::now();
  const auto given = call.deadline();
  // gRPC gives the latest possible time if the client set no deadline.
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

// Finds the log's line; no secret.
std::string Incident() {
  std::random_device random;
  return fmt::format("{:08x}{:08x}", random(), random());
}

}  // namespace

absl::Status CallSignal::Look() {
  const Time now = std::chrono::steady_clock::now();
  if (now >= deadline_) return TimeUp();
  if (now < asks_next_) return absl::OkStatus();
  asks_next_ = now + kBetweenQuestions;
  // Also reads what has arrived on the call's connection, so that a cancellation is seen although
  // every thread computes.
  if (!call_.IsCancelled()) return absl::OkStatus();
  return now + kAhead >= deadline_ ? TimeUp() : Cancelled();
}

usecases::RequestContext Dispatcher::Open(const grpc::ServerContext& call,
                                          const std::string& method) const {
  usecases::RequestContext context;
  context.method = method;
  context.deadline = DeadlineOf(call);
  context.token_sha256 = TokenOf(call);
  return context;
}

absl::Status Dispatcher::Claim(const google::protobuf::Message& content,
                               usecases::RequestContext& context) {
  if (!IsUuid(context.request_id)) {
    const std::string met = context.request_id;
    context.request_id.clear();
    return InvalidField("request_id", met,
                        "a UUID such as 6f2c0a1e-9d0b-4c57-8f4e-2b1d0c9a7e35, or empty");
  }
  // One UUID, however it is spelt (RFC 4122, 3).
  absl::AsciiStrToLower(&context.request_id);
  std::string bytes;
  {
    google::protobuf::io::StringOutputStream stream(&bytes);
    google::protobuf::io::CodedOutputStream coded(&stream);
    coded.SetSerializationDeterministic(true);
    content.SerializeToCodedStream(&coded);
  }
  context.digest = Sha256Of(bytes);
  return absl::OkStatus();
}

absl::Status Dispatcher::Guarded(const usecases::RequestContext& context,
                                 const std::function<absl::Status()>& work) const {
  try {
    if (context.stop.Now()) return context.stop.status();
    return work();
  } catch (...) {
    return Internal(Incident());
  }
}

grpc::Status Dispatcher::Close(const usecases::RequestContext& context, const absl::Status& status,
                               std::chrono::steady_clock::time_point begin) const {
  grpc::Status answer = ToGrpc(status);
  ServedRequest served;
  served.method = context.method;
  served.code = answer.error_code();
  served.duration = std::chrono::duration_cast<std::chrono::microseconds>(
      std::chrono::steady_clock::now() - begin);
  served.account = context.account.value;
  served.request_id = context.request_id;
  if (answer.error_code() == grpc::StatusCode::INTERNAL) {
    const auto detail = DetailOf(status);
    const auto incident = detail.metadata.find("incident");
    if (incident != detail.metadata.end()) served.incident = incident->second;
  }
  observer_.Served(served);
  return answer;
}

}  // namespace rowproof::rpc
