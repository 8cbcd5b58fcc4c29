#include "services/domain/estimate/ends_methods.h"

#include "services/domain/chart/technique.h"
#include "services/domain/estimate/accepted_range.h"
#include "services/domain/status_macros.h"

namespace rowproof::estimate {
namespace {

absl::Status AddCosts(const chart::Design& design, int size, const Materials& materials,
                      double minutes_per_end, EndsMethod& method) {
  ASSIGN_OR_RETURN(auto estimate, EstimateSize(design, size, materials));
  for (const ColourEstimate& colour : estimate.colours) {
    method.yarns.push_back({colour.colour, colour.length_mm});
    method.length_mm += colour.length_mm;
  }
  method.ends_to_weave_in = estimate.ends_to_weave_in;
  method.minutes = estimate.minutes;
  method.weaving_minutes = minutes_per_end * method.ends_to_weave_in;
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<std::vector<EndsMethod>> CompareEndsMethods(const chart::Design& design, int size,
                                                           const Materials& materials,
                                                           double minutes_per_end) {
  RETURN_IF_ERROR(CheckRange("minutes_per_end", minutes_per_end, 0, 60, "minutes"));
  chart::Design made = design;
  Materials with_ends = materials;
  std::vector<EndsMethod> methods;
  for (const chart::Ends ends : {chart::Ends::kCut, chart::Ends::kCarried, chart::Ends::kWaiting}) {
    made.ends = ends;
    with_ends.ends = ends;
    const chart::EndsFit fit = chart::FitOfEnds(made);
    EndsMethod method;
    method.ends = ends;
    method.fits = fit.verdict != chart::EndsFit::Verdict::kDoesNotFit;
    if (fit.why != nullptr) method.remark = fit.why;
    if (method.fits) {
      RETURN_IF_ERROR(AddCosts(made, size, with_ends, minutes_per_end, method));
    }
    methods.push_back(std::move(method));
  }
  return methods;
}

}  // namespace rowproof::estimate
