#include "services/usecases/charts/export_chart.h"

#include "services/images/chart_export.h"

namespace rowproof::usecases {

absl::StatusOr<std::string> ExportChart(const chart::Design& design, const ExportSettings& settings,
                                        const Stop& stop) {
  return images::ExportChart(design, settings, stop);
}

}  // namespace rowproof::usecases
