#include "services/usecases/submit_version.h"

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/patterns/canonical.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"
#include "services/usecases/calibrations.h"
#include "services/usecases/compare_text.h"
#include "services/usecases/patterns.h"
#include "services/usecases/read_version.h"
#include "services/usecases/transactions.h"
#include "storage/patterns.h"

namespace rowproof::usecases {
namespace {

// If the chart cannot be written as rows, the version is a draft with other errors, and its text
// has nothing to be compared with.
absl::Status CompareOwnText(const patterns::VersionContent& content, const Stop& stop,
                            patterns::VersionRecord& row) {
  if (content.designer_text.empty()) return absl::OkStatus();
  auto comparison = CompareText(content, stop);
  if (absl::IsFailedPrecondition(comparison.status()) && !row.check.workable()) {
    return absl::OkStatus();
  }
  if (!comparison.ok()) return UnderField(comparison.status(), "content.designer_text");
  row.comparison_version = rows::kComparisonVersion;
  row.comparison = std::move(*comparison);
  return absl::OkStatus();
}

// Everything that can be known before the database is asked.
absl::StatusOr<SubmittedVersion> Judge(VersionSubmission& submission, const Stop& stop) {
  SubmittedVersion submitted;
  auto read = Read(submission.source, stop);
  if (!read.ok()) return UnderField(read.status(), "content");
  submission.content.design = std::move(read->design);
  submitted.swap_colours_offered = read->swap_colours_offered;
  if (auto status = patterns::Validate(submission.content); !status.ok()) {
    return UnderField(status, "content");
  }
  patterns::VersionRecord& row = submitted.version.row;
  row.pattern = submission.pattern;
  row.note = submission.note;
  row.rules_version = chart::kRulesVersion;
  row.check = chart::Check(submission.content.design, {}, stop);
  RETURN_IF_ERROR(CompareOwnText(submission.content, stop, row));
  row.model_version = estimate::kModelVersion;
  auto estimates = estimate::EstimateSizes(submission.content.design, submission.content.materials);
  if (!estimates.ok()) return UnderField(estimates.status(), "content.materials");
  row.estimates = std::move(*estimates);
  row.content = patterns::Encode(submission.content);
  row.content_hash = Sha256Of(row.content);
  submitted.version.content = std::move(submission.content);
  if (stop.Now()) return stop.status();
  return submitted;
}

// What is known only inside: the pattern's own title, if the version names none, and the
// calibration that its materials name (`calibrated`: whether there is one).
absl::Status LookUp(Application& application, RequestContext& context,
                    VersionSubmission* submission, absl::Status* calibrated) {
  const bool has_title = !submission->content.title.empty();
  if (has_title && !submission->calibration.has_value()) return absl::OkStatus();
  return InSnapshot(application, context, PatternTarget(submission->pattern),
                    [&](storage::Transaction& transaction, const storage::Admission& who) {
                      if (!has_title) submission->content.title = who.pattern->title;
                      if (submission->calibration.has_value()) {
                        *calibrated = UseChosen(transaction, who.standing, *submission->calibration,
                                                &submission->content.materials);
                      }
                      return absl::OkStatus();
                    });
}

}  // namespace

absl::StatusOr<SubmittedVersion> SubmitVersion(Application& application, RequestContext& context,
                                               VersionSubmission submission) {
  RETURN_IF_ERROR(RequireToken(context));
  RETURN_IF_ERROR(ValidateText("note", submission.note, kLongestVersionNote, true));
  const bool validate_only = submission.validate_only;
  const int parent = submission.parent_number;
  const PatternId pattern = submission.pattern;
  absl::Status calibrated;
  RETURN_IF_ERROR(LookUp(application, context, &submission, &calibrated));
  // A repeated request finds its version even if the calibration has since been deleted.
  if (!calibrated.ok() && (validate_only || context.request_id.empty())) return calibrated;
  auto judged = calibrated.ok() ? Judge(submission, context.stop) : SubmittedVersion();
  if (!judged.ok()) return judged.status();
  patterns::VersionRecord& version = judged->version.row;
  const auto number_it = [&](const storage::Admission& who) -> absl::Status {
    RETURN_IF_ERROR(RequireNotArchived(*who.pattern));
    if (parent > who.pattern->version_count) {
      return InvalidField(
          "parent_version", PatternTarget(pattern).name + "/versions/" + std::to_string(parent),
          fmt::format("one of the pattern's {} versions", who.pattern->version_count));
    }
    version.number = who.pattern->version_count + 1;
    version.parent_number = parent == 0 ? who.pattern->version_count : parent;
    version.author = who.standing.account;
    return absl::OkStatus();
  };
  if (validate_only) {
    auto status = InSnapshot(
        application, context, PatternTarget(pattern),
        [&](storage::Transaction&, const storage::Admission& who) { return number_it(who); });
    if (!status.ok()) return status;
    version.created_at = application.clock.Now();
    return judged;
  }
  auto status = InTransaction(
      application, context, PatternTarget(pattern, storage::RootLock::kByStatement),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) {
          ASSIGN_OR_RETURN(auto earlier, LoadVisibleVersion(transaction, who.standing, pattern,
                                                            who.earlier_number()));
          judged->version = std::move(earlier);
          return absl::OkStatus();
        }
        if (!calibrated.ok()) return calibrated;
        RETURN_IF_ERROR(number_it(who));
        version.created_at = transaction.now();
        storage::InsertVersion(transaction, version);
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  return judged;
}

}  // namespace rowproof::usecases
