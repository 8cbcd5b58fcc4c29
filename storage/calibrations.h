// Rows of kept calibrations, their revisions and measurements. Every function throws libpqxx's
// exceptions, which end in Database, and runs inside a transaction. A calibration of another owner
// is not found; what writes needs the owner's account locked.
#ifndef ROWPROOF_STORAGE_CALIBRATIONS_H_
#define ROWPROOF_STORAGE_CALIBRATIONS_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/clock.h"
#include "services/domain/estimate/calibration/kept_calibration.h"
#include "services/domain/identifiers.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

struct CalibrationRow {
  CalibrationId id;
  AccountId owner;
  std::string title;
  estimate::CalibrationScope scope;  // with technique and weight class
  int revision_count = 1;
  int change_count = 1;
  Moment created_at;
};

// Lists leave `calibration` out but for its observation_count.
struct RevisionRow {
  int number = 0;
  Moment created_at;
  std::string note;
  int model_version = 0;
  estimate::Calibration calibration;
};

// Absent: any.
struct CalibrationFilter {
  std::optional<chart::Technique> technique;
  std::optional<int> weight_class;
};

// With its first revision and what that rests on.
void InsertCalibration(Transaction& transaction, const CalibrationRow& calibration,
                       const RevisionRow& revision,
                       const std::vector<estimate::Measurement>& measurements);
// A further revision: counts it, adds measurements, and leaves others out from it on.
void AppendRevision(Transaction& transaction, const CalibrationId& id, const RevisionRow& revision,
                    const estimate::RevisionChange& change);
void UpdateCalibrationTitle(Transaction& transaction, const CalibrationId& id,
                            const std::string& title);
void DeleteCalibration(Transaction& transaction, const CalibrationId& id);

std::optional<CalibrationRow> LoadCalibration(Transaction& transaction, const AccountId& owner,
                                              const CalibrationId& id);
// Newest first, after (before, before_id) if given.
std::vector<CalibrationRow> ListCalibrations(Transaction& transaction, const AccountId& owner,
                                             const CalibrationFilter& filter,
                                             std::optional<Moment> before,
                                             const CalibrationId& before_id, int limit);
int CountCalibrations(Transaction& transaction, const AccountId& owner);

std::optional<RevisionRow> LoadRevision(Transaction& transaction, const CalibrationId& id,
                                        int number);
// Newest first, below `before_number` if that is not 0.
std::vector<RevisionRow> ListRevisions(Transaction& transaction, const CalibrationId& id,
                                       int before_number, int limit);
// Those in force in this revision, by number.
std::vector<estimate::KeptMeasurement> LoadMeasurements(Transaction& transaction,
                                                        const CalibrationId& id, int revision);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_CALIBRATIONS_H_
