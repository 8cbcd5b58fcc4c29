#include "services/usecases/reconciliations.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"
#include "services/usecases/call_evidence.h"
#include "services/usecases/cluster_errata.h"
#include "services/usecases/reports/expected_report.h"
#include "services/usecases/transactions.h"
#include "storage/reconciliations.h"
#include "storage/seats.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

std::vector<reconcile::TesterReport> TesterReports(const CallEvidence& evidence) {
  std::vector<reconcile::TesterReport> reports;
  for (const testcalls::ReportRecord& row : evidence.reports) {
    const patterns::VersionContent& content = evidence.contents.at(row.report.version);
    reports.push_back({row.seat.value, row.number, row.report.version, &content.design,
                       &content.materials, row.report,
                       testcalls::FindSlips(row.report, ExpectedOf(row.report, content))});
  }
  return reports;
}

absl::StatusOr<reconcile::Reconciliation> Compute(const CallEvidence& evidence, const Stop& stop) {
  auto made = reconcile::ReconcileReports(evidence.present().design, evidence.present().materials,
                                          TesterReports(evidence), evidence.set_aside, stop);
  if (!made.ok()) return made.status();
  patterns::Readings readings(evidence.contents, evidence.present_version, &stop);
  const auto work = WorkOfTesters(evidence, readings);
  made->errata = ClusterErrata(evidence, work, readings, stop);
  const chart::Design& design = evidence.present().design;
  const faults::ChartRows chart_rows = PlacesOf(design).rows;
  for (const auto& size :
       faults::Cover(work, chart_rows, evidence.present_version, SameReadingOf(readings), stop)) {
    made->coverage.push_back(
        reconcile::InRuns(design.sizes[static_cast<size_t>(size.size)].name, size));
  }
  std::vector<faults::ErrataCluster> clusters;
  for (const auto& result : made->errata) clusters.push_back(result.cluster);
  made->undiscovered =
      faults::EstimateUndiscovered(clusters, work, chart_rows, faults::kLeftCoverage, stop);
  if (stop.Now()) return stop.status();
  return made;
}

absl::Status RequireSeat(storage::Transaction& transaction, const PatternId& pattern,
                         const CallId& id, const SeatId& seat) {
  if (storage::LoadSeat(transaction, pattern, id, seat).has_value()) return absl::OkStatus();
  return NotFound("seat", SeatTarget(pattern, id, seat).name);
}

absl::Status ValidateNote(const std::string& note) {
  if (note.empty()) {
    return MissingField("note", fmt::format("1 to {} bytes long", reconcile::kLongestSetAsideNote));
  }
  return ValidateText("note", note, reconcile::kLongestSetAsideNote, true);
}

Target SetAsideTarget(const SetAsideName& name, storage::RootLock lock) {
  return {"set-aside", ToString(name), name.pattern, name.call, lock};
}

absl::StatusOr<reconcile::SetAsideRecord> Load(storage::Transaction& transaction,
                                               const SetAsideName& name) {
  auto row = storage::LoadSetAside(transaction, name.pattern, name.call, name.set_aside);
  if (!row.has_value()) return NotFound("set-aside", ToString(name));
  return *std::move(row);
}

}  // namespace

absl::StatusOr<reconcile::ReconciliationRecord> CreateReconciliation(Application& application,
                                                                     RequestContext& context,
                                                                     const PatternId& pattern,
                                                                     const CallId& id) {
  reconcile::ReconciliationRecord row;
  CallEvidence evidence;
  Steps steps;
  steps.read = [&](storage::Transaction& transaction, const storage::Admission& who) {
    if (who.earlier_result.has_value()) {
      row = storage::NamedRecord(
          storage::LoadReconciliation(transaction, pattern, id, who.earlier_number()),
          "reconciliation", CallTarget(pattern, id).name);
      return absl::OkStatus();
    }
    evidence = LoadEvidence(application, transaction, pattern, id, who.call->version_number);
    row.author = who.standing.account;
    row.created_at = transaction.now();
    return absl::OkStatus();
  };
  steps.make = [&]() -> absl::Status {
    ASSIGN_OR_RETURN(row.result, Compute(evidence, context.stop));
    return absl::OkStatus();
  };
  steps.write = [&](storage::Transaction& transaction, const storage::Admission&) {
    row.pattern = pattern;
    row.call = id;
    row.number = storage::CountReconciliations(transaction, pattern, id) + 1;
    row.version_number = evidence.present_version;
    row.model_version = estimate::kModelVersion;
    storage::InsertReconciliation(transaction, row);
    transaction.SetResult(std::to_string(row.number));
    return absl::OkStatus();
  };
  RETURN_IF_ERROR(
      InSteps(application, context, CallTarget(pattern, id, storage::RootLock::kCall), steps));
  return row;
}

absl::StatusOr<reconcile::ReconciliationRecord> GetReconciliation(Application& application,
                                                                  RequestContext& context,
                                                                  const PatternId& pattern,
                                                                  const CallId& id, int number) {
  std::optional<reconcile::ReconciliationRecord> row;
  auto status = InSnapshot(
      application, context, CallTarget(pattern, id),
      [&](storage::Transaction& transaction, const storage::Admission&) -> absl::Status {
        row = storage::LoadReconciliation(transaction, pattern, id, number);
        return row.has_value()
                   ? absl::OkStatus()
                   : NotFound("reconciliation", ToString(ReconciliationName{pattern, id, number}));
      });
  if (!status.ok()) return status;
  return std::move(*row);
}

absl::StatusOr<ReconciliationPage> ListReconciliations(Application& application,
                                                       RequestContext& context,
                                                       const PatternId& pattern, const CallId& id,
                                                       int before_number, int limit) {
  ReconciliationPage page;
  auto status = InSnapshot(application, context, CallTarget(pattern, id),
                           [&](storage::Transaction& transaction, const storage::Admission&) {
                             page.reconciliations = storage::ListReconciliations(
                                 transaction, pattern, id, before_number, limit + 1);
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  page.more = page.reconciliations.size() > static_cast<size_t>(limit);
  if (page.more) page.reconciliations.pop_back();
  return page;
}

absl::StatusOr<reconcile::SetAsideRecord> CreateSetAside(Application& application,
                                                         RequestContext& context,
                                                         const PatternId& pattern, const CallId& id,
                                                         const reconcile::SetAside& set_aside) {
  RETURN_IF_ERROR(ValidateNote(set_aside.note));
  const SeatId seat{set_aside.seat};
  reconcile::SetAsideRecord row;
  auto status = InTransaction(
      application, context, SeatTarget(pattern, id, seat, storage::RootLock::kCall),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) {
          auto earlier = Load(transaction, {pattern, id, {*who.earlier_result}});
          if (earlier.ok()) row = *std::move(earlier);
          return earlier.status();
        }
        RETURN_IF_ERROR(RequireSeat(transaction, pattern, id, seat));
        const auto there =
            storage::FindSetAside(transaction, pattern, id, seat, set_aside.quantity);
        if (there.has_value()) {
          return AlreadyExists("set-aside", ToString(SetAsideName{pattern, id, *there}));
        }
        row = {{application.identifiers.NewIdentifier()}, set_aside, transaction.now()};
        storage::InsertSetAside(transaction, pattern, id, row);
        transaction.SetResult(row.id.value);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return row;
}

absl::StatusOr<reconcile::SetAsideRecord> GetSetAside(Application& application,
                                                      RequestContext& context,
                                                      const SetAsideName& name) {
  absl::StatusOr<reconcile::SetAsideRecord> row = reconcile::SetAsideRecord();
  auto status = InSnapshot(application, context, SetAsideTarget(name, storage::RootLock::kNone),
                           [&](storage::Transaction& transaction, const storage::Admission&) {
                             row = Load(transaction, name);
                             return row.status();
                           });
  if (!status.ok()) return status;
  return row;
}

absl::StatusOr<SetAsidePage> ListSetAsides(Application& application, RequestContext& context,
                                           const PatternId& pattern, const CallId& id,
                                           const SeatId& after_seat, int after_quantity,
                                           int limit) {
  SetAsidePage page;
  auto status = InSnapshot(application, context, CallTarget(pattern, id),
                           [&](storage::Transaction& transaction, const storage::Admission&) {
                             page.set_asides = storage::ListSetAsides(
                                 transaction, pattern, id, after_seat, after_quantity, limit + 1);
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  page.more = page.set_asides.size() > static_cast<size_t>(limit);
  if (page.more) page.set_asides.pop_back();
  return page;
}

absl::Status DeleteSetAside(Application& application, RequestContext& context,
                            const SetAsideName& name) {
  return InTransaction(
      application, context, SetAsideTarget(name, storage::RootLock::kCall),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) return absl::OkStatus();
        if (!storage::DeleteSetAside(transaction, name.pattern, name.call, name.set_aside)) {
          return NotFound("set-aside", ToString(name));
        }
        return absl::OkStatus();
      });
}

}  // namespace rowproof::usecases
