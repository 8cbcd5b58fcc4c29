// The chart that cells of a picture or table make. Thread-safe.
#ifndef ROWPROOF_SERVICES_IMAGES_IMPORTED_CHART_H_
#define ROWPROOF_SERVICES_IMAGES_IMPORTED_CHART_H_

#include "absl/status/statusor.h"
#include "services/images/chart_file.h"
#include "services/images/grid_finder.h"
#include "services/images/picture.h"

namespace rowproof::images {

// The chart, as the settings want it, and its report but for the format.
absl::StatusOr<ImportedChart> ChartOf(const Picture& picture, const FoundCells& found,
                                      const ImportSettings& settings);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_IMPORTED_CHART_H_
