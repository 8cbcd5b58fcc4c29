// Calibrations for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_CALIBRATION_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_CALIBRATION_H_

#include <string>

#include "rowproof/v1/calibration.pb.h"
#include "rowproof/v1/calibration_service.pb.h"
#include "rowproof/v1/yarn_calibration.pb.h"
#include "services/client/tables/measures.h"

namespace rowproof::client {

// Yarn in each stitch; with details also what was assumed before.
std::string StitchTable(const v1::YarnCalibration& calibration, const Style& style);
// "spike, two-face, cut, weight class 4"; "-" if nothing was given.
std::string ScopeText(const v1::CalibrationScope& scope);

std::string TextOf(const v1::Calibration& calibration, const Style& style);
std::string TextOf(const v1::CalibrationRevision& revision, const Style& style);
std::string TextOf(const v1::ListCalibrationsResponse& answer, const Style& style);
std::string TextOf(const v1::ListCalibrationRevisionsResponse& answer, const Style& style);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_CALIBRATION_H_
