// Finds the grid lines, row numbers and margins around and between a chart's cells.
#ifndef ROWPROOF_SERVICES_IMAGES_GRID_FINDER_H_
#define ROWPROOF_SERVICES_IMAGES_GRID_FINDER_H_

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "services/images/cell_colours.h"
#include "services/images/chart_file.h"
#include "services/images/layout.h"
#include "services/images/picture.h"

namespace rowproof::images {

// A whole explanation of a region of a picture: lines, and cells each of one colour.
struct FoundCells {
  Layout layout;
  Region used;  // cells and the lines around them
  CellColours colours;
  CellClasses cells;
  std::optional<GridLines> grid;
  // Of cells without lines between them, in pixels; 0: there are lines.
  int cell_width = 0;
  int cell_height = 0;
  bool certain = true;  // no other explanation is as good
  bool HasSquares() const { return cell_width > 0 && cell_width == cell_height; }
};

struct GridSearch {
  std::optional<FoundCells> found;
  // If lines were found, but not every cell is of one colour, or it is not certain where the chart
  // ends: a clause for the refusal.
  std::string nearly;
  bool uncertain = false;  // all cells were read, but it is not certain where the chart ends
  size_t nearly_rank = 0;  // how much that explains
};

// How it is done. The most frequent colours, and pairs of them, are tried for the lines' colour. A
// column is a line's if it is of that colour from the grid's top to its bottom: that is, along the
// run that most columns share, among those that have a long one. FitAxis looks for evenly spaced
// lines. What is beyond the outer lines (margins, numbers) does not matter, soft-edged or not. The
// answer is taken only if then each cell is of one colour, up to two pixels from its sides (soft
// edges), at most as many colours occur in cells as the row order names, and nothing else could be
// meant: a chart whose outer cells cannot be told from its margin is not taken. Lines that change
// their colour, cells with signs, and a lattice of fewer than 2 x 2 cells are not found.
// Nothing is found if the picture's work has to stop; the caller asks it.
GridSearch FindGridLines(const Picture& picture, const Region& region,
                         const ImportSettings& settings);

// Cells without lines, in a margin of another colour, which may hold numbers.
GridSearch FindMargins(const Picture& picture, const Region& region,
                       const ImportSettings& settings);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_GRID_FINDER_H_
