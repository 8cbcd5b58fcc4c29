// Where a chart's cells are in a picture, and what they show there.
#ifndef ROWPROOF_SERVICES_IMAGES_LAYOUT_H_
#define ROWPROOF_SERVICES_IMAGES_LAYOUT_H_

#include <cstddef>
#include <optional>
#include <vector>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/images/cell_colours.h"
#include "services/images/chart_file.h"
#include "services/images/picture.h"

namespace rowproof::images {

// The insides of the cells: columns from the left, lines from the top, ascending, apart, none of
// them empty.
struct Layout {
  std::vector<Span> columns;
  std::vector<Span> lines;
};

// The class of each cell, top line first, each from the left.
struct CellClasses {
  int rows = 0;
  int stitches = 0;
  std::vector<CellClass> classes;
  CellClass at(int line, int column) const {
    return classes[static_cast<size_t>(line) * static_cast<size_t>(stitches) +
                   static_cast<size_t>(column)];
  }
};

// Cells of width x height pixels, which divide the region's sides.
Layout TouchingCells(const Region& region, int width, int height);

// INVALID_ARGUMENT, "grid.pitch_x" or "grid.pitch_y": no whole number of cells fits the region.
absl::StatusOr<Layout> DeclaredCells(const Region& region, const DeclaredGrid& grid);

// The same without `soft` pixels along each side. No value if a cell would have none left.
std::optional<Layout> WithoutEdges(const Layout& layout, int soft);

// Refuses more cells than a chart may have.
absl::Status CheckCellCount(const Layout& layout, const std::string& field);

// Counts the pixels inside the cells.
PixelCounts CountInside(const Picture& picture, const Layout& layout);

// A cell of two classes, in the chart's row and stitch numbers.
struct MixedCell {
  int row = 0;
  int stitch = 0;
  Rgb one;
  Rgb other;
};

// Reads every cell; all pixels inside have a class. A value: the first cell, from the top, that has
// two. Not all cells if the work has to stop, and then no value.
std::optional<MixedCell> ReadCells(const Picture& picture, const Layout& layout,
                                   const CellColours& colours, CellClasses* cells);

// Columns x > 0 of the region (from its left side) in which some line's class differs from that of
// its pixel to the left, and lines likewise; ascending.
struct Changes {
  std::vector<int> columns;
  std::vector<int> lines;
  bool empty() const { return columns.empty() && lines.empty(); }
};
Changes FindChanges(const Picture& picture, const Region& region, const CellColours& colours);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_LAYOUT_H_
