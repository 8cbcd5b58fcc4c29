#include "services/rpc/converters/test_call.h"

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/pattern.h"
#include "services/rpc/page_token.h"
#include "services/usecases/calls/seat_changes.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<testcalls::Choice> ChoiceFrom(const std::string& field, v1::MaterialChoice choice) {
  switch (choice) {
    case v1::MATERIAL_CHOICE_UNSPECIFIED:
    case v1::MATERIAL_CHOICE_FREE:
      return testcalls::Choice::kFree;
    case v1::MATERIAL_CHOICE_SAME:
      return testcalls::Choice::kSame;
    default:
      return InvalidField(field, std::to_string(static_cast<int>(choice)), "a value of its enum");
  }
}

v1::MaterialChoice ToProto(testcalls::Choice choice) {
  return choice == testcalls::Choice::kSame ? v1::MATERIAL_CHOICE_SAME : v1::MATERIAL_CHOICE_FREE;
}

}  // namespace

absl::StatusOr<testcalls::CallSettings> FromProto(const v1::CallSettings& from) {
  testcalls::CallSettings settings;
  settings.title = from.title();
  for (const auto& size : from.sizes()) {
    settings.sizes.push_back({size.size(), size.seat_count(), size.required_count()});
  }
  if (!from.deadline().empty()) {
    ASSIGN_OR_RETURN(auto day, testcalls::ParseDate("settings.deadline", from.deadline()));
    settings.deadline = day;
  }
  ASSIGN_OR_RETURN(auto yarn, ChoiceFrom("settings.yarn", from.yarn()));
  ASSIGN_OR_RETURN(auto hook, ChoiceFrom("settings.hook", from.hook()));
  settings.yarn = yarn;
  settings.hook = hook;
  settings.swatch_wanted = from.swatch_wanted();
  if (from.has_confidential()) settings.confidential = from.confidential();
  if (from.has_photographs_by_permission()) {
    settings.photographs_by_permission = from.photographs_by_permission();
  }
  settings.reward = from.reward();
  settings.language = from.language();
  settings.notes = from.notes();
  return settings;
}

v1::CallSettings ToProto(const testcalls::CallSettings& settings) {
  v1::CallSettings to;
  to.set_title(settings.title);
  for (const auto& wanted : settings.sizes) {
    auto* size = to.add_sizes();
    size->set_size(wanted.size);
    size->set_seat_count(wanted.seats);
    size->set_required_count(wanted.required);
  }
  if (settings.deadline.has_value()) to.set_deadline(testcalls::FormatDate(*settings.deadline));
  to.set_yarn(ToProto(settings.yarn));
  to.set_hook(ToProto(settings.hook));
  to.set_swatch_wanted(settings.swatch_wanted);
  to.set_confidential(settings.confidential);
  to.set_photographs_by_permission(settings.photographs_by_permission);
  to.set_reward(settings.reward);
  to.set_language(settings.language);
  to.set_notes(settings.notes);
  return to;
}

v1::TestCall ToProto(const usecases::ReadTestCall& call) {
  const testcalls::TestCallRecord& row = call.row;
  v1::TestCall to;
  to.set_name(ToString(TestCallName{row.pattern, row.id}));
  to.set_state(static_cast<v1::CallState>(row.state));
  to.set_version(ToString(VersionName{row.pattern, row.version_number}));
  *to.mutable_settings() = ToProto(row.settings);
  for (const auto& term : testcalls::TermsInWords(row.settings)) to.add_conditions(term);
  for (const auto& size : call.progress) {
    auto* progress = to.add_progress();
    progress->set_size(size.size);
    progress->set_offered_count(size.offered);
    progress->set_taken_count(size.taken);
    progress->set_finished_count(size.finished);
    progress->set_given_up_count(size.given_up);
    progress->set_cancelled_count(size.cancelled);
    progress->set_required_count(size.required);
    progress->set_enough(size.enough());
    progress->set_within_reach(size.within_reach());
  }
  for (const auto& version : call.sent) {
    auto* sent = to.add_sent_versions();
    sent->set_version(ToString(VersionName{row.pattern, version.number}));
    *sent->mutable_send_time() = ToProto(version.sent_at);
  }
  to.set_deadline_passed(call.deadline_passed);
  *to.mutable_create_time() = ToProto(row.created_at);
  to.set_etag(MakeEtag(row.revision));
  return to;
}

v1::Seat ToProto(const testcalls::SeatRecord& seat) {
  v1::Seat to;
  to.set_name(ToString(SeatName{seat.pattern, seat.call, seat.id}));
  to.set_size(seat.size);
  to.set_state(static_cast<v1::SeatState>(seat.state));
  if (!seat.account.empty()) to.set_account(ToString(AccountName{seat.account}));
  to.set_display_name(seat.display_name);
  *to.mutable_create_time() = ToProto(seat.created_at);
  if (seat.taken_at.has_value()) *to.mutable_take_time() = ToProto(*seat.taken_at);
  if (seat.ended_at.has_value()) *to.mutable_end_time() = ToProto(*seat.ended_at);
  to.set_report_count(seat.report_count);
  to.set_last_row(seat.last_row);
  if (seat.report_version != 0) {
    to.set_report_version(ToString(VersionName{seat.pattern, seat.report_version}));
  }
  return to;
}

v1::SeatChanges ToProto(const usecases::SeatChanges& changes) {
  const testcalls::SeatRecord& seat = changes.seat;
  v1::SeatChanges to;
  to.set_seat(ToString(SeatName{seat.pattern, seat.call, seat.id}));
  to.set_from_version(ToString(VersionName{seat.pattern, changes.from_version}));
  to.set_to_version(ToString(VersionName{seat.pattern, changes.to_version}));
  to.set_last_row(seat.last_row);
  for (const auto& row : changes.behind) *to.add_behind() = ToProto(row);
  for (const auto& row : changes.ahead) *to.add_ahead() = ToProto(row);
  to.set_next_row(changes.next_row);
  return to;
}

v1::SendVersionResponse ToProto(const usecases::SentVersion& sent) {
  v1::SendVersionResponse to;
  *to.mutable_test_call() = ToProto(sent.call);
  int behind = 0;
  int ahead = 0;
  for (const auto& seat : sent.seats) {
    *to.add_seats() = ToProto(seat);
    if (!seat.behind.empty()) {
      ++behind;
    } else if (!seat.ahead.empty()) {
      ++ahead;
    }
  }
  to.set_behind_count(behind);
  to.set_ahead_count(ahead);
  to.set_unchanged_count(static_cast<int>(sent.seats.size()) - behind - ahead);
  return to;
}

}  // namespace rowproof::rpc
