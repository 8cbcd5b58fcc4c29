#include "services/usecases/editors.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"
#include "services/usecases/transactions.h"
#include "storage/accounts.h"
#include "storage/editors.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

Target EditorTarget(const EditorName& name, storage::RootLock lock) {
  return {"editor", ToString(name), name.pattern, {}, lock};
}

absl::StatusOr<access::EditorRecord> Load(storage::Transaction& transaction,
                                          const EditorName& name) {
  auto row = storage::LoadEditor(transaction, name.pattern, name.editor);
  if (!row.has_value()) return NotFound("editor", ToString(name));
  return *std::move(row);
}

// A pattern is not edited by its own designer, nor tested by who reads the other testers' reports.
absl::Status MayEdit(storage::Transaction& transaction, const AccountId& account,
                     const PatternId& pattern, const std::string& name) {
  for (const access::MembershipRecord& is : storage::ListMemberships(transaction, account)) {
    if (is.pattern != pattern) continue;
    switch (is.role) {
      case access::Role::kDesigner:
        return WrongState("OWN_PATTERN", name,
                          "You design this pattern, so you can read it already.");
      case access::Role::kTester:
        return WrongState("TESTS_PATTERN", name,
                          "You test this pattern, so you cannot be its editor.");
      case access::Role::kEditor:
        return WrongState("EDITS_PATTERN", name, "You are already an editor of this pattern.");
    }
  }
  return absl::OkStatus();
}

// The invitation that a request made before, with a new token.
absl::Status InviteAgain(storage::Transaction& transaction, const EditorName& name,
                         NewEditor* made) {
  if (!storage::ReplaceEditorInvitation(transaction, name.pattern, name.editor,
                                        Sha256Of(made->invitation))) {
    return WrongState("EDITOR_STATE", ToString(name),
                      "The invitation that this request created has since been accepted or "
                      "withdrawn; create another.");
  }
  transaction.CommitWhenRepeated();
  ASSIGN_OR_RETURN(made->editor.row, Load(transaction, name));
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<NewEditor> CreateEditor(Application& application, RequestContext& context,
                                       const PatternId& pattern, const std::string& label,
                                       int valid_days) {
  RETURN_IF_ERROR(ValidateText("label", label, kLongestEditorLabel, false));
  if (valid_days < 0 || valid_days > kMostInvitationDays) {
    return InvalidField(
        "valid_days", std::to_string(valid_days),
        fmt::format("1 to {} days, or 0 for {}", kMostInvitationDays, kMostInvitationDays));
  }
  const int days = valid_days == 0 ? kMostInvitationDays : valid_days;
  NewEditor made;
  made.invitation = application.identifiers.NewSecret();
  auto status = InTransaction(
      application, context, PatternTarget(pattern, storage::RootLock::kPattern),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        made.editor.now = transaction.now();
        if (who.earlier_result.has_value()) {
          return InviteAgain(transaction, {pattern, {*who.earlier_result}}, &made);
        }
        if (storage::CountEditors(transaction, pattern, transaction.now()) >= kMostEditors) {
          return OverLimit("one more editor", fmt::format("{} per pattern", kMostEditors));
        }
        access::EditorRecord row;
        row.pattern = pattern;
        row.id.value = application.identifiers.NewIdentifier();
        row.label = label;
        row.created_at = transaction.now();
        row.expires_at = transaction.now() + std::chrono::hours(24 * days);
        storage::InsertEditor(transaction, row, Sha256Of(made.invitation));
        transaction.SetResult(row.id.value);
        made.editor.row = std::move(row);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return made;
}

absl::StatusOr<AcceptedEditor> AcceptEditorInvitation(Application& application,
                                                      RequestContext& context,
                                                      const std::string& invitation,
                                                      const Joiner& joiner) {
  const bool has_token = context.token_sha256.has_value();
  RETURN_IF_ERROR(ValidateJoiner(joiner, has_token));
  if (invitation.empty()) return MissingField("invitation", "the token in your invitation");
  if (invitation.size() > kLongestInvitation) return InvitationNotFound();
  const Sha256 invitation_sha256 = Sha256Of(invitation);
  // Keeps the account from being erased while it becomes an editor.
  const auto lock = has_token ? storage::RootLock::kAccount : storage::RootLock::kNone;
  AcceptedEditor accepted;
  auto status = InTransaction(
      application, context, {"invitation", "", {}, {}, lock},
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        const AccountId& account = who.standing.account;
        // Never a second account because a token has expired.
        if (has_token && account.empty()) return NotSignedIn();
        auto invited = storage::LockInvitedEditor(transaction, invitation_sha256);
        if (!invited.has_value()) return InvitationNotFound();
        accepted = {{*std::move(invited), transaction.now()}, ""};
        access::EditorRecord& row = accepted.editor.row;
        row.label.clear();
        const std::string name = ToString(EditorName{row.pattern, row.id});
        if (who.earlier_result.has_value()) {
          row = storage::NamedRecord(storage::LoadEditor(transaction, row.pattern, row.id),
                                     "editor", name);
          row.label.clear();
          return has_token ? absl::OkStatus()
                           : ReplaceFirstToken(application, transaction, row.account,
                                               *who.earlier_result, name, &accepted.secret);
        }
        if (row.accepted_at.has_value() || row.expires_at <= transaction.now()) {
          return InvitationNotFound();
        }
        RETURN_IF_ERROR(MayEdit(transaction, account, row.pattern, name));
        Joined joined = Join(application, transaction, account, joiner, name);
        row.account = std::move(joined.account);
        row.display_name = std::move(joined.display_name);
        row.accepted_at = transaction.now();
        accepted.secret = std::move(joined.secret);
        storage::AcceptEditor(transaction, row);
        transaction.SetPattern(row.pattern);
        transaction.SetResult(joined.result);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return accepted;
}

absl::StatusOr<ReadEditor> GetEditor(Application& application, RequestContext& context,
                                     const EditorName& name) {
  ReadEditor read;
  auto status =
      InSnapshot(application, context, EditorTarget(name, storage::RootLock::kNone),
                 [&](storage::Transaction& transaction, const storage::Admission&) -> absl::Status {
                   ASSIGN_OR_RETURN(read.row, Load(transaction, name));
                   read.now = transaction.now();
                   return absl::OkStatus();
                 });
  if (!status.ok()) return status;
  return read;
}

absl::StatusOr<EditorPage> ListEditors(Application& application, RequestContext& context,
                                       const PatternId& pattern, std::optional<Moment> after,
                                       const EditorId& after_id, int limit) {
  EditorPage page;
  auto status = InSnapshot(
      application, context, PatternTarget(pattern),
      [&](storage::Transaction& transaction, const storage::Admission&) {
        for (auto& row : storage::ListEditors(transaction, pattern, after, after_id, limit + 1)) {
          page.editors.push_back({std::move(row), transaction.now()});
        }
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  page.more = page.editors.size() > static_cast<size_t>(limit);
  if (page.more) page.editors.pop_back();
  return page;
}

absl::Status DeleteEditor(Application& application, RequestContext& context,
                          const EditorName& name) {
  return InTransaction(
      application, context, EditorTarget(name, storage::RootLock::kPattern),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) return absl::OkStatus();
        if (!storage::DeleteEditor(transaction, name.pattern, name.editor)) {
          return NotFound("editor", ToString(name));
        }
        return absl::OkStatus();
      });
}

}  // namespace rowproof::usecases
