// What a drawn chart shows, worked out once: cells, marks, row labels, bands.
#ifndef ROWPROOF_SERVICES_DRAWING_CHARTS_MODEL_H_
#define ROWPROOF_SERVICES_DRAWING_CHARTS_MODEL_H_

#include <cstdint>
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
  bool at_right = true;  // printed at stitch 1's edge and read right to left
  size_t colour = 0;     // index of the row's colour, A being 0
};

// Immutable after Make.
struct ChartModel {
  chart::Technique technique = chart::Technique::kSpike;
  chart::Convention shown = chart::Convention::kPicture;
  int rows = 0;
  int stitches = 0;
  int worked_rows = 1;  // a chart row
  bool left_handed = false;
  bool tube = false;
  std::vector<uint8_t> row_colours;  // indices, bottom first
  // Picture: the colour each cell shows, row by row from row 1, stitch 1 first.
  // Empty in a working chart, if a cell has its row's colour.
  std::vector<uint8_t> cell_colours;
  // Picture: off-colour cells, each covered by a drop of the row above.
  // Working: drops.
  chart::Grid marks;
  // Working chart of inset: stitches skipped behind a chain. Empty otherwise.
  chart::Grid chains;
  std::vector<size_t> colours;  // those that rows or cells have, A first
  // Colour of a worked foundation, if the chart declares one, and the number of its row in the
  // written rows.
  std::optional<size_t> foundation;
  int foundation_number = 0;
  std::vector<RowLabel> labels;  // bottom first
  int highest_number = 0;
  std::optional<chart::Band> stitch_band;
  std::optional<chart::Band> row_band;
  // "12 (18) times"; empty without a band.
  std::string stitch_times;
  std::string row_times;
  std::string repeated_stitches;  // "stitches 5 to 8"
  std::string repeated_rows;      // "rows 3 to 6"
  std::string sizes;              // "S (M, L)", if the counts differ by size
  std::string size_shown;         // name of the size that is written out; empty: as drawn

  size_t ColourAt(int row, int stitch) const {
    if (cell_colours.empty()) return row_colours[static_cast<size_t>(row - 1)];
    return cell_colours[static_cast<size_t>(row - 1) * static_cast<size_t>(stitches) +
                        static_cast<size_t>(stitch - 1)];
  }
  bool ChainAt(int row, int stitch) const { return !chains.empty() && chains.at(row, stitch); }
  // Whether there is a heavier line above a chart row, by the printed numbers.
  bool HeavyAfterRow(int chart_row) const;

  // `size` indexes the design's sizes: its bands written out. Without one the
  // chart as drawn. Errors: INVALID_ARGUMENT as chart::Validate, for `size`,
  // and for `kind` as ShownRowBand; the stop's status if the work has to stop.
  static absl::StatusOr<ChartModel> Make(const chart::Design& design,
                                         std::optional<chart::Convention> shown, chart::Hand hand,
                                         std::optional<int> size = std::nullopt,
                                         const Stop& stop = {});

 private:
  int before_first_ = 0;
};

// The repeated rows of a design as the chart in convention `shown` has them: a picture's rows a to
// b are a working chart's rows a+1 to b+1. If those are not rows of the chart, rows a to b are used
// if that changes no stitch. Otherwise INVALID_ARGUMENT: the chart has to be shown as it was given.
absl::StatusOr<std::optional<chart::Band>> ShownRowBand(const chart::Design& design,
                                                        chart::Convention shown);

// One size as a design without bands. The design is valid and has the size. Not whole if the work
// has to stop.
chart::Design WrittenOut(const chart::Design& design, int size, const Stop& stop);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_CHARTS_MODEL_H_
