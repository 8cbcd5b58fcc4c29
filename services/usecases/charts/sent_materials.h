// A materials as it was sent, whose kept calibration has yet to be looked up.
#ifndef ROWPROOF_SERVICES_USECASES_CHARTS_SENT_MATERIALS_H_
#define ROWPROOF_SERVICES_USECASES_CHARTS_SENT_MATERIALS_H_

#include <functional>
#include <optional>
#include <string>

#include "absl/status/statusor.h"
#include "services/domain/estimate/materials.h"
#include "services/domain/identifiers.h"
#include "services/usecases/request_context.h"

namespace rowproof::usecases {

// One of the caller's own calibrations.
struct CalibrationChoice {
  CalibrationId id;
  int revision = 0;  // 0: the newest
  std::string name;  // as the caller wrote it
};

struct SentMaterials {
  estimate::Materials materials;
  std::optional<CalibrationChoice> calibration;
  bool foundation_chain_declared = false;  // not merely assumed
};

// Looks up the caller's calibration and puts it into the materials; NOT_FOUND for another
// account's. Empty if there is no storage. Thread-safe.
using CalibrationLookup =
    std::function<absl::StatusOr<estimate::Materials>(RequestContext& context, SentMaterials sent)>;

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CHARTS_SENT_MATERIALS_H_
