#include "services/usecases/reconciliations.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/text.h"
#include "services/usecases/call_evidence.h"
#include "services/usecases/reports.h"
#include "services/usecases/test_calls.h"

namespace rowproof::usecases {
namespace {

std::vector<reconcile::TesterReport> TesterReports(const CallEvidence& evidence) {
  std::vector<reconcile::TesterReport> reports;
  for (const storage::ReportRow& row : evidence.reports) {
    const patterns::VersionContent& content = evidence.contents.at(row.report.version);
    reports.push_back({row.seat.value, row.number, row.report.version, &content.design,
                       &content.making, row.report,
                       testcalls::FindSlips(row.report, ExpectedOf(row.report, content))});
  }
  return reports;
}

absl::StatusOr<reconcile::Reconciliation> Compute(const CallEvidence& evidence) {
  auto made = reconcile::ReconcileReports(evidence.present().design, evidence.present().making,
                                          TesterReports(evidence), evidence.set_aside);
  if (!made.ok()) return made.status();
  patterns::Readings readings(evidence.contents, evidence.present_version);
  const auto work = WorkOfTesters(evidence, readings);
  made->errata = ClusterErrata(evidence, work, readings);
  const chart::Design& design = evidence.present().design;
  const faults::ChartRows chart_rows = PlacesOf(design).rows;
  for (const auto& size :
       faults::Cover(work, chart_rows, evidence.present_version, SameReadingOf(readings))) {
    made->coverage.push_back(
        reconcile::InRuns(design.sizes[static_cast<size_t>(size.size)].name, size));
  }
  std::vector<faults::ErrataCluster> clusters;
  for (const auto& result : made->errata) clusters.push_back(result.cluster);
  made->undiscovered = faults::EstimateUndiscovered(clusters, work, chart_rows);
  return made;
}

absl::Status RequireSeat(storage::Transaction& transaction, const PatternId& pattern,
                         const CallId& id, const SeatId& seat) {
  if (storage::LoadSeat(transaction, pattern, id, seat).has_value()) return absl::OkStatus();
  return NotFound("seat", SeatTarget(pattern, id, seat).name);
}

}  // namespace

absl::StatusOr<storage::ReconciliationRow> Reconcile(Application& application,
                                                     RequestContext& context,
                                                     const PatternId& pattern, const CallId& id) {
  storage::ReconciliationRow row;
  auto status = Write(
      application, context, CallTarget(pattern, id, storage::Door::Lock::kCall),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) {
          row = storage::LoadReconciliation(transaction, pattern, id, who.earlier_number()).value();
          return absl::OkStatus();
        }
        const auto evidence =
            LoadEvidence(application, transaction, pattern, id, who.call->version_number);
        auto computed = Compute(evidence);
        if (!computed.ok()) return computed.status();
        row = {pattern,
               id,
               storage::CountReconciliations(transaction, pattern, id) + 1,
               who.standing.account,
               transaction.now(),
               evidence.present_version,
               estimate::kModelVersion,
               std::move(*computed)};
        storage::InsertReconciliation(transaction, row);
        transaction.SetResult(std::to_string(row.number));
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return row;
}

absl::StatusOr<storage::ReconciliationRow> GetReconciliation(Application& application,
                                                             RequestContext& context,
                                                             const PatternId& pattern,
                                                             const CallId& id, int number) {
  std::optional<storage::ReconciliationRow> row;
  auto status = Read(
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
  auto status = Read(application, context, CallTarget(pattern, id),
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

absl::StatusOr<storage::SetAsideRow> SetAside(Application& application, RequestContext& context,
                                              const PatternId& pattern, const CallId& id,
                                              const SeatId& seat, reconcile::Quantity quantity,
                                              const std::string& note) {
  if (note.empty()) {
    return MissingField("note", fmt::format("1 to {} bytes long", reconcile::kLongestSetAsideNote));
  }
  if (auto status = ValidateText("note", note, reconcile::kLongestSetAsideNote, true);
      !status.ok()) {
    return status;
  }
  storage::SetAsideRow row;
  auto status =
      Write(application, context, SeatTarget(pattern, id, seat, storage::Door::Lock::kCall),
            [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
              if (who.earlier_result.has_value()) {
                // What the first run wrote: its words are the request's, its time its result.
                row = {{seat.value, quantity, note}, who.earlier_moment()};
                return absl::OkStatus();
              }
              if (auto s = RequireSeat(transaction, pattern, id, seat); !s.ok()) return s;
              row = {{seat.value, quantity, note}, transaction.now()};
              storage::UpsertSetAside(transaction, pattern, id, row);
              transaction.SetResult(std::to_string(Micros(row.set_at)));
              return absl::OkStatus();
            });
  if (!status.ok()) return status;
  return row;
}

absl::Status TakeBack(Application& application, RequestContext& context, const PatternId& pattern,
                      const CallId& id, const SeatId& seat, reconcile::Quantity quantity) {
  return Write(
      application, context, SeatTarget(pattern, id, seat, storage::Door::Lock::kCall),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) return absl::OkStatus();
        if (auto s = RequireSeat(transaction, pattern, id, seat); !s.ok()) return s;
        storage::DeleteSetAside(transaction, pattern, id, seat, quantity);
        return absl::OkStatus();
      });
}

}  // namespace rowproof::usecases
