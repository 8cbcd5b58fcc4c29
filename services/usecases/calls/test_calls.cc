#include "services/usecases/calls/test_calls.h"

#include <algorithm>

#include "absl/time/time.h"
#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/domain/testcalls/report.h"
#include "services/usecases/calls/seat_changes.h"
#include "services/usecases/calls/seats.h"
#include "services/usecases/patterns.h"
#include "services/usecases/read_version.h"
#include "services/usecases/transactions.h"
#include "storage/seats.h"
#include "storage/test_calls.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

absl::Status RequireWorkable(const patterns::VersionRecord& version) {
  if (version.check.workable()) return absl::OkStatus();
  return WrongState(
      "VERSION_IS_DRAFT", ToString(VersionName{version.pattern, version.number}),
      "The version's chart has errors; correct it and submit a new version before you send it.");
}

ReadTestCall ReadWhole(storage::Transaction& transaction, testcalls::TestCallRecord row) {
  ReadTestCall read;
  read.progress = testcalls::Progress(storage::LoadSeatStates(transaction, row.pattern, row.id),
                                      row.settings.sizes);
  read.sent = storage::ListSentVersions(transaction, row.pattern, row.id);
  read.deadline_passed = testcalls::DeadlinePassed(row.settings, TodayInUtc(transaction.now()));
  read.row = std::move(row);
  return read;
}

// The admitted call is there: it can be loaded.
testcalls::TestCallRecord LoadPresent(storage::Transaction& transaction, const PatternId& pattern,
                                      const CallId& id) {
  return storage::NamedRecord(storage::LoadTestCall(transaction, pattern, id), "test_call",
                              CallTarget(pattern, id).name);
}

// The version must have every size that is wanted or being worked.
absl::Status RequireSizes(storage::Transaction& transaction, const testcalls::TestCallRecord& row,
                          const chart::Design& design, const std::string& name) {
  std::vector<std::string> needed;
  for (const auto& wanted : row.settings.sizes) needed.push_back(wanted.size);
  for (const auto& seat : storage::LoadSeatStates(transaction, row.pattern, row.id)) {
    if (testcalls::IsActive(seat.state) || seat.state == testcalls::SeatState::kOffered) {
      needed.push_back(seat.size);
    }
  }
  for (const auto& size : needed) {
    if (testcalls::SizeIndex(design, size) < 0) {
      return WrongState(
          "SIZE_GONE", name,
          fmt::format(
              "The version has no size \"{}\", which the call's testers are working; add it.",
              size));
    }
  }
  return absl::OkStatus();
}

std::vector<testcalls::SeatRecord> SeatsAtWork(storage::Transaction& transaction,
                                               const PatternId& pattern, const CallId& id) {
  std::vector<testcalls::SeatRecord> seats =
      storage::ListSeats(transaction, pattern, id, std::nullopt, {}, kMostSeatsOfACall);
  std::erase_if(seats, [](const auto& seat) { return !testcalls::IsActive(seat.state); });
  return seats;
}

}  // namespace

absl::CivilDay TodayInUtc(Moment now) {
  return absl::ToCivilDay(absl::FromUnixMicros(Micros(now)), absl::UTCTimeZone());
}

absl::StatusOr<ReadTestCall> CreateTestCall(Application& application, RequestContext& context,
                                            const PatternId& pattern, int version,
                                            const testcalls::CallSettings& settings) {
  ReadTestCall made;
  auto status = InTransaction(
      application, context, PatternTarget(pattern, storage::RootLock::kPattern),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) {
          auto earlier = storage::LoadTestCall(transaction, pattern, {*who.earlier_result});
          if (!earlier.has_value()) {
            return NotFound("test call", ToString(TestCallName{pattern, {*who.earlier_result}}));
          }
          made = ReadWhole(transaction, *std::move(earlier));
          return absl::OkStatus();
        }
        RETURN_IF_ERROR(RequireNotArchived(*who.pattern));
        ASSIGN_OR_RETURN(auto tested,
                         LoadVisibleVersion(transaction, who.standing, pattern, version));
        RETURN_IF_ERROR(RequireWorkable(tested.row));
        if (auto s =
                testcalls::Validate(settings, tested.content.design, TodayInUtc(transaction.now()));
            !s.ok()) {
          return UnderField(s, "settings");
        }
        testcalls::TestCallRecord row{pattern,
                                      {application.identifiers.NewIdentifier()},
                                      testcalls::CallState::kDraft,
                                      version,
                                      1,
                                      transaction.now(),
                                      settings};
        storage::InsertTestCall(transaction, row);
        transaction.SetResult(row.id.value);
        made = ReadWhole(transaction, std::move(row));
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return made;
}

absl::StatusOr<ReadTestCall> GetTestCall(Application& application, RequestContext& context,
                                         const PatternId& pattern, const CallId& id) {
  ReadTestCall read;
  auto status = InSnapshot(application, context, CallTarget(pattern, id),
                           [&](storage::Transaction& transaction, const storage::Admission&) {
                             read = ReadWhole(transaction, LoadPresent(transaction, pattern, id));
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  return read;
}

absl::StatusOr<TestCallPage> ListTestCalls(Application& application, RequestContext& context,
                                           const PatternId& pattern, std::optional<Moment> before,
                                           const CallId& before_id, int limit) {
  TestCallPage page;
  auto status =
      InSnapshot(application, context, PatternTarget(pattern),
                 [&](storage::Transaction& transaction, const storage::Admission& who) {
                   const bool sees_all = who.standing.designs_pattern || who.standing.edits_pattern;
                   auto rows = storage::ListTestCalls(transaction, pattern,
                                                      sees_all ? AccountId() : who.standing.account,
                                                      before, before_id, limit + 1);
                   page.more = rows.size() > static_cast<size_t>(limit);
                   if (page.more) rows.pop_back();
                   for (auto& row : rows) {
                     const bool passed =
                         testcalls::DeadlinePassed(row.settings, TodayInUtc(transaction.now()));
                     page.calls.push_back({std::move(row), {}, {}, passed});
                   }
                   return absl::OkStatus();
                 });
  if (!status.ok()) return status;
  return page;
}

absl::StatusOr<ReadTestCall> UpdateTestCall(Application& application, RequestContext& context,
                                            const PatternId& pattern, const CallId& id,
                                            const SettingsChange& change,
                                            std::optional<int> revision) {
  const Target target = CallTarget(pattern, id, storage::RootLock::kCall);
  ReadTestCall changed;
  auto status = InTransaction(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        testcalls::TestCallRecord row = LoadPresent(transaction, pattern, id);
        if (who.earlier_result.has_value()) {
          changed = ReadWhole(transaction, std::move(row));
          return absl::OkStatus();
        }
        if (revision.has_value() && *revision != row.revision) return StaleEtag(target.name);
        RETURN_IF_ERROR(testcalls::MayChangeCall(row.state, target.name));
        const auto content = LoadContent(application, transaction, pattern, row.version_number);
        ASSIGN_OR_RETURN(auto settings, change(row.settings));
        if (auto s = testcalls::Validate(settings, content->design, TodayInUtc(transaction.now()));
            !s.ok()) {
          return UnderField(s, "settings");
        }
        row.settings = std::move(settings);
        ++row.revision;
        storage::UpdateTestCall(transaction, row);
        transaction.SetResult(target.name);
        changed = ReadWhole(transaction, std::move(row));
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return changed;
}

absl::Status DeleteTestCall(Application& application, RequestContext& context,
                            const PatternId& pattern, const CallId& id) {
  Target target = CallTarget(pattern, id, storage::RootLock::kCall);
  target.is_deleted = true;
  return InTransaction(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) return absl::OkStatus();
        const auto state = static_cast<testcalls::CallState>(who.call->state);
        RETURN_IF_ERROR(testcalls::MayDeleteCall(state, target.name));
        if (storage::IsReleased(transaction, pattern, id)) {
          return WrongState("CALL_RELEASED", target.name,
                            "A release rests on the call's tests, so the call is kept.");
        }
        storage::DeleteTestCall(transaction, pattern, id);
        return absl::OkStatus();
      });
}

absl::StatusOr<ReadTestCall> StepTestCall(Application& application, RequestContext& context,
                                          const PatternId& pattern, const CallId& id,
                                          CallStep step) {
  const Target target = CallTarget(pattern, id, storage::RootLock::kCall);
  ReadTestCall stepped;
  auto status = InTransaction(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        testcalls::TestCallRecord row = LoadPresent(transaction, pattern, id);
        if (!who.earlier_result.has_value()) {
          ASSIGN_OR_RETURN(auto next, step(row.state, target.name));
          row.state = next;
          ++row.revision;
          storage::UpdateTestCall(transaction, row);
          transaction.SetResult(target.name);
        }
        stepped = ReadWhole(transaction, std::move(row));
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return stepped;
}

absl::StatusOr<SentVersion> SendVersion(Application& application, RequestContext& context,
                                        const PatternId& pattern, const CallId& id, int version) {
  const Target target = CallTarget(pattern, id, storage::RootLock::kCall);
  SentVersion sent;
  auto status = InTransaction(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        testcalls::TestCallRecord row = LoadPresent(transaction, pattern, id);
        if (!who.earlier_result.has_value()) {
          RETURN_IF_ERROR(testcalls::MaySendVersion(row.state, target.name));
          ASSIGN_OR_RETURN(auto next,
                           LoadVisibleVersion(transaction, who.standing, pattern, version));
          RETURN_IF_ERROR(RequireWorkable(next.row));
          if (version == row.version_number) {
            return WrongState("VERSION_SENT", target.name,
                              fmt::format("The call's testers already have version {}.", version));
          }
          RETURN_IF_ERROR(RequireSizes(transaction, row, next.content.design, target.name));
          row.version_number = version;
          ++row.revision;
          storage::InsertSentVersion(transaction, row, transaction.now());
          transaction.SetResult(target.name);
        }
        ASSIGN_OR_RETURN(auto seats,
                         ChangesForSeats(application, transaction, pattern, id, row.version_number,
                                         SeatsAtWork(transaction, pattern, id), context.stop));
        sent.seats = std::move(seats);
        sent.call = ReadWhole(transaction, std::move(row));
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return sent;
}

}  // namespace rowproof::usecases
