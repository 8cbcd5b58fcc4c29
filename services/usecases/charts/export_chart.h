// A chart's cells as a file that is imported again unchanged. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_CHARTS_EXPORT_CHART_H_
#define ROWPROOF_SERVICES_USECASES_CHARTS_EXPORT_CHART_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/images/chart_export.h"
#include "services/images/chart_file.h"

namespace rowproof::usecases {

using images::ExportSettings;

// The design must be valid. INVALID_ARGUMENT with the setting's field (images/chart_file.h).
// The stop's status if the work has to stop.
absl::StatusOr<std::string> ExportChart(const chart::Design& design, const ExportSettings& settings,
                                        const Stop& stop);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CHARTS_EXPORT_CHART_H_
