// Kept calibrations between storage's rows and proto. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_KEPT_CALIBRATION_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_KEPT_CALIBRATION_H_

#include "absl/status/statusor.h"
#include "rowproof/v1/calibration_service.pb.h"
#include "services/usecases/calibrations.h"

namespace rowproof::rpc {

// INVALID_ARGUMENT with the field relative to the request.
absl::StatusOr<usecases::NewCalibration> FromProto(const v1::CreateCalibrationRequest& request,
                                                   const Stop& stop);
absl::StatusOr<estimate::RevisionChange> FromProto(
    const v1::CreateCalibrationRevisionRequest& request, const Stop& stop);

v1::Calibration ToProto(const estimate::CalibrationRecord& row);  // as lists have it
v1::Calibration ToProto(const usecases::ReadCalibration& read);
v1::CalibrationRevision ToProto(const usecases::ReadRevision& read);
v1::CalibrationRevision ListedRevision(const usecases::ReadRevision& read);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_KEPT_CALIBRATION_H_
