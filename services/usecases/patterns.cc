#include "services/usecases/patterns.h"

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"
#include "services/usecases/accounts.h"
#include "services/usecases/transactions.h"
#include "storage/patterns.h"
#include "storage/unreadable_value.h"

namespace rowproof::usecases {
namespace {

absl::Status ValidateTitle(const std::string& title) {
  return ValidateName("title", title, patterns::kLongestTitle);
}

// Runs `change` on the pattern, whose revision is `revision` if one is given, unless it is so
// already.
template <typename IsSo, typename Change>
absl::StatusOr<patterns::PatternRecord> ChangePattern(Application& application,
                                                      RequestContext& context,
                                                      const PatternId& pattern,
                                                      std::optional<int> revision,
                                                      const IsSo& is_so, const Change& change) {
  const Target target = PatternTarget(pattern, storage::RootLock::kPattern);
  patterns::PatternRecord row;
  auto status = InTransaction(
      application, context, target,
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        row = *who.pattern;
        if (is_so(row, who)) return absl::OkStatus();
        if (revision.has_value() && *revision != row.revision) return StaleEtag(target.name);
        change(transaction, row);
        ++row.revision;
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return row;
}

}  // namespace

absl::StatusOr<patterns::PatternRecord> CreatePattern(Application& application,
                                                      RequestContext& context,
                                                      const std::string& title) {
  RETURN_IF_ERROR(ValidateTitle(title));
  patterns::PatternRecord pattern;
  auto status = InTransaction(
      application, context, {"pattern", "", {}, {}, storage::RootLock::kAccount},
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) {
          pattern = storage::NamedRecord(storage::LoadPattern(transaction, {*who.earlier_result}),
                                         "pattern", ToString(PatternName{{*who.earlier_result}}));
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

absl::StatusOr<patterns::PatternRecord> GetPattern(Application& application,
                                                   RequestContext& context,
                                                   const PatternId& pattern) {
  patterns::PatternRecord row;
  auto status = InSnapshot(application, context, PatternTarget(pattern),
                           [&](storage::Transaction&, const storage::Admission& who) {
                             row = *who.pattern;
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  return row;
}

absl::StatusOr<PatternPage> ListPatterns(Application& application, RequestContext& context,
                                         bool archived_too, std::optional<Moment> before,
                                         const PatternId& before_id, int limit) {
  PatternPage page;
  auto status = InSnapshot(application, context, {"pattern", "", {}, {}},
                           [&](storage::Transaction& transaction, const storage::Admission& who) {
                             page.patterns =
                                 storage::ListPatterns(transaction, who.standing.account,
                                                       archived_too, before, before_id, limit + 1);
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  page.more = page.patterns.size() > static_cast<size_t>(limit);
  if (page.more) page.patterns.pop_back();
  return page;
}

absl::StatusOr<patterns::PatternRecord> UpdatePattern(Application& application,
                                                      RequestContext& context,
                                                      const PatternId& pattern,
                                                      const std::string& title,
                                                      std::optional<int> revision) {
  RETURN_IF_ERROR(ValidateTitle(title));
  return ChangePattern(
      application, context, pattern, revision,
      [](const auto&, const storage::Admission& who) { return who.earlier_result.has_value(); },
      [&](storage::Transaction& transaction, patterns::PatternRecord& row) {
        storage::UpdatePatternTitle(transaction, pattern, title);
        row.title = title;
      });
}

absl::Status RequireNotArchived(const patterns::PatternRecord& pattern) {
  if (!pattern.archived_at.has_value()) return absl::OkStatus();
  return WrongState("PATTERN_ARCHIVED", ToString(PatternName{pattern.id}),
                    "The pattern is archived; unarchive it first.");
}

absl::StatusOr<patterns::PatternRecord> ArchivePattern(Application& application,
                                                       RequestContext& context,
                                                       const PatternId& pattern, bool archived,
                                                       std::optional<int> revision) {
  return ChangePattern(
      application, context, pattern, revision,
      [archived](const patterns::PatternRecord& row, const auto&) {
        return row.archived_at.has_value() == archived;
      },
      [&](storage::Transaction& transaction, patterns::PatternRecord& row) {
        row.archived_at.reset();
        if (archived) row.archived_at = transaction.now();
        storage::ArchivePattern(transaction, pattern, row.archived_at);
      });
}

}  // namespace rowproof::usecases
