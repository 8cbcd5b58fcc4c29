// Calibrations that a designer keeps, and materials that name one. To anyone but its owner a
// calibration does not exist (NOT_FOUND).
#ifndef ROWPROOF_SERVICES_USECASES_CALIBRATIONS_H_
#define ROWPROOF_SERVICES_USECASES_CALIBRATIONS_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/access/permissions.h"
#include "services/domain/estimate/calibration/kept_calibration.h"
#include "services/domain/estimate/materials.h"
#include "services/usecases/application.h"
#include "services/usecases/charts/sent_materials.h"

namespace rowproof::usecases {

inline constexpr size_t kLongestCalibrationTitle = 120;

// A revision as one reads it; lists leave `measurements` out.
struct ReadRevision {
  CalibrationId calibration;
  estimate::CalibrationScope scope;
  estimate::RevisionRecord row;
  std::vector<estimate::KeptMeasurement> measurements;
};

// Lists leave `newest` out.
struct ReadCalibration {
  estimate::CalibrationRecord row;
  std::optional<ReadRevision> newest;
};

struct CalibrationPage {
  std::vector<estimate::CalibrationRecord> calibrations;
  bool more = false;
};

struct RevisionPage {
  std::vector<ReadRevision> revisions;
  bool more = false;
};

struct NewCalibration {
  std::string title;
  estimate::CalibrationScope scope;
  estimate::RevisionChange first;
};

// The scope's field paths begin with "scope".
absl::StatusOr<ReadCalibration> CreateCalibration(Application& application, RequestContext& context,
                                                  const NewCalibration& wanted);
absl::StatusOr<ReadCalibration> GetCalibration(Application& application, RequestContext& context,
                                               const CalibrationId& id);
absl::StatusOr<CalibrationPage> ListCalibrations(Application& application, RequestContext& context,
                                                 const estimate::CalibrationFilter& filter,
                                                 std::optional<Moment> before,
                                                 const CalibrationId& before_id, int limit);
// `change_count`: the one last read, from the etag; absent: any.
absl::StatusOr<ReadCalibration> RenameCalibration(Application& application, RequestContext& context,
                                                  const CalibrationId& id, const std::string& title,
                                                  std::optional<int> change_count);
// Versions and estimates keep what they used of it.
absl::Status DeleteCalibration(Application& application, RequestContext& context,
                               const CalibrationId& id, std::optional<int> change_count);
absl::StatusOr<ReadRevision> AppendRevision(Application& application, RequestContext& context,
                                            const CalibrationId& id,
                                            const estimate::RevisionChange& change,
                                            std::optional<int> change_count);
absl::StatusOr<ReadRevision> GetRevision(Application& application, RequestContext& context,
                                         const CalibrationId& id, int number);
absl::StatusOr<RevisionPage> ListRevisions(Application& application, RequestContext& context,
                                           const CalibrationId& id, int before_number, int limit);

// Inside a transaction: makes `materials` use the calibration, named with its revision. NOT_FOUND
// for one that is not the caller's.
absl::Status UseChosen(storage::Transaction& transaction, const access::Standing& standing,
                       const CalibrationChoice& choice, estimate::Materials* materials);
// The same in a transaction of its own, if a calibration is named. UNAUTHENTICATED if nobody is
// signed in.
absl::StatusOr<estimate::Materials> WithCalibration(Application& application,
                                                    RequestContext& context, SentMaterials sent);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CALIBRATIONS_H_
