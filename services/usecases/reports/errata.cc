#include "services/usecases/reports/errata.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/domain/testcalls/report.h"
#include "services/usecases/calls/seat_changes.h"
#include "services/usecases/transactions.h"
#include "storage/errata.h"
#include "storage/seats.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

Target ErratumTarget(const PatternId& pattern, const CallId& call, const ErratumId& erratum) {
  return {"erratum", ToString(ErratumName{pattern, call, erratum}), pattern, call,
          storage::RootLock::kCall};
}

// The first worked row of `to_size` that works the same chart row; 0: none does.
int RowOfOtherSize(const chart::Design& design, int from_size, int row, int to_size) {
  const std::vector<int> from = chart::ChartRowsAsWorked(design, from_size);
  const std::vector<int> to = chart::ChartRowsAsWorked(design, to_size);
  const auto found = std::find(to.begin(), to.end(), from[static_cast<size_t>(row - 1)]);
  if (found == to.end()) return 0;
  // Of inset's two worked rows the same one.
  const int within = (row - 1) % chart::WorkedRows(design);
  return static_cast<int>(found - to.begin()) + within + 1;
}

// The erratum's row as the seat's tester counts it: in the seat's size, in the version that the
// newest report was worked from. 0: the tester has no such row.
int RowForSeat(Application& application, storage::Transaction& transaction,
               const faults::ErratumRecord& erratum, const testcalls::SeatRecord& seat,
               const Stop& stop) {
  const auto before =
      LoadContent(application, transaction, erratum.pattern, erratum.version_number);
  const auto after = LoadContent(application, transaction, erratum.pattern, seat.report_version);
  const int old_size = testcalls::SizeIndex(before->design, erratum.size);
  const int new_size = testcalls::SizeIndex(after->design, erratum.size);
  const int own_size = testcalls::SizeIndex(after->design, seat.size);
  if (new_size < 0 || own_size < 0) return 0;
  int row = erratum.entry.row;
  if (erratum.version_number != seat.report_version) {
    const auto difference =
        patterns::CompareSize(before->design, old_size, after->design, new_size, stop);
    row = difference.new_row[static_cast<size_t>(row - 1)];
  }
  if (row == 0 || new_size == own_size) return row;
  return RowOfOtherSize(after->design, new_size, row, own_size);
}

faults::ConfirmationFacts FactsFor(Application& application, storage::Transaction& transaction,
                                   const faults::ErratumRecord& erratum,
                                   const testcalls::SeatRecord& seat, const Stop& stop) {
  faults::ConfirmationFacts facts;
  facts.reported_it = erratum.seat == seat.id;
  facts.last_row = seat.last_row;
  facts.erratum_row = erratum.entry.row;
  if (facts.erratum_row == 0 || seat.report_version == 0 || facts.reported_it) return facts;
  const int row = RowForSeat(application, transaction, erratum, seat, stop);
  if (row > 0) {
    facts.erratum_row = row;
  } else {
    facts.last_row = 0;  // a row that the tester's version does not have was never reached
  }
  return facts;
}

}  // namespace

absl::StatusOr<faults::ErratumRecord> GetErratum(Application& application, RequestContext& context,
                                                 const ErratumName& name) {
  const Target target = ErratumTarget(name.pattern, name.call, name.erratum);
  faults::ErratumRecord row;
  auto status = InSnapshot(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission&) -> absl::Status {
        auto loaded = storage::LoadErratum(transaction, name.pattern, name.call, name.erratum);
        if (!loaded.has_value()) return NotFound(target.type, target.name);
        row = *std::move(loaded);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return row;
}

absl::StatusOr<ErrataPage> ListErrata(Application& application, RequestContext& context,
                                      const PatternId& pattern, const CallId& id,
                                      const faults::ErrataFilter& filter, int after_row,
                                      const ErratumId& after_id, int limit) {
  ErrataPage page;
  auto status = InSnapshot(application, context, CallTarget(pattern, id),
                           [&](storage::Transaction& transaction, const storage::Admission&) {
                             page.errata = storage::ListErrata(transaction, pattern, id, filter,
                                                               after_row, after_id, limit + 1);
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  page.more = page.errata.size() > static_cast<size_t>(limit);
  if (page.more) page.errata.pop_back();
  return page;
}

absl::StatusOr<faults::ErratumRecord> DecideErratum(
    Application& application, RequestContext& context, const PatternId& pattern, const CallId& id,
    const ErratumId& erratum, faults::ErratumState state, const std::string& note) {
  const Target target = ErratumTarget(pattern, id, erratum);
  faults::ErratumRecord row;
  auto status = InTransaction(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        auto loaded = storage::LoadErratum(transaction, pattern, id, erratum);
        if (!loaded.has_value()) return NotFound(target.type, target.name);
        row = std::move(*loaded);
        if (who.earlier_result.has_value()) return absl::OkStatus();
        const auto decide = state == faults::ErratumState::kAccepted   ? faults::Accept
                            : state == faults::ErratumState::kDeclined ? faults::Decline
                                                                       : faults::Reopen;
        ASSIGN_OR_RETURN(auto decision, decide(row.decision, note, target.name));
        row.decision = std::move(decision);
        row.decided_at.reset();
        if (row.decision.state != faults::ErratumState::kOpen) row.decided_at = transaction.now();
        storage::UpdateDecision(transaction, row);
        transaction.SetResult(target.name);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return row;
}

absl::StatusOr<faults::ErratumRecord> ConfirmErratum(Application& application,
                                                     RequestContext& context,
                                                     const PatternId& pattern, const CallId& id,
                                                     const ErratumId& erratum,
                                                     faults::Confirmation confirmation) {
  const Target target = ErratumTarget(pattern, id, erratum);
  faults::ErratumRecord row;
  auto status = InTransaction(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        auto loaded = storage::LoadErratum(transaction, pattern, id, erratum);
        if (!loaded.has_value()) return NotFound(target.type, target.name);
        row = std::move(*loaded);
        if (who.earlier_result.has_value()) return absl::OkStatus();
        // The caller's membership names it.
        const testcalls::SeatRecord seat =
            storage::NamedRecord(storage::LoadSeat(transaction, pattern, id, who.standing.seat),
                                 "seat", SeatTarget(pattern, id, who.standing.seat).name);
        RETURN_IF_ERROR(testcalls::MayReport(who.call->state, seat.state,
                                             SeatTarget(pattern, id, seat.id).name));
        const auto facts = FactsFor(application, transaction, row, seat, context.stop);
        if (context.stop.Now()) return context.stop.status();
        RETURN_IF_ERROR(faults::MayConfirm(facts, target.name));
        storage::UpsertConfirmation(transaction, row, {seat.id, confirmation, transaction.now()});
        row = storage::NamedRecord(storage::LoadErratum(transaction, pattern, id, erratum),
                                   "erratum", target.name);
        transaction.SetResult(target.name);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return row;
}

}  // namespace rowproof::usecases
