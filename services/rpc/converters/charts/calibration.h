// Calibrations and what they rest on between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_CALIBRATION_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_CALIBRATION_H_

#include <google/protobuf/repeated_field.h>

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "rowproof/v1/calibration.pb.h"
#include "rowproof/v1/chart_service.pb.h"
#include "services/domain/estimate/calibration/kept_calibration.h"
#include "services/domain/estimate/materials.h"

namespace rowproof::rpc {

// Whether the name is a kept calibration's or its revision's, and not what somebody calls theirs.
bool IsOfKept(const std::string& name);

// INVALID_ARGUMENT with the field relative to the message.
absl::StatusOr<estimate::CalibrationScope> FromProto(const v1::CalibrationScope& from);
v1::CalibrationScope ToProto(const estimate::CalibrationScope& scope);
// INVALID_ARGUMENT with "measurements[i]..." for one that cannot be used, "measurements" for too
// many; the stop's status if the work has to stop.
absl::StatusOr<std::vector<estimate::Measurement>> MeasurementsFrom(
    const google::protobuf::RepeatedPtrField<v1::YarnMeasurement>& from, const Stop& stop);
// With each stitch before and after.
v1::YarnCalibration ToProto(const std::string& name, const estimate::Calibration& calibration,
                            const std::optional<estimate::CalibrationScope>& scope);

// The calibration of the request's measurements. INVALID_ARGUMENT with the field's path from the
// request.
absl::StatusOr<v1::YarnCalibration> Calibrate(const v1::CalibrateYarnRequest& request,
                                              const Stop& stop);

// Makes the materials' estimate use what was sent. INVALID_ARGUMENT with the field's path relative
// to the calibration; ranges are checked by estimate::Validate.
absl::Status UseCalibration(const v1::YarnCalibration& from, estimate::Materials* materials);
// What materials with a covariance has been calibrated by, without what a calibration only shows.
v1::YarnCalibration CalibrationOf(const estimate::Materials& materials);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_CALIBRATION_H_
