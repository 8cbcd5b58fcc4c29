#include "services/usecases/reports/read_reports.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/usecases/calls/seat_changes.h"
#include "services/usecases/calls/seats.h"
#include "services/usecases/reports/expected_report.h"
#include "services/usecases/transactions.h"
#include "storage/reports.h"
#include "storage/seats.h"

namespace rowproof::usecases {

absl::StatusOr<ReadReport> GetReport(Application& application, RequestContext& context,
                                     const PatternId& pattern, const CallId& id, const SeatId& seat,
                                     int number) {
  Target target = SeatTarget(pattern, id, seat);
  target.type = "report";
  target.name += fmt::format("/reports/{}", number);
  ReadReport read;
  auto status = InSnapshot(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (!MayKnowSeat(who.standing, seat, target.name).ok()) {
          return NotFound(target.type, target.name);
        }
        auto row = storage::LoadReport(transaction, pattern, id, seat, number);
        if (!row.has_value()) return NotFound(target.type, target.name);
        const auto content = LoadContent(application, transaction, pattern, row->report.version);
        read.row = std::move(*row);
        read.slips = testcalls::FindSlips(read.row.report, ExpectedOf(read.row.report, *content));
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return read;
}

absl::StatusOr<ReportPage> ListSeatReports(Application& application, RequestContext& context,
                                           const PatternId& pattern, const CallId& id,
                                           const SeatId& seat, int before_number, int limit) {
  const Target target = SeatTarget(pattern, id, seat);
  ReportPage page;
  auto status = InSnapshot(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        RETURN_IF_ERROR(MayKnowSeat(who.standing, seat, target.name));
        if (!storage::LoadSeat(transaction, pattern, id, seat).has_value()) {
          return NotFound(target.type, target.name);
        }
        page.reports =
            storage::ListSeatReports(transaction, pattern, id, seat, before_number, limit + 1);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  page.more = page.reports.size() > static_cast<size_t>(limit);
  if (page.more) page.reports.pop_back();
  return page;
}

absl::StatusOr<ReportPage> ListNewestReports(Application& application, RequestContext& context,
                                             const PatternId& pattern, const CallId& id,
                                             const SeatId& after, int limit) {
  ReportPage page;
  auto status = InSnapshot(
      application, context, CallTarget(pattern, id),
      [&](storage::Transaction& transaction, const storage::Admission& who) {
        const bool sees_all = who.standing.designs_pattern || who.standing.edits_pattern;
        if (sees_all) {
          page.reports = storage::ListNewestReports(transaction, pattern, id, after, limit + 1);
        } else if (after.empty()) {
          page.reports =
              storage::ListSeatReports(transaction, pattern, id, who.standing.seat, 0, 1);
        }
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  page.more = page.reports.size() > static_cast<size_t>(limit);
  if (page.more) page.reports.pop_back();
  return page;
}

}  // namespace rowproof::usecases
