#include "services/domain/estimate/ends_methods.h"

#include "services/domain/chart/technique.h"
#include "services/domain/estimate/accepted_range.h"

namespace rowproof::estimate {
namespace {

absl::Status AddCosts(const chart::Design& design, int size, const Materials& materials,
                      double minutes_per_end, EndsMethod& method) {
  auto estimate = EstimateSize(design, size, materials);
  if (!estimate.ok()) return estimate.status();
  for (const ColourEstimate& colour : estimate->colours) {
    method.yarns.push_back({colour.colour, colour.length_mm});
    method.length_mm += colour.length_mm;
  }
  method.ends_to_weave_in = estimate->ends_to_weave_in;
  method.minutes = estimate->minutes;
  method.weaving_minutes = minutes_per_end * method.ends_to_weave_in;
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<std::vector<EndsMethod>> CompareEndsMethods(const chart::Design& design, int size,
                                                           const Materials& materials,
                                                           double minutes_per_end) {
  if (auto status = CheckRange("minutes_per_end", minutes_per_end, 0, 60, "minutes");
      !status.ok()) {
    return status;
  }
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
      if (auto status = AddCosts(made, size, with_ends, minutes_per_end, method); !status.ok()) {
        return status;
      }
    }
    methods.push_back(std::move(method));
  }
  return methods;
}

}  // namespace rowproof::estimate
