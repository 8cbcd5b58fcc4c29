#include "services/drawing/charts/cells.h"

#include <algorithm>

#include "services/drawing/palette.h"

namespace rowproof::drawing {
namespace {

using chart::Convention;
using chart::Design;
using chart::Grid;

constexpr uint8_t kA = 0;
constexpr uint8_t kB = 1;

// Row r of the source in row r + up of the target, if there is one.
Grid Shifted(const Grid& source, int up) {
  Grid target(source.rows(), source.stitches());
  for (int row = 1; row <= source.rows(); ++row) {
    if (row + up < 1 || row + up > source.rows()) continue;
    const auto from = source.row(row);
    std::copy(from.begin(), from.end(), target.mutable_row(row + up).begin());
  }
  return target;
}

}  // namespace

std::vector<uint8_t> RowColourIndices(const Design& design) {
  std::vector<uint8_t> colours;
  colours.reserve(static_cast<size_t>(design.cells.rows()));
  for (int row = 1; row <= design.cells.rows(); ++row) {
    colours.push_back(static_cast<uint8_t>(IndexOf(chart::RowColour(design, row))));
  }
  return colours;
}

std::vector<uint8_t> PictureColours(const Design& design, const Stop& stop) {
  const int rows = design.cells.rows();
  const int stitches = design.cells.stitches();
  const std::vector<uint8_t> row_colours = RowColourIndices(design);
  const bool given = design.convention == Convention::kPicture;
  std::vector<uint8_t> colours;
  colours.reserve(static_cast<size_t>(rows) * static_cast<size_t>(stitches));
  if (given && !design.picture_colours.empty()) {
    for (const chart::Colour colour : design.picture_colours) {
      if (stop.After(1)) return colours;
      colours.push_back(static_cast<uint8_t>(IndexOf(colour)));
    }
    return colours;
  }
  for (int row = 1; row <= rows; ++row) {
    const uint8_t own = row_colours[static_cast<size_t>(row - 1)];
    if (stop.After(stitches)) return colours;
    const uint8_t above = row < rows ? row_colours[static_cast<size_t>(row)] : own;
    for (int stitch = 1; stitch <= stitches; ++stitch) {
      if (given) {
        colours.push_back(design.cells.at(row, stitch) ? kB : kA);
      } else {
        colours.push_back(row < rows && design.cells.at(row + 1, stitch) ? above : own);
      }
    }
  }
  return colours;
}

Grid OffColourCells(const Design& design, const Stop& stop) {
  if (design.convention == Convention::kPicture && !design.picture_colours.empty()) {
    return design.cells;
  }
  const std::vector<uint8_t> row_colours = RowColourIndices(design);
  const std::vector<uint8_t> colours = PictureColours(design, stop);
  Grid off(design.cells.rows(), design.cells.stitches());
  size_t cell = 0;
  for (int row = 1; row <= off.rows(); ++row) {
    if (stop.After(off.stitches())) return off;
    const uint8_t own = row_colours[static_cast<size_t>(row - 1)];
    for (int stitch = 1; stitch <= off.stitches(); ++stitch, ++cell) {
      if (colours[cell] != own) off.set(row, stitch, true);
    }
  }
  return off;
}

Grid DropCells(const Design& design, const Stop& stop) {
  if (design.convention == Convention::kWorking) return design.cells;
  return Shifted(OffColourCells(design, stop), 1);
}

}  // namespace rowproof::drawing
