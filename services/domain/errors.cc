#include "services/domain/errors.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>

#include "absl/strings/cord.h"
#include "fmt/format.h"

namespace rowproof {
namespace {

constexpr char kPayloadUrl[] = "rowproof.v1/error-detail";
constexpr size_t kLongestValueShown = 60;

// The payload is a list of byte strings, each after its length: it never leaves the process.
void Put(std::string& out, std::string_view text) {
  out += fmt::format("{}:", text.size());
  out += text;
}

std::string Take(std::string_view& in) {
  const size_t colon = in.find(':');
  if (colon == std::string_view::npos) return {};
  size_t length = 0;
  for (const char c : in.substr(0, colon)) length = length * 10 + static_cast<size_t>(c - '0');
  std::string text(in.substr(colon + 1, length));
  in.remove_prefix(colon + 1 + length);
  return text;
}

std::string Encode(const ErrorDetail& detail) {
  std::string out;
  Put(out, detail.reason);
  Put(out, detail.resource_type);
  Put(out, detail.resource_name);
  Put(out, std::to_string(detail.retry_after.count()));
  Put(out, std::to_string(detail.metadata.size()));
  for (const auto& [key, value] : detail.metadata) Put(out, key), Put(out, value);
  Put(out, std::to_string(detail.fields.size()));
  for (const auto& field : detail.fields) Put(out, field.field), Put(out, field.description);
  Put(out, std::to_string(detail.conditions.size()));
  for (const auto& condition : detail.conditions) {
    Put(out, condition.type), Put(out, condition.subject), Put(out, condition.description);
  }
  return out;
}

ErrorDetail Decode(std::string_view in) {
  ErrorDetail detail;
  detail.reason = Take(in);
  detail.resource_type = Take(in);
  detail.resource_name = Take(in);
  detail.retry_after = std::chrono::milliseconds(std::stoll(Take(in)));
  for (int n = std::stoi(Take(in)); n > 0; --n) {
    std::string key = Take(in);
    detail.metadata[key] = Take(in);
  }
  for (int n = std::stoi(Take(in)); n > 0; --n) {
    std::string field = Take(in);
    detail.fields.push_back({std::move(field), Take(in)});
  }
  for (int n = std::stoi(Take(in)); n > 0; --n) {
    UnmetCondition condition;
    condition.type = Take(in);
    condition.subject = Take(in);
    condition.description = Take(in);
    detail.conditions.push_back(std::move(condition));
  }
  return detail;
}

absl::Status Make(absl::StatusCode code, const std::string& sentence, const ErrorDetail& detail) {
  absl::Status status(code, sentence);
  status.SetPayload(kPayloadUrl, absl::Cord(Encode(detail)));
  return status;
}

std::string Shown(const std::string& value) {
  std::string shown;
  for (const char c : value) {
    if (shown.size() >= kLongestValueShown) return shown + "...";
    const auto byte = static_cast<unsigned char>(c);
    shown += byte < 0x20 || byte >= 0x7f ? '?' : c;
  }
  return shown;
}

std::string Capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

// A description in lower case continues after the field's path; any other is a sentence.
void AddSentence(const FieldViolation& violation, std::string* message) {
  if (message->ends_with('.')) message->pop_back();
  if (!message->empty()) *message += "; ";
  const std::string& text = violation.description;
  if (text.empty() || text[0] < 'A' || text[0] > 'Z') *message += violation.field + " ";
  *message += text;
}

}  // namespace

absl::Status InvalidFields(std::vector<FieldViolation> violations) {
  ErrorDetail detail;
  detail.reason = "INVALID_FIELD";
  std::string sentence;
  for (const auto& violation : violations) {
    AddSentence(violation, &sentence);
  }
  detail.fields = std::move(violations);
  return Make(absl::StatusCode::kInvalidArgument, sentence, detail);
}

absl::Status InvalidField(std::string field, const std::string& met, const std::string& accepted) {
  return InvalidFields(
      {{std::move(field), fmt::format("must be {} (got \"{}\")", accepted, Shown(met))}});
}

absl::Status MissingField(std::string field, const std::string& accepted) {
  return InvalidFields({{std::move(field), fmt::format("is missing; it must be {}", accepted)}});
}

absl::Status RequestIdReused() {
  ErrorDetail detail;
  detail.reason = "REQUEST_ID_REUSED";
  detail.fields = {{"request_id",
                    "was used for a different request; send a new UUID, or the first request "
                    "unchanged"}};
  return Make(absl::StatusCode::kInvalidArgument, "request_id " + detail.fields.front().description,
              detail);
}

absl::Status NotFound(std::string resource_type, std::string resource_name) {
  ErrorDetail detail;
  detail.reason = "NOT_FOUND";
  std::string sentence =
      resource_name.empty()
          ? Capitalised(resource_type) + " not found."
          : fmt::format("{} \"{}\" not found.", Capitalised(resource_type), Shown(resource_name));
  detail.resource_type = std::move(resource_type);
  detail.resource_name = std::move(resource_name);
  return Make(absl::StatusCode::kNotFound, sentence, detail);
}

absl::Status InvitationNotFound() {
  ErrorDetail detail;
  detail.reason = "NOT_FOUND";
  detail.resource_type = "invitation";
  return Make(
      absl::StatusCode::kNotFound,
      "This invitation does not exist, was used or withdrawn, or has expired; ask for a new one.",
      detail);
}

absl::Status NotSignedIn() {
  ErrorDetail detail;
  detail.reason = "NOT_SIGNED_IN";
  return Make(absl::StatusCode::kUnauthenticated,
              "The token is missing, unknown, expired or revoked; send a valid one as "
              "\"authorization: Bearer TOKEN\".",
              detail);
}

absl::Status NotAllowed(const std::string& what, const std::string& who_may) {
  ErrorDetail detail;
  detail.reason = "NOT_ALLOWED";
  return Make(absl::StatusCode::kPermissionDenied, fmt::format("Only {} may {}.", who_may, what),
              detail);
}

absl::Status SeatHasEnded() {
  ErrorDetail detail;
  detail.reason = "NOT_ALLOWED";
  return Make(
      absl::StatusCode::kPermissionDenied,
      "Your seat in this test call has ended: you can still read it and your own reports, but "
      "nothing else.",
      detail);
}

absl::Status UnmetConditions(const std::string& sentence, std::vector<UnmetCondition> conditions) {
  ErrorDetail detail;
  detail.reason = conditions.empty() ? "WRONG_STATE" : conditions.front().type;
  detail.conditions = std::move(conditions);
  return Make(absl::StatusCode::kFailedPrecondition, sentence, detail);
}

absl::Status WrongState(std::string type, std::string subject, const std::string& sentence) {
  return UnmetConditions(sentence, {{std::move(type), std::move(subject), sentence}});
}

absl::Status AlreadyExists(std::string resource_type, std::string resource_name) {
  ErrorDetail detail;
  detail.reason = "ALREADY_EXISTS";
  std::string sentence =
      fmt::format("The {} exists already: {}.", resource_type, Shown(resource_name));
  detail.resource_type = std::move(resource_type);
  detail.resource_name = std::move(resource_name);
  return Make(absl::StatusCode::kAlreadyExists, sentence, detail);
}

absl::Status StaleEtag(std::string resource_name) {
  ErrorDetail detail;
  detail.reason = "STALE_ETAG";
  std::string sentence =
      fmt::format("{} has changed since you read it; read it again and send its new etag.",
                  Shown(resource_name));
  detail.resource_name = std::move(resource_name);
  return Make(absl::StatusCode::kAborted, sentence, detail);
}

absl::Status NoCapacity(const std::string& what, std::chrono::milliseconds retry_after) {
  ErrorDetail detail;
  detail.reason = "NO_CAPACITY";
  detail.retry_after = retry_after;
  return Make(absl::StatusCode::kResourceExhausted,
              Capitalised(what) + " is busy; try again shortly.", detail);
}

absl::Status OverLimit(const std::string& what, const std::string& limit) {
  ErrorDetail detail;
  detail.reason = "OVER_LIMIT";
  return Make(absl::StatusCode::kResourceExhausted,
              fmt::format("{} exceeds the limit of {}.", Capitalised(what), limit), detail);
}

absl::Status RequestTooLarge(size_t bytes, size_t most_bytes) {
  ErrorDetail detail;
  detail.reason = "REQUEST_TOO_LARGE";
  detail.metadata["most_bytes"] = fmt::format("{}", most_bytes);
  return Make(absl::StatusCode::kResourceExhausted,
              fmt::format("the request must have at most {} bytes (got {})", most_bytes, bytes),
              detail);
}

absl::Status DatabaseAway() {
  ErrorDetail detail;
  detail.reason = "DATABASE_AWAY";
  detail.retry_after = std::chrono::milliseconds(500);
  return Make(absl::StatusCode::kUnavailable,
              "The database cannot be reached; send the same request again.", detail);
}

absl::Status TimeUp() {
  ErrorDetail detail;
  detail.reason = "TIME_UP";
  return Make(absl::StatusCode::kDeadlineExceeded,
              "The request's deadline passed first; allow it more time.", detail);
}

absl::Status Cancelled() {
  ErrorDetail detail;
  detail.reason = "CANCELLED";
  return Make(absl::StatusCode::kCancelled, "The request was cancelled; send it again if needed.",
              detail);
}

absl::Status StoredValueUnreadable(const std::string& table, const std::string& column,
                                   std::string resource_name) {
  ErrorDetail detail;
  detail.reason = "STORED_VALUE_UNREADABLE";
  detail.metadata["table"] = table;
  detail.metadata["column"] = column;
  std::string sentence = fmt::format(
      "{} cannot be read: the database's {}.{} holds a value that this build does not know; start "
      "the build that wrote it, or restore a backup.",
      resource_name.empty() ? "A record" : resource_name, table, column);
  detail.resource_name = std::move(resource_name);
  return Make(absl::StatusCode::kDataLoss, sentence, detail);
}

absl::Status Internal(const std::string& incident) {
  ErrorDetail detail;
  detail.reason = "INTERNAL";
  detail.metadata["incident"] = incident;
  return Make(absl::StatusCode::kInternal,
              fmt::format("Internal error; the server's log has the details under {}.", incident),
              detail);
}

ErrorDetail DetailOf(const absl::Status& status) {
  const auto payload = status.GetPayload(kPayloadUrl);
  if (!payload.has_value()) return {};
  return Decode(std::string(*payload));
}

absl::Status UnderField(const absl::Status& status, const std::string& prefix) {
  ErrorDetail detail = DetailOf(status);
  if (detail.fields.empty()) return status;
  std::string sentence;
  for (auto& violation : detail.fields) {
    violation.field = prefix + "." + violation.field;
    AddSentence(violation, &sentence);
  }
  return Make(status.code(), sentence, detail);
}

absl::Status UnderFieldExcept(const std::string& own, const absl::Status& status,
                              const std::string& prefix) {
  const auto fields = DetailOf(status).fields;
  return !fields.empty() && fields.front().field == own ? status : UnderField(status, prefix);
}

}  // namespace rowproof
