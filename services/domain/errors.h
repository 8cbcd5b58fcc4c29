// The only maker of absl::Status in the project: each way in which an operation cannot be done has
// a named function here. Findings about a user's content are values, not statuses. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ERRORS_H_
#define ROWPROOF_SERVICES_DOMAIN_ERRORS_H_

#include <chrono>
#include <map>
#include <string>
#include <vector>

#include "absl/status/status.h"

namespace rowproof {

// What is wrong with one field of a request: its path, and either the rest of a sentence that
// begins with the path ("must be between 1 and 9 (got \"0\")"), in lower case, or a whole sentence.
struct FieldViolation {
  std::string field;
  std::string description;
  bool operator==(const FieldViolation&) const = default;
};

// One condition that has to hold before an operation may go on (a closed gate, a wrong state).
struct UnmetCondition {
  std::string type;     // stable, UPPER_SNAKE_CASE
  std::string subject;  // resource name or gate
  std::string description;
  bool operator==(const UnmetCondition&) const = default;
};

// Machine-readable part of a status made here.
struct ErrorDetail {
  std::string reason;  // stable, UPPER_SNAKE_CASE
  std::map<std::string, std::string> metadata;
  std::vector<FieldViolation> fields;
  std::vector<UnmetCondition> conditions;
  std::string resource_type;
  std::string resource_name;
  std::chrono::milliseconds retry_after{0};
};

// INVALID_ARGUMENT: "FIELD must be ACCEPTED (got "MET")", or "FIELD is missing; it must be
// ACCEPTED". `met` is cut to 60 bytes and cleared of control characters.
absl::Status InvalidField(std::string field, const std::string& met, const std::string& accepted);
absl::Status InvalidFields(std::vector<FieldViolation> violations);
absl::Status MissingField(std::string field, const std::string& accepted);
// INVALID_ARGUMENT: the request_id was used before with another content.
absl::Status RequestIdReused();
// NOT_FOUND: absent, or not to be known by the caller. The same words for both.
absl::Status NotFound(std::string resource_type, std::string resource_name);
// NOT_FOUND: an invitation that opens nothing, or nothing any more.
absl::Status InvitationNotFound();
// UNAUTHENTICATED: no token, or one that is unknown, expired or revoked.
absl::Status NotSignedIn();
// PERMISSION_DENIED: the caller may know the resource, but not do this: "Only WHO may WHAT."
absl::Status NotAllowed(const std::string& what, const std::string& who_may);
// PERMISSION_DENIED, as NotAllowed: the caller's seat in the call was given up or cancelled.
absl::Status SeatHasEnded();
// FAILED_PRECONDITION.
absl::Status WrongState(std::string type, std::string subject, const std::string& sentence);
absl::Status UnmetConditions(const std::string& sentence, std::vector<UnmetCondition> conditions);
// ALREADY_EXISTS: what the request would make is there, under this name.
absl::Status AlreadyExists(std::string resource_type, std::string resource_name);
// ABORTED: the etag sent is not the resource's present one.
absl::Status StaleEtag(std::string resource_name);
// RESOURCE_EXHAUSTED: "WHAT is busy"; a retry makes sense after `retry_after`.
absl::Status NoCapacity(const std::string& what, std::chrono::milliseconds retry_after);
// RESOURCE_EXHAUSTED: "WHAT exceeds the limit of LIMIT", which a retry does not change.
absl::Status OverLimit(const std::string& what, const std::string& limit);
// RESOURCE_EXHAUSTED: the request itself is larger than the service reads.
absl::Status RequestTooLarge(size_t bytes, size_t most_bytes);
// UNAVAILABLE.
absl::Status DatabaseAway();
// DEADLINE_EXCEEDED.
absl::Status TimeUp();
// CANCELLED: by the caller, or by a server that shuts down.
absl::Status Cancelled();
// DATA_LOSS: what the database holds of `resource` cannot be read by this build. Table and column
// go to the log and the caller; the value does not.
absl::Status StoredValueUnreadable(const std::string& table, const std::string& column,
                                   std::string resource_name);
// INTERNAL. `incident` goes to the log and the caller; nothing else does.
absl::Status Internal(const std::string& incident);

// The detail that a function above attached; an empty one for any other status.
ErrorDetail DetailOf(const absl::Status& status);

// The same status with every field path prefixed ("chart" + "." + field).
absl::Status UnderField(const absl::Status& status, const std::string& prefix);
// The same, except that the field `own` keeps its path: it belongs to the request itself.
absl::Status UnderFieldExcept(const std::string& own, const absl::Status& status,
                              const std::string& prefix);

}  // namespace rowproof

#endif  // ROWPROOF_SERVICES_DOMAIN_ERRORS_H_
