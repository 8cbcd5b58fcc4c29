#include "services/usecases/calls/seats.h"

#include <algorithm>

#include "absl/strings/str_split.h"
#include "fmt/format.h"
#include "fmt/ranges.h"
#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/writer.h"
#include "services/usecases/calls/seat_changes.h"
#include "services/usecases/calls/test_calls.h"
#include "services/usecases/read_version.h"
#include "services/usecases/transactions.h"
#include "storage/reports.h"
#include "storage/seats.h"
#include "storage/test_calls.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

// Ends a seat by one of testcalls::GiveUpSeat and CancelSeat.
absl::StatusOr<testcalls::SeatRecord> EndSeat(
    Application& application, RequestContext& context, const Target& target, const SeatId& seat,
    absl::StatusOr<testcalls::SeatState> (*step)(testcalls::SeatState, const std::string&)) {
  testcalls::SeatRecord row;
  auto status = InTransaction(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        RETURN_IF_ERROR(MayKnowSeat(who.standing, seat, target.name));
        auto loaded = storage::LoadSeat(transaction, target.pattern, target.call, seat);
        if (!loaded.has_value()) return NotFound(target.type, target.name);
        row = std::move(*loaded);
        if (who.earlier_result.has_value()) return absl::OkStatus();
        ASSIGN_OR_RETURN(auto next, step(row.state, target.name));
        row.state = next;
        row.ended_at = transaction.now();
        storage::EndSeat(transaction, row);
        transaction.SetResult(target.name);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return row;
}

NewSeat Offer(Application& application, storage::Transaction& transaction, const Target& target,
              const std::string& size) {
  NewSeat made;
  made.invitation = application.identifiers.NewSecret();
  made.seat.pattern = target.pattern;
  made.seat.call = target.call;
  made.seat.id.value = application.identifiers.NewIdentifier();
  made.seat.size = size;
  made.seat.created_at = transaction.now();
  storage::InsertSeat(transaction, made.seat, Sha256Of(made.invitation));
  return made;
}

// The seats that a request made before, `ids` between blanks, with new invitations.
absl::Status InviteAgain(Application& application, storage::Transaction& transaction,
                         const Target& target, const std::string& ids, std::vector<NewSeat>* made) {
  for (const std::string& id : std::vector<std::string>(absl::StrSplit(ids, ' '))) {
    NewSeat seat;
    seat.invitation = application.identifiers.NewSecret();
    if (!storage::ReplaceInvitation(transaction, target.pattern, target.call, {id},
                                    Sha256Of(seat.invitation))) {
      return WrongState("SEAT_STATE", SeatTarget(target.pattern, target.call, {id}).name,
                        "The seat that this request created is no longer offered; create another.");
    }
    seat.seat =
        storage::NamedRecord(storage::LoadSeat(transaction, target.pattern, target.call, {id}),
                             "seat", SeatTarget(target.pattern, target.call, {id}).name);
    made->push_back(std::move(seat));
  }
  return absl::OkStatus();
}

testcalls::FormNotes NotesFor(const ReadVersion& version, const testcalls::CallSettings& settings,
                              const std::string& size_name) {
  const int size = testcalls::SizeIndex(version.content.design, size_name);
  testcalls::FormNotes notes;
  notes.pattern_title = version.content.title;
  notes.call_title = settings.title;
  if (settings.deadline.has_value()) notes.deadline = testcalls::FormatDate(*settings.deadline);
  notes.rows = testcalls::WorkedRowCount(version.content.design, size);
  notes.stitches = chart::ExpandedStitches(version.content.design, size);
  const estimate::Materials& materials = version.content.materials;
  notes.yarns = estimate::YarnsUsed(version.content.design, materials);
  if (materials.border.rounds > 0) notes.border = materials.border.colour;
  notes.colour_names = version.content.row_style.colour_names;
  notes.terms = testcalls::TermsInWords(settings);
  for (const auto& estimate : version.row.estimates) {
    if (estimate.size != size_name) continue;
    for (const auto& caution : estimate.cautions) notes.cautions.push_back(caution.sentence);
  }
  return notes;
}

}  // namespace

absl::Status MayKnowSeat(const access::Standing& standing, const SeatId& seat,
                         const std::string& name) {
  const bool knows = standing.designs_pattern || standing.edits_pattern || standing.seat == seat;
  return knows ? absl::OkStatus() : NotFound("seat", name);
}

absl::StatusOr<std::vector<NewSeat>> CreateSeats(Application& application, RequestContext& context,
                                                 const PatternId& pattern, const CallId& id,
                                                 const std::vector<std::string>& sizes,
                                                 const std::vector<std::string>& fields) {
  const Target target = CallTarget(pattern, id, storage::RootLock::kCall);
  std::vector<NewSeat> made;
  auto status = InTransaction(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        made.clear();
        if (who.earlier_result.has_value()) {
          transaction.CommitWhenRepeated();
          return InviteAgain(application, transaction, target, *who.earlier_result, &made);
        }
        RETURN_IF_ERROR(testcalls::MayOfferSeat(who.call->state, target.name));
        const auto wanted = storage::NamedRecord(storage::LoadTestCall(transaction, pattern, id),
                                                 "test_call", CallTarget(pattern, id).name)
                                .settings.sizes;
        for (size_t i = 0; i < sizes.size(); ++i) {
          if (std::none_of(wanted.begin(), wanted.end(),
                           [&](const auto& entry) { return entry.size == sizes[i]; })) {
            return InvalidField(fields[i], sizes[i], "one of the call's sizes");
          }
        }
        const size_t there = static_cast<size_t>(storage::CountSeats(transaction, pattern, id));
        if (there + sizes.size() > static_cast<size_t>(kMostSeatsOfACall)) {
          return OverLimit("so many seats", fmt::format("{} per call", kMostSeatsOfACall));
        }
        std::vector<std::string> ids;
        for (const std::string& size : sizes) {
          made.push_back(Offer(application, transaction, target, size));
          ids.push_back(made.back().seat.id.value);
        }
        transaction.SetResult(fmt::format("{}", fmt::join(ids, " ")));
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return made;
}

absl::StatusOr<SeatPage> ListSeats(Application& application, RequestContext& context,
                                   const PatternId& pattern, const CallId& id,
                                   std::optional<Moment> after, const SeatId& after_id, int limit) {
  SeatPage page;
  auto status = InSnapshot(application, context, CallTarget(pattern, id),
                           [&](storage::Transaction& transaction, const storage::Admission& who) {
                             page.seats = storage::ListSeats(transaction, pattern, id, after,
                                                             after_id, limit + 1);
                             for (auto& seat : page.seats) {
                               if (!who.standing.designs_pattern) seat.display_name.clear();
                             }
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  page.more = page.seats.size() > static_cast<size_t>(limit);
  if (page.more) page.seats.pop_back();
  return page;
}

absl::StatusOr<SeatPage> ListMySeats(Application& application, RequestContext& context,
                                     std::optional<Moment> before, const SeatId& before_id,
                                     int limit) {
  SeatPage page;
  auto status = InSnapshot(application, context, {"seat", "", {}, {}},
                           [&](storage::Transaction& transaction, const storage::Admission& who) {
                             page.seats = storage::ListSeatsOf(transaction, who.standing.account,
                                                               before, before_id, limit + 1);
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  page.more = page.seats.size() > static_cast<size_t>(limit);
  if (page.more) page.seats.pop_back();
  return page;
}

absl::StatusOr<testcalls::SeatRecord> GetSeat(Application& application, RequestContext& context,
                                              const PatternId& pattern, const CallId& id,
                                              const SeatId& seat) {
  const Target target = SeatTarget(pattern, id, seat);
  testcalls::SeatRecord row;
  auto status = InSnapshot(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        RETURN_IF_ERROR(MayKnowSeat(who.standing, seat, target.name));
        auto loaded = storage::LoadSeat(transaction, pattern, id, seat);
        if (!loaded.has_value()) return NotFound(target.type, target.name);
        row = std::move(*loaded);
        const bool may_name = who.standing.designs_pattern || who.standing.seat == seat;
        if (!may_name) row.display_name.clear();
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return row;
}

absl::StatusOr<testcalls::SeatRecord> GiveUpSeat(Application& application, RequestContext& context,
                                                 const PatternId& pattern, const CallId& id,
                                                 const SeatId& seat) {
  return EndSeat(application, context, SeatTarget(pattern, id, seat, storage::RootLock::kCall),
                 seat, testcalls::GiveUpSeat);
}

absl::StatusOr<testcalls::SeatRecord> CancelSeat(Application& application, RequestContext& context,
                                                 const PatternId& pattern, const CallId& id,
                                                 const SeatId& seat) {
  return EndSeat(application, context, SeatTarget(pattern, id, seat, storage::RootLock::kCall),
                 seat, testcalls::CancelSeat);
}

absl::StatusOr<std::string> GetSeatForm(Application& application, RequestContext& context,
                                        const PatternId& pattern, const CallId& id,
                                        const SeatId& seat) {
  const Target target = SeatTarget(pattern, id, seat);
  std::string form;
  auto status = InSnapshot(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        RETURN_IF_ERROR(MayKnowSeat(who.standing, seat, target.name));
        const auto row = storage::LoadSeat(transaction, pattern, id, seat);
        if (!row.has_value()) return NotFound(target.type, target.name);
        RETURN_IF_ERROR(testcalls::MayReport(who.call->state, row->state, target.name));
        ASSIGN_OR_RETURN(auto version, LoadVisibleVersion(transaction, who.standing, pattern,
                                                          who.call->version_number));
        const auto settings = storage::NamedRecord(storage::LoadTestCall(transaction, pattern, id),
                                                   "test_call", CallTarget(pattern, id).name)
                                  .settings;
        const auto newest = storage::LoadReport(transaction, pattern, id, seat, row->report_count);
        const testcalls::FormHeading heading{target.name, version.row.number, row->size,
                                             version.content.design.first_row_number};
        form = testcalls::WriteForm(heading, NotesFor(version, settings, row->size),
                                    newest.has_value() ? &newest->report : nullptr);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return form;
}

absl::StatusOr<SeatChanges> GetSeatChanges(Application& application, RequestContext& context,
                                           const PatternId& pattern, const CallId& id,
                                           const SeatId& seat) {
  const Target target = SeatTarget(pattern, id, seat);
  SeatChanges changes;
  auto status = InSnapshot(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        RETURN_IF_ERROR(MayKnowSeat(who.standing, seat, target.name));
        auto row = storage::LoadSeat(transaction, pattern, id, seat);
        if (!row.has_value()) return NotFound(target.type, target.name);
        ASSIGN_OR_RETURN(
            auto found, ChangesForSeats(application, transaction, pattern, id,
                                        who.call->version_number, {std::move(*row)}, context.stop));
        changes = std::move(found.front());
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return changes;
}

}  // namespace rowproof::usecases
