// One size of a design worked in full, cell by cell, for the plain rules.
#ifndef ROWPROOF_TESTS_DOMAIN_CHART_PLAIN_PIECE_H_
#define ROWPROOF_TESTS_DOMAIN_CHART_PLAIN_PIECE_H_

#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::chart {

// Rows and stitches from 1; index 0 of the lists is unused. A row is a row of the chart, whatever
// the worked rows.
struct PlainPiece {
  bool picture = false;
  std::vector<int> row;     // chart row of each row
  std::vector<int> stitch;  // chart stitch of each stitch
  std::vector<Colour> colour;
  std::vector<Colour> shown;  // a picture: the colour each cell shows, row after row
  std::vector<char> drop;     // a working chart: whether each cell is a drop

  int rows() const { return static_cast<int>(row.size()) - 1; }
  int stitches() const { return static_cast<int>(stitch.size()) - 1; }
  int RowAt(int r) const { return row[static_cast<size_t>(r)]; }
  int StitchAt(int s) const { return stitch[static_cast<size_t>(s)]; }
  Colour ColourAt(int r) const { return colour[static_cast<size_t>(r)]; }
  size_t Cell(int r, int s) const { return static_cast<size_t>((r - 1) * stitches() + s - 1); }
  Colour Shown(int r, int s) const { return shown[Cell(r, s)]; }

  // Whether (r, s) is a drop; row rows() + 1 stands for the row that a picture's last row lacks.
  bool Drop(int r, int s) const {
    if (r < 1) return false;
    if (picture) return r >= 2 && Shown(r - 1, s) != ColourAt(r - 1);
    return r <= rows() && drop[Cell(r, s)] != 0;
  }
  // The row whose chart row names the place of a drop in row r.
  int PlaceOf(int r) const { return picture ? r - 1 : r; }
};

// A repeated band with an odd number of rows while two colours alternate.
bool OddRepeat(const Design& design);

PlainPiece MakePlainPiece(const Design& design, const Size& size);

}  // namespace rowproof::chart

#endif  // ROWPROOF_TESTS_DOMAIN_CHART_PLAIN_PIECE_H_
