#include "services/usecases/charts/convert_chart.h"

#include <utility>

#include "services/domain/chart/expand.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::usecases {
namespace {

int RowsWorked(const chart::Design& design, int size) {
  return chart::ExpandedRows(design, size) * chart::WorkedRows(design);
}

estimate::Materials MaterialsAfter(const chart::Design& design, const chart::Conversion& conversion,
                                   const ConversionAsked& asked) {
  if (asked.materials_after.has_value()) return *asked.materials_after;
  estimate::Materials after = *asked.materials;
  if (conversion.ends_changed) after.ends.reset();
  if (conversion.design.technique != design.technique || conversion.facing_changed ||
      conversion.ends_changed) {
    after.gauge_is_of_another_fabric = true;
  }
  return after;
}

absl::Status AddEstimates(const chart::Design& design, const ConversionAsked& asked,
                          ConvertedChart* converted) {
  auto before = estimate::EstimateSizes(design, *asked.materials);
  if (!before.ok()) return UnderField(before.status(), "materials");
  auto after = estimate::EstimateSizes(converted->conversion.design,
                                       MaterialsAfter(design, converted->conversion, asked));
  if (!after.ok()) {
    return UnderField(after.status(),
                      asked.materials_after.has_value() ? "materials_after" : "materials");
  }
  for (size_t size = 0; size < converted->sizes.size(); ++size) {
    converted->sizes[size].before = std::move((*before)[size]);
    converted->sizes[size].after = std::move((*after)[size]);
  }
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<ConvertedChart> ConvertChart(const chart::Design& design,
                                            const ConversionAsked& asked, const Stop& stop) {
  if (asked.materials_after.has_value() && !asked.materials.has_value()) {
    return MissingField("materials",
                        "given with materials_after: the yarn and gauge of the chart as it is");
  }
  ASSIGN_OR_RETURN(auto conversion, chart::Convert(design, asked.target, stop));
  ConvertedChart converted;
  converted.conversion = std::move(conversion);
  const chart::Design& after = converted.conversion.design;
  converted.changes = chart::ChangesForMaker(design, after, asked.terms);
  for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
    converted.sizes.push_back({design.sizes[static_cast<size_t>(size)].name,
                               chart::ExpandedStitches(design, size), RowsWorked(design, size),
                               RowsWorked(after, size), std::nullopt, std::nullopt});
  }
  converted.check = chart::Check(after, {}, stop);
  if (stop.Now()) return stop.status();
  if (asked.materials.has_value()) {
    RETURN_IF_ERROR(AddEstimates(design, asked, &converted));
  }
  return converted;
}

}  // namespace rowproof::usecases
