#include "services/usecases/transactions.h"

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "storage/database/changes.h"

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

// A made id lets a run again find what a commit of unknown outcome did.
storage::TransactionScope WriteScope(Application& application, const RequestContext& context,
                                     const Target& target) {
  storage::TransactionScope scope = ScopeOf(context, target);
  scope.request = storage::RequestIdentity{
      context.request_id.empty() ? "made-" + application.identifiers.NewIdentifier()
                                 : context.request_id,
      context.method, context.digest, context.request_id.empty()};
  return scope;
}

// Turns before the others wait.
constexpr int kFreeTurns = 3;

// Nothing if something of the pattern has changed meanwhile.
std::optional<absl::Status> TakeTurn(Application& application, RequestContext& context,
                                     const Target& target, const storage::TransactionScope& scope,
                                     const Steps& steps) {
  storage::Database& database = application.database;
  const char* name = context.method.c_str();
  std::string seen;
  bool repeated = false;
  const auto read = [&](storage::Transaction& transaction, const storage::Admission& who) {
    repeated = who.earlier_result.has_value();
    seen = storage::SeenBy(transaction);
    return steps.read(transaction, who);
  };
  storage::TransactionScope reading = scope;
  reading.lock = storage::RootLock::kNone;
  absl::Status status =
      database.Read(name, context.deadline, reading, Admitting(context, target, read));
  if (!status.ok() || repeated) return status;
  if (status = steps.make(); !status.ok()) return status;
  bool changed = false;
  const auto write = [&](storage::Transaction& transaction, const storage::Admission& who) {
    if (who.earlier_result.has_value()) return steps.read(transaction, who);
    storage::ShutOut(transaction, target.pattern);
    changed = storage::ChangedSince(transaction, target.pattern, seen);
    return changed ? absl::AbortedError("overtaken") : steps.write(transaction, who);
  };
  status = database.Write(name, context.deadline, scope, Admitting(context, target, write));
  if (changed) return std::nullopt;
  return status;
}

}  // namespace

absl::Status InSteps(Application& application, RequestContext& context, const Target& target,
                     const Steps& steps) {
  const storage::TransactionScope scope = WriteScope(application, context, target);
  for (int turn = 0; turn < kFreeTurns; ++turn) {
    const auto done = TakeTurn(application, context, target, scope, steps);
    if (done.has_value()) return *done;
  }
  const auto whole = [&](storage::Transaction& transaction,
                         const storage::Admission& who) -> absl::Status {
    if (!who.earlier_result.has_value()) storage::ShutOut(transaction, target.pattern);
    RETURN_IF_ERROR(steps.read(transaction, who));
    if (who.earlier_result.has_value()) return absl::OkStatus();
    RETURN_IF_ERROR(steps.make());
    return steps.write(transaction, who);
  };
  return application.database.Write(context.method.c_str(), context.deadline, scope,
                                    Admitting(context, target, whole));
}

absl::Status InTransaction(Application& application, RequestContext& context, const Target& target,
                           const storage::Database::Body& body) {
  const storage::TransactionScope scope = WriteScope(application, context, target);
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
