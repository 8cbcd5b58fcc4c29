#include "services/usecases/transactions.h"

#include "services/domain/errors.h"
#include "services/domain/names/names.h"

namespace rowproof::usecases {
namespace {

storage::Door DoorOf(const RequestContext& context, const Target& target) {
  storage::Door door;
  door.token_sha256 = context.token_sha256;
  door.pattern = target.pattern;
  door.call = target.call;
  door.lock = target.lock;
  door.report = target.report;
  return door;
}

storage::Database::Body Admitting(RequestContext& context, const Target& target,
                                  const storage::Database::Body& body) {
  return [&context, &target, &body](storage::Transaction& transaction,
                                    const storage::Admission& admission) -> absl::Status {
    context.account = admission.standing.account;
    if (auto status = access::Admit(context.method, admission.standing, target.type, target.name);
        !status.ok()) {
      return status;
    }
    if (!target.pattern.empty() && !admission.pattern.has_value()) {
      return NotFound(target.type, target.name);
    }
    const bool may_be_gone = target.is_deleted && admission.earlier_result.has_value();
    if (!target.call.empty() && !admission.call.has_value() && !may_be_gone) {
      return NotFound(target.type, target.name);
    }
    return body(transaction, admission);
  };
}

}  // namespace

absl::Status Write(Application& application, RequestContext& context, const Target& target,
                   const storage::Database::Body& body) {
  storage::Door door = DoorOf(context, target);
  // A made id lets a run again find what a commit of unknown outcome did.
  door.request = storage::RequestIdentity{context.request_id.empty()
                                              ? "made-" + application.identifiers.NewIdentifier()
                                              : context.request_id,
                                          context.method, context.digest};
  return application.database.Write(context.method.c_str(), context.deadline, door,
                                    Admitting(context, target, body));
}

absl::Status Read(Application& application, RequestContext& context, const Target& target,
                  const storage::Database::Body& body) {
  return application.database.Read(context.method.c_str(), context.deadline,
                                   DoorOf(context, target), Admitting(context, target, body));
}

Target PatternTarget(const PatternId& pattern, storage::Door::Lock lock) {
  return {"pattern", ToString(PatternName{pattern}), pattern, {}, lock};
}

Target CallTarget(const PatternId& pattern, const CallId& call, storage::Door::Lock lock) {
  return {"test call", ToString(TestCallName{pattern, call}), pattern, call, lock};
}

Target SeatTarget(const PatternId& pattern, const CallId& call, const SeatId& seat,
                  storage::Door::Lock lock) {
  return {"seat", ToString(SeatName{pattern, call, seat}), pattern, call, lock};
}

}  // namespace rowproof::usecases
