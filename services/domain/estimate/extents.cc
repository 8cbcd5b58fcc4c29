#include "services/domain/estimate/extents.h"

#include <algorithm>

namespace rowproof::estimate {
namespace {

double AddedFringeMm(const Piece& piece, FringeEdge edge) {
  double length_mm = 0;
  if (!piece.finished()) return 0;
  for (const AddedFringe& fringe : piece.materials.added_fringe) {
    if (fringe.edge == edge) length_mm = std::max(length_mm, fringe.length_mm);
  }
  return length_mm;
}

std::vector<Contribution> Contributions(double model, double stitch_gauge, double row_gauge) {
  std::vector<Contribution> contributions = {{UncertaintySource::kModel, model},
                                             {UncertaintySource::kStitchGauge, stitch_gauge},
                                             {UncertaintySource::kRowGauge, row_gauge}};
  std::erase_if(contributions, [](const Contribution& part) { return part.uncertainty == 0; });
  SortLargestFirst(contributions);
  return contributions;
}

Interval Beside(double fringe_mm, double mm, double uncertainty_mm) {
  Interval interval = LogNormalInterval(mm, uncertainty_mm, kIntervalCoverage);
  interval.low += fringe_mm;
  interval.high += fringe_mm;
  return interval;
}

}  // namespace

void SortLargestFirst(std::vector<Contribution>& contributions) {
  std::stable_sort(contributions.begin(), contributions.end(),
                   [](const Contribution& left, const Contribution& right) {
                     return left.uncertainty > right.uncertainty;
                   });
}

Pitches PitchesOf(const Gauge& gauge) {
  const double stitches = gauge.stitches_per_decimetre;
  const double rows = gauge.rows_per_decimetre;
  const double stitches_uncertainty = gauge.stitches_uncertainty_per_decimetre.value_or(
      ReadingUncertaintyPer100Mm(stitches, 100, 1));
  const double rows_uncertainty =
      gauge.rows_uncertainty_per_decimetre.value_or(ReadingUncertaintyPer100Mm(rows, 100, 1));
  return {gauge.stitch_pitch_mm(), gauge.stitch_pitch_mm() * stitches_uncertainty / stitches,
          gauge.row_pitch_mm(), gauge.row_pitch_mm() * rows_uncertainty / rows,
          !gauge.stitches_uncertainty_per_decimetre.has_value() ||
              !gauge.rows_uncertainty_per_decimetre.has_value()};
}

double FringeWidthMm(const Piece& piece) {
  const Materials& materials = piece.materials;
  if (piece.tube()) return 0;
  const bool cut_fringe =
      piece.ends() == chart::Ends::kCut && materials.tail_use == TailUse::kFringe;
  return 2 * std::max(cut_fringe ? materials.fringe_length_mm : 0,
                      AddedFringeMm(piece, FringeEdge::kRowEnds));
}

double FringeHeightMm(const Piece& piece) {
  return 2 * AddedFringeMm(piece, FringeEdge::kFoundationAndTop);
}

Extent ExtentOf(const Piece& piece, const Pitches& pitches) {
  const bool closing_round = piece.border_rounds() > 0 && piece.materials.border.enclosing_double;
  const int border_rows = 2 * (piece.border_rounds() + (closing_round ? 1 : 0));
  const int across_rows = piece.tube() ? 0 : border_rows;
  const int up_rows = piece.worked.rows + (piece.worked_foundation() ? 1 : 0) + border_rows;
  const double stitches = piece.worked.stitches;
  const double width_mm = stitches * pitches.w_mm + across_rows * pitches.h_mm;
  const double height_mm = up_rows * pitches.h_mm;
  const double model = piece.materials.assumptions.size_relative_uncertainty;
  Extent extent;
  extent.width_contributions = Contributions(model * width_mm, stitches * pitches.w_uncertainty_mm,
                                             across_rows * pitches.h_uncertainty_mm);
  extent.height_contributions =
      Contributions(model * height_mm, 0, up_rows * pitches.h_uncertainty_mm);
  extent.width_mm = width_mm + FringeWidthMm(piece);
  extent.height_mm = height_mm + FringeHeightMm(piece);
  extent.width_uncertainty_mm = Combined(extent.width_contributions);
  extent.height_uncertainty_mm = Combined(extent.height_contributions);
  extent.width_interval_mm = Beside(FringeWidthMm(piece), width_mm, extent.width_uncertainty_mm);
  extent.height_interval_mm =
      Beside(FringeHeightMm(piece), height_mm, extent.height_uncertainty_mm);
  return extent;
}

}  // namespace rowproof::estimate
