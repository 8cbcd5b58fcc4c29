#include "services/usecases/call.h"

#include "services/domain/errors.h"

namespace rowproof::usecases {
namespace {

storage::Door DoorOf(const Call& call, const Target& target) {
  storage::Door door;
  door.token_sha256 = call.token_sha256;
  door.pattern = target.pattern;
  door.call = target.call;
  door.lock = target.lock;
  door.report = target.report;
  return door;
}

storage::Database::Body Admitting(Call& call, const Target& target,
                                  const storage::Database::Body& body) {
  return [&call, &target, &body](storage::Transaction& transaction,
                                 const storage::Admission& admission) -> absl::Status {
    call.account = admission.standing.account;
    if (auto status = access::Admit(call.method, admission.standing, target.type, target.name);
        !status.ok()) {
      return status;
    }
    if (!target.pattern.empty() && !admission.pattern.has_value()) {
      return NotFound(target.type, target.name);
    }
    if (!target.call.empty() && !admission.call.has_value()) {
      return NotFound(target.type, target.name);
    }
    return body(transaction, admission);
  };
}

}  // namespace

absl::Status Write(Application& application, Call& call, const Target& target,
                   const storage::Database::Body& body) {
  storage::Door door = DoorOf(call, target);
  // A made id lets a run again find what a commit of unknown outcome did.
  door.request = storage::RequestIdentity{
      call.request_id.empty() ? "made-" + application.identifiers.NewIdentifier() : call.request_id,
      call.method, call.digest};
  return application.database.Write(call.method.c_str(), call.deadline, door,
                                    Admitting(call, target, body));
}

absl::Status Read(Application& application, Call& call, const Target& target,
                  const storage::Database::Body& body) {
  return application.database.Read(call.method.c_str(), call.deadline, DoorOf(call, target),
                                   Admitting(call, target, body));
}

absl::Status RequireToken(const Call& call) {
  return call.token_sha256.has_value() ? absl::OkStatus() : NotSignedIn();
}

}  // namespace rowproof::usecases
