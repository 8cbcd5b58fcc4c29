#include "services/usecases/patterns.h"

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/text.h"
#include "services/usecases/accounts.h"
#include "storage/accounts.h"

namespace rowproof::usecases {
namespace {

absl::Status ValidateTitle(const std::string& title) {
  if (title.empty()) {
    return MissingField("title", fmt::format("1 to {} bytes long", patterns::kLongestTitle));
  }
  return ValidateText("title", title, patterns::kLongestTitle, false);
}

}  // namespace

Target PatternTarget(const PatternId& pattern, storage::Door::Lock lock) {
  return {"pattern", ToString(PatternName{pattern}), pattern, {}, lock};
}

absl::StatusOr<storage::PatternRow> CreatePattern(Application& application, RequestContext& context,
                                                  const std::string& title) {
  if (auto status = ValidateTitle(title); !status.ok()) return status;
  storage::PatternRow pattern;
  auto status =
      Write(application, context, {"pattern", "", {}, {}, storage::Door::Lock::kAccount},
            [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
              if (who.earlier_result.has_value()) {
                pattern = storage::LoadPattern(transaction, {*who.earlier_result}).value();
                return absl::OkStatus();
              }
              pattern = {{application.identifiers.NewIdentifier()},
                         title,
                         who.standing.account,
                         0,
                         1,
                         transaction.now()};
              storage::InsertPattern(transaction, pattern);
              transaction.SetResult(pattern.id.value);
              return absl::OkStatus();
            });
  if (!status.ok()) return status;
  return pattern;
}

absl::StatusOr<storage::PatternRow> GetPattern(Application& application, RequestContext& context,
                                               const PatternId& pattern) {
  storage::PatternRow row;
  auto status = Read(application, context, PatternTarget(pattern),
                     [&](storage::Transaction&, const storage::Admission& who) {
                       row = *who.pattern;
                       return absl::OkStatus();
                     });
  if (!status.ok()) return status;
  return row;
}

absl::StatusOr<PatternPage> ListPatterns(Application& application, RequestContext& context,
                                         std::optional<Moment> before, const PatternId& before_id,
                                         int limit) {
  PatternPage page;
  auto status = Read(application, context, {"pattern", "", {}, {}},
                     [&](storage::Transaction& transaction, const storage::Admission& who) {
                       page.patterns = storage::ListPatterns(transaction, who.standing.account,
                                                             before, before_id, limit + 1);
                       return absl::OkStatus();
                     });
  if (!status.ok()) return status;
  page.more = page.patterns.size() > static_cast<size_t>(limit);
  if (page.more) page.patterns.pop_back();
  return page;
}

absl::StatusOr<storage::PatternRow> UpdatePattern(Application& application, RequestContext& context,
                                                  const PatternId& pattern,
                                                  const std::string& title,
                                                  std::optional<int> revision) {
  if (auto status = ValidateTitle(title); !status.ok()) return status;
  const Target target = PatternTarget(pattern, storage::Door::Lock::kPattern);
  storage::PatternRow row;
  auto status =
      Write(application, context, target,
            [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
              if (revision.has_value() && *revision != who.pattern->revision) {
                return StaleEtag(target.name);
              }
              storage::UpdatePatternTitle(transaction, pattern, title);
              row = *who.pattern;
              row.title = title;
              ++row.revision;
              return absl::OkStatus();
            });
  if (!status.ok()) return status;
  return row;
}

absl::StatusOr<NewEditor> CreateEditor(Application& application, RequestContext& context,
                                       const PatternId& pattern, const std::string& display_name) {
  if (auto status = ValidateDisplayName("display_name", display_name); !status.ok()) return status;
  NewEditor made;
  made.editor.display_name = display_name;
  auto status = Write(
      application, context, PatternTarget(pattern, storage::Door::Lock::kPattern),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) {
          made.editor.account.value = *who.earlier_result;
          const auto tokens =
              storage::ListTokens(transaction, made.editor.account, std::nullopt, {}, 1);
          made.secret = application.identifiers.NewSecret();
          if (tokens.empty() || !storage::ReplaceSecret(transaction, made.editor.account,
                                                        tokens.front().id, Sha256Of(made.secret))) {
            return WrongState(
                "TOKEN_REVOKED", "editor",
                "The editor's first token has since been revoked; invite the editor again.");
          }
          transaction.KeepRepeat();
          return absl::OkStatus();
        }
        if (storage::ListEditors(transaction, pattern).size() >=
            static_cast<size_t>(kMostEditors)) {
          return OverLimit("one more editor", fmt::format("{} per pattern", kMostEditors));
        }
        made.editor.account.value = application.identifiers.NewIdentifier();
        made.secret = InsertAccountWithToken(application, transaction,
                                             {made.editor.account, access::AccountKind::kEditor,
                                              display_name, "", transaction.now()},
                                             "first");
        storage::InsertEditor(transaction, pattern, made.editor.account);
        transaction.SetResult(made.editor.account.value);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return made;
}

absl::Status DeleteEditor(Application& application, RequestContext& context,
                          const PatternId& pattern, const AccountId& editor) {
  return Write(application, context, PatternTarget(pattern, storage::Door::Lock::kPattern),
               [&](storage::Transaction& transaction, const storage::Admission&) {
                 storage::DeleteEditor(transaction, pattern, editor);
                 return absl::OkStatus();
               });
}

absl::StatusOr<std::vector<storage::EditorRow>> ListEditors(Application& application,
                                                            RequestContext& context,
                                                            const PatternId& pattern) {
  std::vector<storage::EditorRow> editors;
  auto status = Read(application, context, PatternTarget(pattern),
                     [&](storage::Transaction& transaction, const storage::Admission&) {
                       editors = storage::ListEditors(transaction, pattern);
                       return absl::OkStatus();
                     });
  if (!status.ok()) return status;
  return editors;
}

}  // namespace rowproof::usecases
