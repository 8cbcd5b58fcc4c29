// A chart from a file of Netpbm's PBM, PGM and PPM. Limits, errors and thread safety as in
// chart_file.h.
#ifndef ROWPROOF_SERVICES_IMAGES_FORMATS_PNM_IMPORT_H_
#define ROWPROOF_SERVICES_IMAGES_FORMATS_PNM_IMPORT_H_

#include <string_view>

#include "absl/status/statusor.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

// P1 to P6, maxval 1 to 65535; one picture a file. Source: Netpbm, "PBM", "PGM" and "PPM Format
// Specification".
absl::StatusOr<ImportedChart> ImportPnm(std::string_view bytes, const ImportSettings& settings,
                                        const Stop& stop = {});

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_FORMATS_PNM_IMPORT_H_
