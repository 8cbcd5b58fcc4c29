#include "tests/domain/estimate/sample_designs.h"

namespace rowproof::estimate {
namespace {

int Below(std::mt19937& random, int n) {
  return static_cast<int>(random() % static_cast<unsigned>(n));
}

void AddBandsAndSizes(std::mt19937& random, chart::Design& design) {
  const auto band = [&random](int length) {
    const int first = 1 + Below(random, length);
    return chart::Band{first, first + Below(random, length - first + 1)};
  };
  if (Below(random, 2) == 0) design.row_band = band(design.cells.rows());
  if (Below(random, 2) == 0) design.stitch_band = band(design.cells.stitches());
  design.sizes.clear();
  for (int size = 0; size < 3; ++size) {
    design.sizes.push_back({std::string(1, static_cast<char>('a' + size)),
                            design.stitch_band.has_value() ? 1 + Below(random, 6) : 1,
                            design.row_band.has_value() ? 1 + Below(random, 6) : 1});
  }
}

// A picture of more than two colours names the colour of every cell; a set cell is a mark.
void NameColours(std::mt19937& random, int colours, chart::Design& design) {
  for (int row = 1; row <= design.cells.rows(); ++row) {
    const chart::Colour own = chart::RowColour(design, row);
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      const auto shown =
          Below(random, 3) == 0 ? static_cast<chart::Colour>(Below(random, colours)) : own;
      design.picture_colours.push_back(shown);
      design.cells.set(row, stitch, shown != own);
    }
  }
}

}  // namespace

chart::Design RandomDesign(std::mt19937& random) {
  chart::Design design;
  design.technique = static_cast<chart::Technique>(Below(random, 3));
  design.facing = static_cast<chart::Facing>(Below(random, 3));
  design.ends = static_cast<chart::Ends>(Below(random, 3));
  if (design.technique != chart::Technique::kInset) {
    design.form = static_cast<chart::Form>(Below(random, 2));
  }
  design.convention = static_cast<chart::Convention>(Below(random, 2));
  const int rows = 1 + Below(random, 40);
  const int stitches = 1 + Below(random, 150);
  const int sparse = 1 + Below(random, 8);
  design.cells = chart::Grid(rows, stitches);
  for (int row = 1; row <= rows; ++row) {
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      design.cells.set(row, stitch, Below(random, sparse) == 0);
    }
  }
  AddBandsAndSizes(random, design);
  if (Below(random, 3) == 0) {
    const int colours = 2 + Below(random, 7);
    for (int row = 0; row < rows; ++row) {
      design.row_colours.push_back(static_cast<chart::Colour>(Below(random, colours)));
    }
    if (design.convention == chart::Convention::kPicture && chart::HasMoreThanTwoColours(design)) {
      NameColours(random, colours, design);
    }
  }
  if (Below(random, 6) == 0)
    design.foundation_colour = static_cast<chart::Colour>(Below(random, 3));
  return design;
}

}  // namespace rowproof::estimate
