#include "services/usecases/accounts.h"

#include <nlohmann/json.hpp>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"
#include "services/usecases/calibrations.h"
#include "services/usecases/transactions.h"
#include "storage/accounts.h"
#include "storage/calibrations.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

Target Myself(const char* type) { return {type, "", {}, {}, storage::RootLock::kAccount}; }

access::TokenRecord TokenFor(Application& application, const std::string& label, int days,
                             Moment now) {
  return {{application.identifiers.NewIdentifier()},
          label,
          now,
          now + std::chrono::hours(24 * days),
          std::nullopt};
}

// Their titles, and the names of their revisions.
nlohmann::ordered_json CalibrationsOf(storage::Transaction& transaction, const AccountId& owner) {
  nlohmann::ordered_json listed = nlohmann::ordered_json::array();
  for (const auto& row : storage::ListCalibrations(transaction, owner, {}, std::nullopt, {},
                                                   estimate::kMostKeptCalibrations)) {
    nlohmann::ordered_json revisions = nlohmann::ordered_json::array();
    for (int number = 1; number <= row.revision_count; ++number) {
      revisions.push_back(ToString(RevisionName{row.id, number}));
    }
    listed.push_back({{"calibration", ToString(CalibrationName{row.id})},
                      {"title", row.title},
                      {"measured_in", estimate::InWords(row.scope)},
                      {"revisions", std::move(revisions)}});
  }
  return listed;
}

}  // namespace

absl::Status ValidateDisplayName(const std::string& field, const std::string& name) {
  return ValidateName(field, name, kLongestDisplayName);
}

absl::Status ValidateMailAddress(const std::string& field, const std::string& address) {
  RETURN_IF_ERROR(ValidateText(field, address, kLongestMailAddress, false));
  if (address.empty() || IsMailAddress(address)) return absl::OkStatus();
  return InvalidField(field, address, "an address such as name@example.org, or empty");
}

absl::StatusOr<access::AccountRecord> GetMyAccount(Application& application,
                                                   RequestContext& context) {
  access::AccountRecord account;
  auto status = InSnapshot(application, context, Myself("account"),
                           [&](storage::Transaction& transaction, const storage::Admission& who) {
                             account = storage::NamedRecord(
                                 storage::LoadAccount(transaction, who.standing.account), "account",
                                 ToString(AccountName{who.standing.account}));
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  return account;
}

absl::StatusOr<access::AccountRecord> UpdateMyAccount(
    Application& application, RequestContext& context,
    const std::optional<std::string>& display_name,
    const std::optional<std::string>& mail_address) {
  if (display_name.has_value()) {
    RETURN_IF_ERROR(ValidateDisplayName("display_name", *display_name));
  }
  if (mail_address.has_value()) {
    RETURN_IF_ERROR(ValidateMailAddress("mail_address", *mail_address));
  }
  access::AccountRecord account;
  auto status = InTransaction(
      application, context, Myself("account"),
      [&](storage::Transaction& transaction, const storage::Admission& who) {
        account = storage::NamedRecord(storage::LoadAccount(transaction, who.standing.account),
                                       "account", ToString(AccountName{who.standing.account}));
        account.display_name = display_name.value_or(account.display_name);
        account.mail_address = mail_address.value_or(account.mail_address);
        storage::UpdatePerson(transaction, account.id, account.display_name, account.mail_address);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return account;
}

absl::StatusOr<NewToken> CreateToken(Application& application, RequestContext& context,
                                     const std::string& label, int valid_days) {
  RETURN_IF_ERROR(ValidateName("label", label, kLongestTokenLabel));
  if (valid_days < 0 || valid_days > kMostTokenDays) {
    return InvalidField("valid_days", std::to_string(valid_days),
                        fmt::format("1 to {} days, or 0 for {}", kMostTokenDays, kUsualTokenDays));
  }
  const int days = valid_days == 0 ? kUsualTokenDays : valid_days;
  NewToken made;
  made.secret = application.identifiers.NewSecret();
  auto status = InTransaction(
      application, context, Myself("token"),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        made.account = who.standing.account;
        if (who.earlier_result.has_value()) {
          const TokenId earlier{*who.earlier_result};
          if (!storage::ReplaceSecret(transaction, made.account, earlier, Sha256Of(made.secret))) {
            return WrongState(
                "TOKEN_REVOKED", "token",
                "The token that this request created has since been revoked; create another.");
          }
          transaction.CommitWhenRepeated();
          made.token = storage::NamedRecord(storage::LoadToken(transaction, made.account, earlier),
                                            "token", ToString(AccountName{made.account}));
          return absl::OkStatus();
        }
        if (storage::CountValidTokens(transaction, made.account, transaction.now()) >=
            kMostValidTokens) {
          return OverLimit("one more valid token",
                           fmt::format("{} per account; revoke one first", kMostValidTokens));
        }
        made.token = TokenFor(application, label, days, transaction.now());
        storage::InsertToken(transaction, made.account, made.token, Sha256Of(made.secret));
        transaction.SetResult(made.token.id.value);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return made;
}

absl::StatusOr<NewToken> GetToken(Application& application, RequestContext& context,
                                  const TokenName& name) {
  NewToken read;
  auto status = InSnapshot(
      application, context, Myself("token"),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        read.account = who.standing.account;
        if (name.account != read.account) return NotFound("token", ToString(name));
        const auto row = storage::LoadToken(transaction, name.account, name.token);
        if (!row.has_value()) return NotFound("token", ToString(name));
        read.token = *row;
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return read;
}

absl::StatusOr<TokenPage> ListTokens(Application& application, RequestContext& context,
                                     std::optional<Moment> before, const TokenId& before_id,
                                     int limit) {
  TokenPage page;
  auto status = InSnapshot(application, context, Myself("token"),
                           [&](storage::Transaction& transaction, const storage::Admission& who) {
                             page.account = who.standing.account;
                             page.tokens = storage::ListTokens(transaction, page.account, before,
                                                               before_id, limit + 1);
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  page.more = page.tokens.size() > static_cast<size_t>(limit);
  if (page.more) page.tokens.pop_back();
  return page;
}

absl::StatusOr<NewToken> RevokeToken(Application& application, RequestContext& context,
                                     const AccountId& account, const TokenId& token,
                                     const std::string& name) {
  NewToken revoked;
  auto status = InTransaction(
      application, context, Myself("token"),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        revoked.account = who.standing.account;
        if (account != revoked.account) return NotFound("token", name);
        storage::RevokeToken(transaction, account, token, transaction.now());
        const auto row = storage::LoadToken(transaction, account, token);
        if (!row.has_value()) return NotFound("token", name);
        revoked.token = *row;
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return revoked;
}

absl::StatusOr<std::string> ExportPersonalData(Application& application, RequestContext& context) {
  nlohmann::ordered_json document;
  const auto body = [&](storage::Transaction& transaction,
                        const storage::Admission& who) -> absl::Status {
    const AccountId& id = who.standing.account;
    const auto account = storage::LoadAccount(transaction, id);
    if (!account.has_value()) return NotFound("account", ToString(AccountName{id}));
    document = {{"account", ToString(AccountName{id})},
                {"display_name", account->display_name},
                {"mail_address", account->mail_address},
                {"created_at_unix_micros", Micros(account->created_at)}};
    document["patterns"] = nlohmann::ordered_json::array();
    document["seats"] = nlohmann::ordered_json::array();
    for (const auto& row : storage::ListMemberships(transaction, id)) {
      if (row.seat.empty()) {
        document["patterns"].push_back(ToString(PatternName{row.pattern}));
        continue;
      }
      const SeatName seat{row.pattern, row.call, row.seat};
      nlohmann::ordered_json reports = nlohmann::ordered_json::array();
      for (int number = 1; number <= row.report_count; ++number) {
        reports.push_back(ToString(ReportName{row.pattern, row.call, row.seat, number}));
      }
      document["seats"].push_back({{"seat", ToString(seat)}, {"reports", std::move(reports)}});
    }
    document["calibrations"] = CalibrationsOf(transaction, id);
    document["note"] =
        "The service holds nothing else about you as a person than your name and mail address. "
        "Erasing them deletes your calibrations and keeps patterns, versions, reports and errata "
        "under the account's random id. GetReport returns each whole report, "
        "GetCalibrationRevision each revision of a calibration with its measurements.";
    return absl::OkStatus();
  };
  RETURN_IF_ERROR(InSnapshot(application, context, Myself("account"), body));
  return document.dump(2);
}

absl::Status ErasePersonalData(Application& application, RequestContext& context,
                               const std::string& name) {
  return InTransaction(
      application, context, Myself("account"),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        const std::string own = ToString(AccountName{who.standing.account});
        if (name != own) return InvalidField("name", name, "your own account, " + own);
        storage::EraseAccount(transaction, who.standing.account, transaction.now());
        return absl::OkStatus();
      });
}

FirstToken InsertAccountWithToken(Application& application, storage::Transaction& transaction,
                                  const access::AccountRecord& account, const std::string& label) {
  const access::TokenRecord token =
      TokenFor(application, label, kUsualTokenDays, transaction.now());
  FirstToken first{token.id, application.identifiers.NewSecret()};
  storage::InsertAccount(transaction, account);
  storage::InsertToken(transaction, account.id, token, Sha256Of(first.secret));
  return first;
}

absl::StatusOr<NewToken> CreateDesigner(Application& application, const std::string& display_name,
                                        const std::string& mail_address) {
  RETURN_IF_ERROR(ValidateDisplayName("display_name", display_name));
  RETURN_IF_ERROR(ValidateMailAddress("mail_address", mail_address));
  NewToken made;
  made.account.value = application.identifiers.NewIdentifier();
  const auto deadline = std::chrono::steady_clock::now() + std::chrono::seconds(10);
  auto status = application.database.Write(
      "admin.CreateDesigner", deadline, storage::TransactionScope{},
      [&](storage::Transaction& transaction, const storage::Admission&) {
        made.secret =
            InsertAccountWithToken(
                application, transaction,
                {made.account, true, display_name, mail_address, transaction.now()}, "first")
                .secret;
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return made;
}

absl::Status AllowPatterns(Application& application, const AccountName& account) {
  const auto deadline = std::chrono::steady_clock::now() + std::chrono::seconds(10);
  return application.database.Write(
      "admin.AllowPatterns", deadline, storage::TransactionScope{},
      [&](storage::Transaction& transaction, const storage::Admission&) {
        return storage::AllowPatterns(transaction, account.account)
                   ? absl::OkStatus()
                   : NotFound("account", ToString(account));
      });
}

}  // namespace rowproof::usecases
