#include "tests/domain/chart/random_designs.h"

#include <algorithm>

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

void RandomDesigns::ChooseManyColours(Design& design) {
  ChooseColours(design);
  if (Chance(60)) return;
  design.row_colours.clear();
  const int most = Pick(2, 7);
  const bool in_turn = Chance(50);
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const int colour = in_turn ? (row - 1) % (most + 1) : Pick(0, most);
    design.row_colours.push_back(static_cast<Colour>(colour));
  }
}

void RandomDesigns::ChooseTechnique(Design& design) {
  design.technique = static_cast<Technique>(Pick(0, 2));
  design.facing = static_cast<Facing>(Pick(0, 2));
  design.ends = static_cast<Ends>(Pick(0, 2));
  if (design.technique == Technique::kSpike && Chance(50)) design.ends = Ends::kCarried;
  const bool tube = design.technique != Technique::kInset && Chance(30);
  design.form = tube ? Form::kTube : Form::kFlat;
  if (Chance(20)) design.foundation_colour = static_cast<Colour>(Pick(0, 2));
}

// Turns cells that were filled as marks into a picture that names its colours: mostly those of the
// row above, sometimes others.
void RandomDesigns::NameColours(Design& design) {
  const int rows = design.cells.rows();
  const int slips = Chance(50) ? 0 : Pick(1, 30);
  for (int row = 1; row <= rows; ++row) {
    const Colour own = design.row_colours[static_cast<size_t>(row - 1)];
    const Colour above = design.row_colours[static_cast<size_t>(std::min(row, rows - 1))];
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      Colour shown = design.cells.at(row, stitch) ? above : own;
      if (Chance(slips)) shown = static_cast<Colour>(Pick(0, 7));
      design.picture_colours.push_back(shown);
      design.cells.set(row, stitch, shown != own);
    }
  }
}

// As a chart looks that was given in the wrong convention, or with its colours exchanged.
void RandomDesigns::Misread(Design& design) {
  if (Chance(50)) {
    const bool picture = design.convention == Convention::kPicture;
    design.convention = picture ? Convention::kWorking : Convention::kPicture;
    return;
  }
  for (int row = 1; row <= design.cells.rows(); ++row) {
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      design.cells.set(row, stitch, !design.cells.at(row, stitch));
    }
  }
}

Design RandomDesigns::NextOfAll(int most_rows, int most_stitches) {
  Design design;
  ChooseTechnique(design);
  design.cells = Grid(Pick(1, most_rows), Pick(1, most_stitches));
  design.convention = Chance(50) ? Convention::kPicture : Convention::kWorking;
  ChooseBandsAndSizes(design);
  ChooseManyColours(design);
  const bool many = std::any_of(design.row_colours.begin(), design.row_colours.end(),
                                [](Colour colour) { return colour > Colour::kB; });
  const bool names = many && design.convention == Convention::kPicture;
  if (names) design.convention = Convention::kWorking;  // filled as marks first
  FillMarks(design);
  if (names) {
    design.convention = Convention::kPicture;
    NameColours(design);
  } else if (!many && Chance(5)) {
    Misread(design);
  }
  return design;
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
