// What import settings may say. Thread-safe.
#ifndef ROWPROOF_SERVICES_IMAGES_IMPORT_SETTINGS_H_
#define ROWPROOF_SERVICES_IMAGES_IMPORT_SETTINGS_H_

#include "absl/status/status.h"
#include "services/images/chart_file.h"
#include "services/images/picture.h"

namespace rowproof::images {

// INVALID_ARGUMENT with the setting's field.
absl::Status CheckSettings(const ImportSettings& settings);
absl::Status CheckCrop(const Picture& picture, const Margins& crop);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_IMPORT_SETTINGS_H_
