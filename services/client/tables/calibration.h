// Calibrations for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_CALIBRATION_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_CALIBRATION_H_

#include <string>

#include "rowproof/v1/calibration.pb.h"
#include "rowproof/v1/calibration_service.pb.h"
#include "rowproof/v1/yarn_calibration.pb.h"

namespace rowproof::client {

// Each stitch before and after.
std::string StitchTable(const v1::YarnCalibration& calibration);
// "spike, two-face, cut, weight class 4"; "-" where nothing was said.
std::string ScopeText(const v1::CalibrationScope& scope);

std::string TextOf(const v1::Calibration& calibration);
std::string TextOf(const v1::CalibrationRevision& revision);
std::string TextOf(const v1::ListCalibrationsResponse& answer);
std::string TextOf(const v1::ListCalibrationRevisionsResponse& answer);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_CALIBRATION_H_
