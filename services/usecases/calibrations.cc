#include "services/usecases/calibrations.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"
#include "services/usecases/transactions.h"
#include "storage/calibrations.h"

namespace rowproof::usecases {
namespace {

constexpr char kType[] = "calibration";

std::string NameOf(const CalibrationId& id) { return ToString(CalibrationName{id}); }

Target Mine(const std::string& name, storage::RootLock lock = storage::RootLock::kNone) {
  return {kType, name, {}, {}, lock};
}

Target OwnersWrite(const CalibrationId& id) {
  return Mine(NameOf(id), storage::RootLock::kAccount);
}

absl::Status ValidateTitle(const std::string& title) {
  return ValidateName("title", title, kLongestCalibrationTitle);
}

absl::Status CheckEtag(const estimate::CalibrationRecord& row, std::optional<int> change_count) {
  const bool stale = change_count.has_value() && *change_count != row.change_count;
  return stale ? StaleEtag(NameOf(row.id)) : absl::OkStatus();
}

absl::StatusOr<estimate::CalibrationRecord> Load(storage::Transaction& transaction,
                                                 const access::Standing& standing,
                                                 const CalibrationId& id, const std::string& name) {
  auto row = storage::LoadCalibration(transaction, standing.account, id);
  if (!row.has_value()) return NotFound(kType, name);
  return *std::move(row);
}

absl::StatusOr<ReadRevision> LoadWhole(storage::Transaction& transaction,
                                       const estimate::CalibrationRecord& calibration, int number) {
  auto row = storage::LoadRevision(transaction, calibration.id, number);
  if (!row.has_value()) return NotFound(kType, ToString(RevisionName{calibration.id, number}));
  return ReadRevision{calibration.id, calibration.scope, *std::move(row),
                      storage::LoadMeasurements(transaction, calibration.id, number)};
}

absl::StatusOr<ReadCalibration> LoadWithNewest(storage::Transaction& transaction,
                                               const access::Standing& standing,
                                               const CalibrationId& id) {
  ASSIGN_OR_RETURN(auto row, Load(transaction, standing, id, NameOf(id)));
  ASSIGN_OR_RETURN(auto newest, LoadWhole(transaction, row, row.revision_count));
  return ReadCalibration{std::move(row), std::move(newest)};
}

estimate::RevisionRecord RevisionOf(int number, const std::string& note,
                                    estimate::Calibration calibration, Moment now) {
  return {number, now, note, estimate::kModelVersion, std::move(calibration)};
}

}  // namespace

absl::StatusOr<ReadCalibration> CreateCalibration(Application& application, RequestContext& context,
                                                  const NewCalibration& wanted) {
  RETURN_IF_ERROR(ValidateTitle(wanted.title));
  if (auto s = estimate::ValidateKept(wanted.scope); !s.ok()) return UnderField(s, "scope");
  ASSIGN_OR_RETURN(const auto posterior, estimate::Revise({}, wanted.first));
  absl::StatusOr<ReadCalibration> made = NotFound(kType, "");
  auto status = InTransaction(
      application, context, Mine("", storage::RootLock::kAccount),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) {
          made = LoadWithNewest(transaction, who.standing, {*who.earlier_result});
          return made.status();
        }
        if (storage::CountCalibrations(transaction, who.standing.account) >=
            estimate::kMostKeptCalibrations) {
          return OverLimit("one more calibration", fmt::format("{} per account; delete one first",
                                                               estimate::kMostKeptCalibrations));
        }
        estimate::CalibrationRecord row;
        row.id.value = application.identifiers.NewIdentifier();
        row.owner = who.standing.account;
        row.title = wanted.title;
        row.scope = wanted.scope;
        row.created_at = transaction.now();
        storage::InsertCalibration(transaction, row,
                                   RevisionOf(1, wanted.first.note, posterior, transaction.now()),
                                   wanted.first.added);
        transaction.SetResult(row.id.value);
        made = LoadWithNewest(transaction, who.standing, row.id);
        return made.status();
      });
  if (!status.ok()) return status;
  return made;
}

absl::StatusOr<ReadCalibration> GetCalibration(Application& application, RequestContext& context,
                                               const CalibrationId& id) {
  absl::StatusOr<ReadCalibration> read = NotFound(kType, "");
  auto status = InSnapshot(application, context, Mine(NameOf(id)),
                           [&](storage::Transaction& transaction, const storage::Admission& who) {
                             read = LoadWithNewest(transaction, who.standing, id);
                             return read.status();
                           });
  if (!status.ok()) return status;
  return read;
}

absl::StatusOr<CalibrationPage> ListCalibrations(Application& application, RequestContext& context,
                                                 const estimate::CalibrationFilter& filter,
                                                 std::optional<Moment> before,
                                                 const CalibrationId& before_id, int limit) {
  if (auto s = estimate::Validate(
          estimate::CalibrationScope{filter.technique, {}, {}, filter.weight_class});
      !s.ok()) {
    return s;
  }
  CalibrationPage page;
  auto status = InSnapshot(application, context, Mine(""),
                           [&](storage::Transaction& transaction, const storage::Admission& who) {
                             page.calibrations =
                                 storage::ListCalibrations(transaction, who.standing.account,
                                                           filter, before, before_id, limit + 1);
                             return absl::OkStatus();
                           });
  if (!status.ok()) return status;
  page.more = page.calibrations.size() > static_cast<size_t>(limit);
  if (page.more) page.calibrations.pop_back();
  return page;
}

absl::StatusOr<ReadCalibration> RenameCalibration(Application& application, RequestContext& context,
                                                  const CalibrationId& id, const std::string& title,
                                                  std::optional<int> change_count) {
  RETURN_IF_ERROR(ValidateTitle(title));
  absl::StatusOr<ReadCalibration> renamed = NotFound(kType, "");
  auto status = InTransaction(
      application, context, OwnersWrite(id),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (!who.earlier_result.has_value()) {
          ASSIGN_OR_RETURN(auto row, Load(transaction, who.standing, id, NameOf(id)));
          RETURN_IF_ERROR(CheckEtag(row, change_count));
          storage::UpdateCalibrationTitle(transaction, id, title);
        }
        renamed = LoadWithNewest(transaction, who.standing, id);
        return renamed.status();
      });
  if (!status.ok()) return status;
  return renamed;
}

absl::Status DeleteCalibration(Application& application, RequestContext& context,
                               const CalibrationId& id, std::optional<int> change_count) {
  return InTransaction(
      application, context, OwnersWrite(id),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        if (who.earlier_result.has_value()) return absl::OkStatus();
        ASSIGN_OR_RETURN(auto row, Load(transaction, who.standing, id, NameOf(id)));
        RETURN_IF_ERROR(CheckEtag(row, change_count));
        storage::DeleteCalibration(transaction, id);
        return absl::OkStatus();
      });
}

absl::StatusOr<ReadRevision> AppendRevision(Application& application, RequestContext& context,
                                            const CalibrationId& id,
                                            const estimate::RevisionChange& change,
                                            std::optional<int> change_count) {
  RETURN_IF_ERROR(estimate::Validate(change));
  absl::StatusOr<ReadRevision> made = NotFound(kType, "");
  auto status = InTransaction(
      application, context, OwnersWrite(id),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        ASSIGN_OR_RETURN(auto row, Load(transaction, who.standing, id, NameOf(id)));
        if (who.earlier_result.has_value()) {
          made = LoadWhole(transaction, row, who.earlier_number());
          return made.status();
        }
        RETURN_IF_ERROR(CheckEtag(row, change_count));
        if (row.revision_count >= estimate::kMostRevisions) {
          return OverLimit("one more revision",
                           fmt::format("{} per calibration", estimate::kMostRevisions));
        }
        const auto in_force = storage::LoadMeasurements(transaction, id, row.revision_count);
        ASSIGN_OR_RETURN(auto posterior, estimate::Revise(in_force, change));
        const int number = row.revision_count + 1;
        storage::AppendRevision(
            transaction, id,
            RevisionOf(number, change.note, std::move(posterior), transaction.now()), change);
        transaction.SetResult(std::to_string(number));
        made = LoadWhole(transaction, row, number);
        return made.status();
      });
  if (!status.ok()) return status;
  return made;
}

absl::StatusOr<ReadRevision> GetRevision(Application& application, RequestContext& context,
                                         const CalibrationId& id, int number) {
  absl::StatusOr<ReadRevision> read = NotFound(kType, "");
  const std::string name = ToString(RevisionName{id, number});
  auto status = InSnapshot(
      application, context, Mine(name),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        ASSIGN_OR_RETURN(auto row, Load(transaction, who.standing, id, name));
        read = LoadWhole(transaction, row, number);
        return read.status();
      });
  if (!status.ok()) return status;
  return read;
}

absl::StatusOr<RevisionPage> ListRevisions(Application& application, RequestContext& context,
                                           const CalibrationId& id, int before_number, int limit) {
  RevisionPage page;
  auto status = InSnapshot(
      application, context, Mine(NameOf(id)),
      [&](storage::Transaction& transaction, const storage::Admission& who) -> absl::Status {
        ASSIGN_OR_RETURN(auto row, Load(transaction, who.standing, id, NameOf(id)));
        page.revisions.clear();
        for (auto& revision : storage::ListRevisions(transaction, id, before_number, limit + 1)) {
          page.revisions.push_back({id, row.scope, std::move(revision), {}});
        }
        return absl::OkStatus();
      });
  if (!status.ok()) return status;
  page.more = page.revisions.size() > static_cast<size_t>(limit);
  if (page.more) page.revisions.pop_back();
  return page;
}

absl::Status UseChosen(storage::Transaction& transaction, const access::Standing& standing,
                       const CalibrationChoice& choice, estimate::Materials* materials) {
  const auto calibration = storage::LoadCalibration(transaction, standing.account, choice.id);
  if (!calibration.has_value()) return NotFound("calibration", choice.name);
  const int number = choice.revision == 0 ? calibration->revision_count : choice.revision;
  const auto revision = storage::LoadRevision(transaction, choice.id, number);
  if (!revision.has_value()) return NotFound("calibration", choice.name);
  estimate::Use(revision->calibration, ToString(RevisionName{choice.id, number}),
                calibration->scope, *materials);
  return absl::OkStatus();
}

absl::StatusOr<estimate::Materials> WithCalibration(Application& application,
                                                    RequestContext& context, SentMaterials sent) {
  if (!sent.calibration.has_value()) return std::move(sent.materials);
  const CalibrationChoice& choice = *sent.calibration;
  RETURN_IF_ERROR(RequireToken(context));
  auto status = InSnapshot(application, context, {"calibration", choice.name, {}, {}},
                           [&](storage::Transaction& transaction, const storage::Admission& who) {
                             return UseChosen(transaction, who.standing, choice, &sent.materials);
                           });
  if (!status.ok()) return status;
  return std::move(sent.materials);
}

}  // namespace rowproof::usecases
