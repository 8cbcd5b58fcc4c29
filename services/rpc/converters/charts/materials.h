// Materials and their parts between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_MATERIALS_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_MATERIALS_H_

#include <string>

#include "absl/status/statusor.h"
#include "rowproof/v1/estimate.pb.h"
#include "rowproof/v1/materials.pb.h"
#include "services/domain/estimate/another_maker.h"
#include "services/domain/estimate/gauge.h"
#include "services/domain/estimate/materials.h"
#include "services/usecases/charts/sent_materials.h"

namespace rowproof::rpc {

// INVALID_ARGUMENT with the field relative to the message for a value that
// cannot be read; what the values mean is checked by estimate::Validate. The calibration that the
// materials name is not looked up yet.
absl::StatusOr<usecases::SentMaterials> FromProto(const v1::Materials& materials);
// A kept calibration by its name or a revision's; INVALID_ARGUMENT for "calibration".
absl::StatusOr<usecases::CalibrationChoice> ChoiceFrom(const std::string& name);
// A ball band with one number only keeps the other as 0, and validation says so.
estimate::Yarn FromProto(const v1::Yarn& yarn);
estimate::Gauge FromProto(const v1::Gauge& gauge);
estimate::GaugeReading FromProto(const v1::GaugeReading& reading);
absl::StatusOr<estimate::AnotherMaker> FromProto(const v1::AnotherMaker& maker);

v1::Materials ToProto(const estimate::Materials& materials);
v1::Yarn ToProto(const estimate::Yarn& yarn);
v1::Gauge ToProto(const estimate::Gauge& gauge);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_CHARTS_MATERIALS_H_
