#include <utility>

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/usecases/calibrations.h"
#include "services/usecases/transactions.h"
#include "storage/calibrations.h"

namespace rowproof::usecases {

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
