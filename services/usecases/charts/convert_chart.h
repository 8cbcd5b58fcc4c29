// A chart for another technique, or in the other convention, with all that this changes.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_CHARTS_CONVERT_CHART_H_
#define ROWPROOF_SERVICES_USECASES_CHARTS_CONVERT_CHART_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/conversion/conversion.h"
#include "services/domain/chart/conversion/maker_changes.h"
#include "services/domain/estimate/estimate.h"

namespace rowproof::usecases {

struct ConversionAsked {
  chart::ConversionTarget target;
  chart::Terms terms = chart::Terms::kUs;
  // Yarn and gauge of the chart as it is; absent: no estimates.
  std::optional<estimate::Materials> materials;
  // Materials after the conversion; absent: as before, with the gauge marked as counted in another
  // fabric if technique, facing or ends have changed.
  std::optional<estimate::Materials> materials_after;
};

struct ConvertedSize {
  std::string size;
  int stitches = 0;
  int rows_before = 0;  // worked rows
  int rows_after = 0;
  std::optional<estimate::SizeEstimate> before;
  std::optional<estimate::SizeEstimate> after;
};

struct ConvertedChart {
  chart::Conversion conversion;
  std::vector<chart::MakerChange> changes;
  std::vector<ConvertedSize> sizes;
  chart::CheckResult check;  // of the chart as it is after
};

// The design must be valid. Errors: as chart::Convert; INVALID_ARGUMENT with the field below
// "materials" or "materials_after", "materials" also if only the other one is given;
// RESOURCE_EXHAUSTED as estimate::EstimateSizes; the stop's status if the work has to stop.
absl::StatusOr<ConvertedChart> ConvertChart(const chart::Design& design,
                                            const ConversionAsked& asked, const Stop& stop);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_CHARTS_CONVERT_CHART_H_
