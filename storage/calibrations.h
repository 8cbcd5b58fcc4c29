// Rows of kept calibrations, their revisions and measurements. Every function throws libpqxx's
// exceptions, which end in Database, and runs inside a transaction. A calibration of another owner
// is not found; what writes needs the owner's account locked.
#ifndef ROWPROOF_STORAGE_CALIBRATIONS_H_
#define ROWPROOF_STORAGE_CALIBRATIONS_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/estimate/calibration/kept_calibration.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

// With its first revision and what that rests on.
void InsertCalibration(Transaction& transaction, const estimate::CalibrationRecord& calibration,
                       const estimate::RevisionRecord& revision,
                       const std::vector<estimate::Measurement>& measurements);
// A further revision: counts it, adds measurements, and leaves others out from it on.
void AppendRevision(Transaction& transaction, const CalibrationId& id,
                    const estimate::RevisionRecord& revision,
                    const estimate::RevisionChange& change);
void UpdateCalibrationTitle(Transaction& transaction, const CalibrationId& id,
                            const std::string& title);
void DeleteCalibration(Transaction& transaction, const CalibrationId& id);

std::optional<estimate::CalibrationRecord> LoadCalibration(Transaction& transaction,
                                                           const AccountId& owner,
                                                           const CalibrationId& id);
// Newest first, after (before, before_id) if given.
std::vector<estimate::CalibrationRecord> ListCalibrations(
    Transaction& transaction, const AccountId& owner, const estimate::CalibrationFilter& filter,
    std::optional<Moment> before, const CalibrationId& before_id, int limit);
int CountCalibrations(Transaction& transaction, const AccountId& owner);

std::optional<estimate::RevisionRecord> LoadRevision(Transaction& transaction,
                                                     const CalibrationId& id, int number);
// Newest first, below `before_number` if that is not 0.
std::vector<estimate::RevisionRecord> ListRevisions(Transaction& transaction,
                                                    const CalibrationId& id, int before_number,
                                                    int limit);
// Those in force in this revision, by number.
std::vector<estimate::KeptMeasurement> LoadMeasurements(Transaction& transaction,
                                                        const CalibrationId& id, int revision);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_CALIBRATIONS_H_
