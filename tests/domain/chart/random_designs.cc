#include "tests/domain/chart/random_designs.h"

namespace rowproof::chart {

void RandomDesigns::ChooseBandsAndSizes(Design& design) {
  const auto band = [this](int length) {
    const int first = Pick(1, length);
    return Band{first, Chance(50) ? Pick(first, length) : std::min(length, first + Pick(0, 4))};
  };
  if (Chance(60)) design.row_band = band(design.cells.rows());
  if (Chance(60)) design.stitch_band = band(design.cells.stitches());
  design.sizes.clear();
  const int count = Pick(1, 4);
  for (int i = 0; i < count; ++i) {
    Size size{"size " + std::to_string(i), 1, 1};
    if (design.row_band) size.row_repeats = Pick(1, 6);
    if (design.stitch_band) size.stitch_repeats = Pick(1, 6);
    design.sizes.push_back(size);
  }
}

void RandomDesigns::ChooseColours(Design& design) {
  if (Chance(50)) return;
  const bool alternating = Chance(50);
  const bool starts_with_b = Chance(50);
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const bool b = alternating ? (row % 2 == 0) != starts_with_b : Chance(50);
    design.row_colours.push_back(b ? Colour::kB : Colour::kA);
  }
}

void RandomDesigns::FillMarks(Design& design) {
  const int rows = design.cells.rows();
  const int stitches = design.cells.stitches();
  Grid marks(rows, stitches);
  const int character = Pick(0, 3);
  const int density = character == 0 ? 50 : Pick(2, 30);
  for (int row = 1; row <= rows; ++row) {
    bool on = false;
    const bool whole = character == 3 && Chance(30);
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      if (character < 2) {
        on = Chance(density);
      } else if (Chance(15)) {
        on = !on;
      }
      // Nearly workable: now and then a mark stands on another.
      const bool blocked = character > 0 && (row == 1 || marks.at(row - 1, stitch)) && !Chance(2);
      marks.set(row, stitch, (on || whole) && !blocked);
    }
  }
  if (Chance(20)) {
    const int edge = Chance(50) ? 1 : stitches;
    for (int row = 1; row <= rows; ++row) marks.set(row, edge, row > 2 && row % 2 == 1);
  }
  for (int row = 1; row <= rows; ++row) {
    const bool b = design.row_colours.empty()
                       ? row % 2 == 0
                       : design.row_colours[static_cast<size_t>(row - 1)] == Colour::kB;
    const bool flip = design.convention == Convention::kPicture && b;
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      design.cells.set(row, stitch, marks.at(row, stitch) != flip);
    }
  }
}

Design RandomDesigns::Next(int most_rows, int most_stitches) {
  Design design;
  design.facing = static_cast<Facing>(Pick(0, 2));
  design.ends = Chance(50) ? Ends::kCarried : static_cast<Ends>(Pick(0, 2));
  design.form = Chance(80) ? Form::kFlat : Form::kTube;
  design.convention = Chance(50) ? Convention::kPicture : Convention::kWorking;
  design.cells = Grid(Pick(1, most_rows), Pick(1, most_stitches));
  ChooseBandsAndSizes(design);
  ChooseColours(design);
  FillMarks(design);
  return design;
}

}  // namespace rowproof::chart
