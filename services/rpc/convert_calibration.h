// Calibrations and what they rest on between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERT_CALIBRATION_H_
#define ROWPROOF_SERVICES_RPC_CONVERT_CALIBRATION_H_

#include "absl/status/statusor.h"
#include "rowproof/v1/calibration.pb.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/domain/estimate/calibration.h"

namespace rowproof::rpc {

// The calibration of the request's measurements. INVALID_ARGUMENT with the field's path from the
// request.
absl::StatusOr<v1::YarnCalibration> Calibrate(const v1::CalibrateYarnRequest& request);

// Makes the making's estimate use what was sent. INVALID_ARGUMENT with the field's path relative to
// the calibration; ranges are checked by estimate::Validate.
absl::Status UseCalibration(const v1::YarnCalibration& from, estimate::Making* making);
// What a making with a covariance has been calibrated by, without what a calibration only shows.
v1::YarnCalibration CalibrationOf(const estimate::Making& making);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERT_CALIBRATION_H_
