#include "services/domain/estimate/ways_with_ends.h"

#include "services/domain/chart/technique.h"
#include "services/domain/estimate/accepted_range.h"

namespace rowproof::estimate {
namespace {

absl::Status AddCosts(const chart::Design& design, int size, const Making& making,
                      double minutes_per_end, WayWithEnds& way) {
  auto estimate = EstimateSize(design, size, making);
  if (!estimate.ok()) return estimate.status();
  for (const ColourEstimate& colour : estimate->colours) {
    way.yarns.push_back({colour.colour, colour.length_mm});
    way.length_mm += colour.length_mm;
  }
  way.ends_to_weave_in = estimate->ends_to_weave_in;
  way.minutes = estimate->minutes;
  way.weaving_minutes = minutes_per_end * way.ends_to_weave_in;
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<std::vector<WayWithEnds>> CompareWaysWithEnds(const chart::Design& design, int size,
                                                             const Making& making,
                                                             double minutes_per_end) {
  if (auto status = CheckRange("minutes_per_end", minutes_per_end, 0, 60, "minutes");
      !status.ok()) {
    return status;
  }
  chart::Design made = design;
  Making way_made = making;
  std::vector<WayWithEnds> ways;
  for (const chart::Ends ends : {chart::Ends::kCut, chart::Ends::kCarried, chart::Ends::kWaiting}) {
    made.ends = ends;
    way_made.ends = ends;
    const chart::EndsFit fit = chart::FitOfEnds(made);
    WayWithEnds way;
    way.ends = ends;
    way.fits = fit.verdict != chart::EndsFit::Verdict::kDoesNotFit;
    if (fit.why != nullptr) way.remark = fit.why;
    if (way.fits) {
      if (auto status = AddCosts(made, size, way_made, minutes_per_end, way); !status.ok()) {
        return status;
      }
    }
    ways.push_back(std::move(way));
  }
  return ways;
}

}  // namespace rowproof::estimate
