// How large the cells of a picture without grid lines are.
#ifndef ROWPROOF_SERVICES_IMAGES_CELL_SIZE_H_
#define ROWPROOF_SERVICES_IMAGES_CELL_SIZE_H_

#include "services/images/layout.h"
#include "services/images/picture.h"

namespace rowproof::images {

// Pixels of a cell, across and up.
struct CellSize {
  int width = 1;
  int height = 1;
  // No other size explains the picture as well.
  bool certain = true;
  bool square() const { return width == height; }
  bool operator==(const CellSize&) const = default;
};

// What the changes of colour allow. Width and height are found separately: each is the greatest
// that divides the side and has all changes along it between cells. If the two differ, the chart
// may also have squares of which several lie side by side in one colour throughout:
// - one is a multiple of the other: squares are taken, and that is not certain;
// - one is less than kNarrowestFoundCell pixels: squares, since a cell of one or two pixels is;
// - neither: the cells are as wide and as high as found. Certain if the sides are in a proportion
//   of 4 : 3 at most (beyond that, half the longer side would be nearer to a square), and single
//   cells and enough changes were seen along both.
// Squares are uncertain, too, if the changes lie regularly but not from the sides on, as in a
// chart with a margin of its cells' colour. Without any change: a pixel, uncertain.
CellSize FindCellSize(const Changes& changes, const Region& region);

// How far the changes of one axis are apart at least, and the greatest common measure of these
// distances; 0 if there are fewer than two changes.
int LeastDistance(const std::vector<int>& changes);
int CommonDistance(const std::vector<int>& changes);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_CELL_SIZE_H_
