// A chart from a file of PNG. Limits, errors and thread safety as in chart_file.h.
#ifndef ROWPROOF_SERVICES_IMAGES_FORMATS_PNG_IMPORT_H_
#define ROWPROOF_SERVICES_IMAGES_FORMATS_PNG_IMPORT_H_

#include <string_view>

#include "absl/status/statusor.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

// Every colour type, bit depth, transparency (laid on white) and interlacing; ancillary chunks
// other than tRNS and our own note are not read, so colours are those stored.
absl::StatusOr<ImportedChart> ImportPng(std::string_view bytes, const ImportSettings& settings,
                                        const Stop& stop = {});

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_FORMATS_PNG_IMPORT_H_
