#include "services/usecases/calls/take_seat.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/usecases/joining.h"
#include "services/usecases/transactions.h"
#include "storage/accounts.h"
#include "storage/seats.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

// Who reads or decides on a pattern's reports does not test it; and one account has one seat in a
// call.
absl::Status MayTake(storage::Transaction& transaction, const AccountId& account,
                     const testcalls::SeatRecord& seat, const std::string& name) {
  for (const access::MembershipRecord& is : storage::ListMemberships(transaction, account)) {
    if (is.pattern != seat.pattern) continue;
    if (is.role != access::Role::kTester) {
      return WrongState("OWN_PATTERN", name, "You cannot test a pattern that you design or edit.");
    }
    if (is.call == seat.call) {
      return WrongState(
          "SEAT_HELD", name,
          fmt::format("Your account has or had a seat in this call, and gets one only: {}.",
                      SeatTarget(is.pattern, is.call, is.seat).name));
    }
  }
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<TakenSeat> TakeSeat(Application& application, RequestContext& context,
                                   const std::string& invitation, const std::string& display_name,
                                   const std::string& mail_address) {
  const bool has_token = context.token_sha256.has_value();
  const Joiner joiner{display_name, mail_address};
  RETURN_IF_ERROR(ValidateJoiner(joiner, has_token));
  if (invitation.empty()) return MissingField("invitation", "the token in your invitation");
  if (invitation.size() > kLongestInvitation) return InvitationNotFound();
  const Sha256 invitation_sha256 = Sha256Of(invitation);
  // Keeps the account from being erased while it takes a seat.
  const auto lock = has_token ? storage::RootLock::kAccount : storage::RootLock::kNone;
  TakenSeat taken;
  auto status = InTransaction(
      application, context, {"invitation", "", {}, {}, lock},
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        const AccountId& account = who.standing.account;
        // Never a second account because a token has expired.
        if (has_token && account.empty()) return NotSignedIn();
        auto invited = storage::LockInvitedSeat(transaction, invitation_sha256);
        if (!invited.has_value()) return InvitationNotFound();
        taken = {};
        taken.seat = std::move(invited->seat);
        const std::string name =
            SeatTarget(taken.seat.pattern, taken.seat.call, taken.seat.id).name;
        taken.seat.display_name = display_name;
        if (has_token) {
          taken.seat.display_name = storage::NamedRecord(storage::LoadAccount(transaction, account),
                                                         "account", ToString(AccountName{account}))
                                        .display_name;
        }
        if (who.earlier_result.has_value()) {
          return has_token ? absl::OkStatus()
                           : ReplaceFirstToken(application, transaction, taken.seat.account,
                                               *who.earlier_result, name, &taken.secret);
        }
        if (taken.seat.state != testcalls::SeatState::kOffered) return InvitationNotFound();
        ASSIGN_OR_RETURN(auto next,
                         testcalls::TakeSeat(invited->call_state, taken.seat.state, name));
        RETURN_IF_ERROR(MayTake(transaction, account, taken.seat, name));
        taken.seat.state = next;
        taken.seat.taken_at = transaction.now();
        Joined joined = Join(application, transaction, account, joiner, name);
        taken.seat.account = std::move(joined.account);
        taken.secret = std::move(joined.secret);
        storage::TakeSeat(transaction, taken.seat);
        transaction.SetPattern(taken.seat.pattern);
        transaction.SetResult(joined.result);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return taken;
}

}  // namespace rowproof::usecases
