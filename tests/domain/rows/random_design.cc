#include "tests/domain/rows/random_design.h"

#include <algorithm>
#include <string>

#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"

namespace rowproof::rows {
namespace {

int Below(std::mt19937& random, int limit) {
  return static_cast<int>(random() % static_cast<unsigned>(limit));
}

chart::Band RandomBand(std::mt19937& random, int length) {
  chart::Band band;
  band.first = 1 + Below(random, length);
  band.last = band.first + Below(random, length - band.first + 1);
  return band;
}

void FillCells(std::mt19937& random, chart::Design& design) {
  const int kind = Below(random, 3);
  const int rows = 1 + Below(random, 6);
  const int stitches = 1 + Below(random, 6);
  chart::Grid motif(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    for (int s = 1; s <= stitches; ++s) motif.set(row, s, Below(random, 2) == 0);
  }
  for (int row = 1; row <= design.cells.rows(); ++row) {
    for (int s = 1; s <= design.cells.stitches(); ++s) {
      const bool off = kind == 0   ? Below(random, 2) == 0
                       : kind == 1 ? motif.at(1 + row % rows, 1 + s % stitches)
                                   : Below(random, 12) == 0;
      design.cells.set(row, s, off);
    }
  }
}

// A picture of more than two colours names the colour of each cell: a set cell another than its
// row's own.
void NameColours(std::mt19937& random, chart::Design& design) {
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const chart::Colour own = chart::RowColour(design, row);
    for (int s = 1; s <= design.cells.stitches(); ++s) {
      const int other = (static_cast<int>(own) + 1 + Below(random, 4)) % 5;
      design.picture_colours.push_back(design.cells.at(row, s) ? static_cast<chart::Colour>(other)
                                                               : own);
    }
  }
}

// What would be refused: an off-colour top row of a picture, drops in the first working row.
void MakeWritable(std::mt19937& random, chart::Design& design) {
  const int rows = design.cells.rows();
  const bool working = design.convention == chart::Convention::kWorking;
  for (int s = 1; s <= design.cells.stitches(); ++s) {
    design.cells.set(working ? 1 : rows, s, false);
  }
  if (working) return;
  if (chart::HasMoreThanTwoColours(design)) {
    NameColours(random, design);
    return;
  }
  // Cells so far say "off-colour"; the sizes agree on the top row's colour (see below).
  for (int row = 1; row <= rows; ++row) {
    const int coloured =
        row == rows && design.row_colours.empty() ? chart::ExpandedRows(design, 0) : row;
    const bool own = chart::RowColour(design, coloured) == chart::Colour::kB;
    for (int s = 1; s <= design.cells.stitches(); ++s) {
      design.cells.set(row, s, own != design.cells.at(row, s));
    }
  }
}

void ChooseColours(std::mt19937& random, chart::Design& design) {
  if (Below(random, 3) == 0) {
    const int colours = Below(random, 2) == 0 ? 2 : 5;
    for (int row = 0; row < design.cells.rows(); ++row) {
      design.row_colours.push_back(static_cast<chart::Colour>(Below(random, colours)));
    }
  }
  if (Below(random, 6) == 0) {
    design.foundation_colour = static_cast<chart::Colour>(Below(random, 2));
  }
}

void ChooseSizes(std::mt19937& random, chart::Design& design) {
  design.sizes.clear();
  const int sizes = 1 + Below(random, 4);
  // An odd band with the alternation changes the top row's colour: then an even step between sizes.
  const int step = design.row_band.has_value() && design.row_band->length() % 2 == 1 ? 2 : 1;
  const int base = 1 + Below(random, 2);
  for (int i = 0; i < sizes; ++i) {
    chart::Size size{std::string(1, static_cast<char>('P' + i)), 1, 1};
    if (design.stitch_band.has_value()) size.stitch_repeats = 1 + Below(random, 5);
    if (design.row_band.has_value()) size.row_repeats = base + step * Below(random, 4);
    design.sizes.push_back(size);
  }
}

}  // namespace

chart::Design RandomDesign(std::mt19937& random) {
  chart::Design design;
  design.technique = static_cast<chart::Technique>(Below(random, 3));
  design.facing = static_cast<chart::Facing>(Below(random, 3));
  design.ends = static_cast<chart::Ends>(Below(random, 3));
  if (Below(random, 5) == 0 && chart::FactsOf(design.technique).can_be_tube) {
    design.form = chart::Form::kTube;
  }
  design.convention =
      Below(random, 3) == 0 ? chart::Convention::kWorking : chart::Convention::kPicture;
  design.first_row_number = Below(random, 4) == 0 ? Below(random, 3) : 1;
  const int rows = 1 + Below(random, 16);
  // Now and then wider than two machine words.
  design.cells = chart::Grid(rows, 1 + Below(random, Below(random, 10) == 0 ? 150 : 24));
  ChooseColours(random, design);
  if (Below(random, 4) != 0) design.stitch_band = RandomBand(random, design.cells.stitches());
  if (Below(random, 3) != 0) design.row_band = RandomBand(random, rows);
  ChooseSizes(random, design);
  FillCells(random, design);
  MakeWritable(random, design);
  return design;
}

WriterSettings RandomSettings(std::mt19937& random) {
  WriterSettings settings;
  settings.hand = static_cast<chart::Hand>(random() % 2);
  settings.terms = static_cast<chart::Terms>(random() % 2);
  settings.style = static_cast<RepeatStyle>(random() % 2);
  if (random() % 4 == 0) {
    settings.colour_names = {"cream", "dark blue", "moss", "brick", "straw"};
  }
  settings.nesting_depth = static_cast<int>(random() % 4);
  settings.every_row = random() % 4 == 0;
  // Now and then too little to search with: the text has to be exact all the same.
  if (random() % 6 == 0) settings.work_budget = 1 + static_cast<int64_t>(random() % 3000);
  return settings;
}

}  // namespace rowproof::rows
