// What a drawn chart shows, worked out once: cells, marks, row labels, bands.
#ifndef ROWPROOF_SERVICES_DRAWING_CHART_MODEL_H_
#define ROWPROOF_SERVICES_DRAWING_CHART_MODEL_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"

namespace rowproof::drawing {

// One worked row at the edge where it starts.
struct RowLabel {
  int chart_row = 0;  // from 1
  int number = 0;     // as the written rows number it
  chart::Side side = chart::Side::kRightSide;
  bool at_right = true;  // stands at stitch 1's edge and is read right to left
  chart::Colour colour = chart::Colour::kA;
};

// Immutable after Make.
struct ChartModel {
  chart::Convention shown = chart::Convention::kPicture;
  int rows = 0;
  int stitches = 0;
  bool left_handed = false;
  // Colour B of a picture chart; empty in a working chart, where a cell has its row's colour.
  chart::Grid picture;
  // Picture: off-colour cells, each covered by a drop of the row above. Working: drops.
  chart::Grid marks;
  std::vector<chart::Colour> row_colours;  // bottom first
  std::vector<RowLabel> labels;            // bottom first
  int highest_number = 0;
  std::optional<chart::Band> stitch_band;
  std::optional<chart::Band> row_band;
  // After how many chart rows from the bottom a heavier line stands, as printed numbers count.
  bool HeavyAfterRow(int chart_row) const;
  // "stitches 5 to 8: 12 (16, 20) times", "rows 3 to 6: once"; empty without a band.
  std::string stitch_repeat;
  std::string row_repeat;
  std::string sizes;  // "S (M, L)", where the counts differ by size

  bool CellIsB(int row, int stitch) const {
    return shown == chart::Convention::kPicture
               ? picture.at(row, stitch)
               : row_colours[static_cast<size_t>(row - 1)] == chart::Colour::kB;
  }

  // Errors: INVALID_ARGUMENT as chart::Validate, and for `shown` as ShownRowBand.
  static absl::StatusOr<ChartModel> Make(const chart::Design& design,
                                         std::optional<chart::Convention> shown, chart::Hand hand);

 private:
  int before_first_ = 0;
};

// The repeated rows of a design as the chart in convention `shown` has them: a picture's rows a to
// b are a working chart's rows a+1 to b+1. Where those are not rows of the chart, rows a to b serve
// if that changes no stitch. Otherwise INVALID_ARGUMENT: the chart has to be shown as it was given.
absl::StatusOr<std::optional<chart::Band>> ShownRowBand(const chart::Design& design,
                                                        chart::Convention shown);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHART_MODEL_H_
