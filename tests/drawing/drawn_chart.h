// A drawn chart read back: the cells of its picture and the labels of its rows, found by what is
// drawn and not by the drawing's own sums.
#ifndef ROWPROOF_TESTS_DRAWING_DRAWN_CHART_H_
#define ROWPROOF_TESTS_DRAWING_DRAWN_CHART_H_

#include <string>
#include <vector>

#include "services/drawing/charts/drawing.h"
#include "tests/drawing/drawn_file.h"
#include "tests/drawing/png_pixels.h"

namespace rowproof::drawing {

// The chart's bytes; empty, and the test failed, where it is refused.
std::string Draw(const chart::Design& design, const DrawingRequest& request, DrawingFormat format);

// Pixels along the side of a cell of DrawnCells.
inline constexpr int kCell = 30;

// The cells of a PNG, found by their frame: the first dark line of the chart's width.
class DrawnCells {
 public:
  DrawnCells(const chart::Design& design, const DrawingRequest& request);

  // A place in a cell, in fractions from its left and top edge; frames are 3 pixels.
  Pixel At(int row, int stitch, double right, double down) const;
  double Ground(int row, int stitch) const { return At(row, stitch, 0.14, 0.3).Lightness(); }
  // A cell as the signs of its pixels against its ground: what is left when all tone is gone.
  std::vector<bool> Shape(int row, int stitch) const;

 private:
  int rows_;
  int stitches_;
  PngPixels png_;
  int top_ = -1;
  int left_ = -1;
};

// As read from a page of A4: a row's number with RS or WS beside it, further out from the cells.
struct ReadRowLabel {
  int number;
  bool right_side;
  bool at_right;
};
std::vector<ReadRowLabel> RowLabelsOf(const DrawnFile& file);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_TESTS_DRAWING_DRAWN_CHART_H_
