#include "services/usecases/transactions.h"

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"

namespace rowproof::usecases {
namespace {

storage::TransactionScope ScopeOf(const RequestContext& context, const Target& target) {
  storage::TransactionScope scope;
  scope.token_sha256 = context.token_sha256;
  scope.pattern = target.pattern;
  scope.call = target.call;
  scope.lock = target.lock;
  scope.report = target.report;
  return scope;
}

storage::Database::Body Admitting(RequestContext& context, const Target& target,
                                  const storage::Database::Body& body) {
  return [&context, &target, &body](storage::Transaction& transaction,
                                    const storage::Admission& admission) -> absl::Status {
    context.account = admission.standing.account;
    RETURN_IF_ERROR(access::Admit(context.method, admission.standing, target.type, target.name));
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

absl::Status InTransaction(Application& application, RequestContext& context, const Target& target,
                           const storage::Database::Body& body) {
  storage::TransactionScope scope = ScopeOf(context, target);
  // A made id lets a run again find what a commit of unknown outcome did.
  scope.request = storage::RequestIdentity{
      context.request_id.empty() ? "made-" + application.identifiers.NewIdentifier()
                                 : context.request_id,
      context.method, context.digest, context.request_id.empty()};
  return application.database.Write(context.method.c_str(), context.deadline, scope,
                                    Admitting(context, target, body));
}

absl::Status InSnapshot(Application& application, RequestContext& context, const Target& target,
                        const storage::Database::Body& body) {
  return application.database.Read(context.method.c_str(), context.deadline,
                                   ScopeOf(context, target), Admitting(context, target, body));
}

Target PatternTarget(const PatternId& pattern, storage::RootLock lock) {
  return {"pattern", ToString(PatternName{pattern}), pattern, {}, lock};
}

Target CallTarget(const PatternId& pattern, const CallId& call, storage::RootLock lock) {
  return {"test call", ToString(TestCallName{pattern, call}), pattern, call, lock};
}

Target SeatTarget(const PatternId& pattern, const CallId& call, const SeatId& seat,
                  storage::RootLock lock) {
  return {"seat", ToString(SeatName{pattern, call, seat}), pattern, call, lock};
}

}  // namespace rowproof::usecases
